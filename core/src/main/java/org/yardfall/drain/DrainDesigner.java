package org.yardfall.drain;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.yardfall.drain.DrainCatchment.Served;
import org.yardfall.drain.DrainFlows.Carried;
import org.yardfall.elevation.Terrain;
import org.yardfall.pipe.DrainInflow;
import org.yardfall.pipe.EmptyingTime;
import org.yardfall.pipe.GroundwaterInflow;
import org.yardfall.pipe.HydraulicGradeLine;
import org.yardfall.pipe.Pipe;
import org.yardfall.pipe.PipeTable;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainKind;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Assumption;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;
import org.yardfall.site.Soil;
import org.yardfall.trench.FilterCheck;
import org.yardfall.trench.Geotextile;
import org.yardfall.trench.GeotextileFilter;
import org.yardfall.trench.MetrePrice;
import org.yardfall.trench.StoneFilter;
import org.yardfall.trench.StoneSize;
import org.yardfall.water.LevelledGround;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;

/**
 * Makes routes buildable: what flows where, which pipe, how high the water stands, how long it
 * takes to leave, what it takes to build and what to mind.
 *
 * <p>The route is designed as planned. Where a stretch needs a larger pipe than the route has cover
 * for, {@link DrainDesign#tooSmall()} names the pipe to plan it with again.
 */
public final class DrainDesigner {

  private final Site site;
  private final SurfaceWater water;
  private final Storm storm;
  private final DrainCatchmentFinder catchments;
  private final Optional<LevelledGround> levelled;

  private DrainDesigner(
      Site site,
      Terrain terrain,
      SurfaceWater water,
      Storm storm,
      Optional<LevelledGround> levelled) {
    this.site = site;
    this.water = water;
    this.storm = storm;
    this.catchments = DrainCatchmentFinder.of(site, terrain, water, storm);
    this.levelled = levelled;
  }

  /** A designer for the drains of a site. */
  public static DrainDesigner of(Site site, Terrain terrain, SurfaceWater water, Storm storm) {
    return new DrainDesigner(site, terrain, water, storm, Optional.empty());
  }

  /**
   * A designer for the drains of a site on which swales are levelled. A drain in place of a swale
   * is designed for all that runs in the swale now, others for the ground as levelled.
   *
   * @param water the surface water of the ground as levelled
   */
  public static DrainDesigner of(
      Site site, LevelledGround levelled, SurfaceWater water, Storm storm) {
    return new DrainDesigner(site, levelled.after(), water, storm, Optional.of(levelled));
  }

  /** The design of one route. */
  public static DrainDesign design(
      Route route, Site site, Terrain terrain, SurfaceWater water, Storm storm) {
    return of(site, terrain, water, storm).design(route);
  }

  /** The ground whose water a route takes on the ground as it will be. */
  public DrainCatchment takes(Route route) {
    return catchments.find(route);
  }

  /** The design of a route that no downspout joins. */
  public DrainDesign design(Route route) {
    return design(route, List.of());
  }

  /**
   * The design of a route.
   *
   * @param roofs downspouts that are to join it
   * @throws org.yardfall.site.BadInputException if roof water would run into perforated pipe, or
   *     the pipe does not fit the trench
   */
  public DrainDesign design(Route route, List<RoofInlet> roofs) {
    RoofInlet.check(route, roofs);
    Pipe planned = PipeTable.of(site.drain());
    boolean inSwale = route.kind() == DrainKind.SWALE && levelled.isPresent();
    SurfaceWater meets = inSwale ? levelled.get().waterBefore() : water;
    DrainCatchment catchment =
        inSwale
            ? DrainCatchmentFinder.of(site, levelled.get().before(), meets, storm).find(route)
            : catchments.find(route);
    List<List<Carried>> flows = DrainFlows.along(route, site, storm, planned, catchment);
    Optional<Outlet> outlet =
        site.outlets().stream().filter(o -> o.id().equals(route.outletId())).findFirst();

    PipeSizer sizer = new PipeSizer(site, planned);
    List<LineDesign> lines = lines(route, sizer, flows, outlet);
    TakeOff takeOff =
        TakeOffBuilder.of(
            route,
            site,
            lines,
            outlet.flatMap(o -> Pumping.atEnd(lines.get(0), o, site, storm, catchment)),
            outlet.map(this::open).orElse(false));
    return new DrainDesign(
        route.id(),
        route.outletId(),
        catchment,
        lines,
        sizer.needed(),
        ReliefDrains.of(site.soil(), lines, planned),
        new OverlandPathFinder(site, water).find(route),
        emptying(catchment, meets, lines, takeOff),
        filters(planned),
        takeOff,
        CautionFinder.find(route, site, lines),
        assumptions(planned),
        warnings(lines));
  }

  /** Where the rain's intensity had to be looked up outside its table. */
  private List<String> warnings(List<LineDesign> lines) {
    double shortest = Double.POSITIVE_INFINITY;
    double longest = 0;
    for (LineDesign line : lines) {
      for (StretchDesign stretch : line.stretches()) {
        if (stretch.areaM2() > 0 && !storm.bursts().covers(stretch.timeS())) {
          shortest = Math.min(shortest, stretch.timeS());
          longest = Math.max(longest, stretch.timeS());
        }
      }
    }
    if (longest == 0) {
      return List.of();
    }
    return List.of(
        String.format(
            Locale.ROOT,
            "the times of concentration along it, %.1f to %.1f min, lie outside the intensity table"
                + " (%.1f to %.1f min): its nearest two lines were continued",
            shortest / 60,
            longest / 60,
            storm.bursts().shortestS() / 60,
            storm.bursts().longestS() / 60));
  }

  private boolean open(Outlet outlet) {
    return switch (outlet.kind()) {
      case DITCH, WATERWAY, STREET, DAYLIGHT -> true;
      case CATCH_BASIN, DRY_WELL -> false;
    };
  }

  /** Pipes from the branches down to the main line, water from the main line up. */
  private List<LineDesign> lines(
      Route route, PipeSizer sizer, List<List<Carried>> flows, Optional<Outlet> outlet) {
    List<DrainLine> drains = DrainCatchmentFinder.lines(route);
    List<List<StretchDesign>> stretches = new ArrayList<>();
    List<List<PipeSizer.Joint>> joints = new ArrayList<>();
    drains.forEach(each -> joints.add(new ArrayList<>()));
    for (int i = drains.size() - 1; i >= 0; i--) { // a branch comes after the line that it joins
      stretches.add(0, sizer.line(drains.get(i), bores(route, i), flows.get(i), joints.get(i)));
      if (i > 0) {
        Route.Branch branch = route.branches().get(i - 1);
        joints
            .get(branch.joins())
            .add(new PipeSizer.Joint(branch.junctionM(), sizer.largest(stretches.get(0))));
      }
    }

    List<LineDesign> lines = new ArrayList<>();
    // A pump keeps the water of its sump below the drain's end, whatever stands outside.
    Optional<Outlet> byGravity = outlet.filter(o -> !site.outletRules().pumped());
    HydraulicGradeLine main =
        hydraulic(
            drains.get(0),
            stretches.get(0),
            byGravity.map(Outlet::waterLevelM).orElse(OptionalDouble.empty()),
            byGravity.map(Outlet::lidM).orElse(OptionalDouble.empty()));
    lines.add(new LineDesign("main", drains.get(0), stretches.get(0), main));
    for (int i = 1; i < drains.size(); i++) {
      Route.Branch branch = route.branches().get(i - 1);
      OptionalDouble level =
          OptionalDouble.of(lines.get(branch.joins()).hydraulic().levelM(branch.junctionM()));
      lines.add(
          new LineDesign(
              CautionFinder.name(i),
              drains.get(i),
              stretches.get(i),
              hydraulic(drains.get(i), stretches.get(i), level, OptionalDouble.empty())));
    }
    return lines;
  }

  private static List<Bore> bores(Route route, int line) {
    return route.bores().stream().filter(bore -> bore.line() == line).toList();
  }

  private static HydraulicGradeLine hydraulic(
      DrainLine line, List<StretchDesign> stretches, OptionalDouble water, OptionalDouble lid) {
    List<HydraulicGradeLine.Node> nodes = new ArrayList<>();
    for (Station station : line.stations()) {
      nodes.add(
          new HydraulicGradeLine.Node(station.stationM(), station.groundM(), station.invertM()));
    }
    return HydraulicGradeLine.along(
        nodes,
        stretches.stream()
            .map(s -> new HydraulicGradeLine.Stretch(s.pipe(), s.count(), s.passesM3S()))
            .toList(),
        water,
        lid);
  }

  private EmptyingTime emptying(
      DrainCatchment catchment, SurfaceWater meets, List<LineDesign> lines, TakeOff takeOff) {
    double standing = 0;
    double soak = 0;
    double soakM2 = 0;
    Set<String> ids = catchment.served().stream().map(Served::id).collect(Collectors.toSet());
    for (Served served : catchment.served()) {
      boolean within =
          meets.lowSpots().stream()
              .filter(s -> s.id().equals(served.id()))
              .map(LowSpot::parentId)
              .anyMatch(ids::contains);
      standing += within ? 0 : served.volumeM3();
      soak += within ? 0 : served.belowM3();
      soakM2 += within ? 0 : served.belowM2();
    }
    double stoneM3 =
        takeOff.lines().stream()
            .filter(l -> l.code().equals("stone-volume"))
            .mapToDouble(TakeOff.Line::needed)
            .sum();
    double pipeM3S =
        lines.get(0).stretches().stream().mapToDouble(StretchDesign::capacityM3S).min().orElse(0);
    double intakeM3S =
        lines.stream()
            .flatMap(l -> l.stretches().stream())
            .mapToDouble(s -> s.intakeM2S() * s.lengthM())
            .sum();
    return EmptyingTime.of(
        standing - soak + MetrePrice.of(site).stone().voidsM3(stoneM3),
        pipeM3S,
        intakeM3S,
        soakM2,
        soak,
        conductivityMS());
  }

  private double conductivityMS() {
    return site.soil()
        .conductivityMS()
        .orElse(
            switch (site.soil().group()) {
              case 'A' -> 40e-6;
              case 'B' -> 10e-6;
              case 'C' -> 1e-6;
              default -> 0.1e-6;
            });
  }

  private boolean critical() {
    return site.soil().filterClass() == Soil.FilterClass.CRITICAL;
  }

  private List<FilterCheck> filters(Pipe pipe) {
    List<FilterCheck> checks = new ArrayList<>();
    StoneSize stone = StoneSize.of(MetrePrice.of(site).stone().size());
    if (pipe.perforated()) {
      checks.add(
          StoneFilter.againstOpenings(
              stone, pipe.opening() == Pipe.Opening.SLOT, pipe.openingM() * 1000));
    }
    if (site.soil().grains() != null) {
      checks.addAll(
          GeotextileFilter.check(
              Geotextile.USUAL, site.soil().grains(), site.soil().conductivityMS(), critical()));
      checks.addAll(StoneFilter.againstSoil(stone, site.soil().grains()));
    }
    return checks;
  }

  private List<Assumption> assumptions(Pipe planned) {
    List<Assumption> all = new ArrayList<>(MetrePrice.of(site).assumptions());
    all.add(
        new Assumption(
            "pipe", "n of " + planned.words() + " the same at all depths", planned.nSource()));
    all.add(
        new Assumption(
            "drain inflow",
            String.format(
                Locale.ROOT,
                "%.0f mm of water over the fabric, stone conductivity %.2f m/s, orifice coefficient"
                    + " %.1f, half of the openings free",
                StretchIntake.POND_M * 1000,
                DrainInflow.STONE_CONDUCTIVITY_MS,
                DrainInflow.ORIFICE),
            "common practice, no source; openings: AASHTO M 252; coefficient: FHWA HEC-22 (2009);"
                + " textbooks measure 0.61 to 0.62"));
    all.add(
        new Assumption(
            "drain catchment",
            "the pipe is sized with every low spot that it runs through or that lies above it full, so"
                + " that all of its water comes, also what would leave elsewhere without the drain;"
                + " the ledger with the drain counts what they hold back; a low spot with a catch"
                + " basin in it drains into that",
            "the safe side of each"));
    all.add(new Assumption("geotextile", Geotextile.USUAL.words(), Geotextile.USUAL.source()));
    if (critical()) {
      all.add(
          new Assumption(
              "geotextile",
              "critical filter: ten times the soil's permeability is asked; whether it clogs is for a"
                  + " gradient ratio test with the soil itself (ASTM D5101), which these numbers do"
                  + " not replace",
              "FHWA geosynthetics manual, after Christopher & Holtz 1985"));
    }
    if (site.soil().grains() == null) {
      all.add(
          new Assumption(
              "soil.grains",
              "not known: fabric and stone were not checked against the soil",
              "give d15, d50, d85, uniformity and fines of a grading curve"));
    }
    if (site.soil().conductivityMS().isEmpty()) {
      all.add(
          new Assumption(
              "soil.conductivity",
              String.format(
                  Locale.ROOT,
                  "%.2g m/s for water that must soak away, by hydrologic group %c",
                  conductivityMS(),
                  site.soil().group()),
              "USDA NRCS, NEH 630 ch. 7 (2009), lower limit of the group; D: a tenth of its upper"
                  + " limit, common practice, no source"));
    }
    if (!site.soil().groundwaterKnown()) {
      all.add(
          new Assumption(
              "groundwater", GroundwaterInflow.SURFACE_WATER_ONLY, "not given in the site file"));
    } else {
      all.add(
          new Assumption(
              "groundwater",
              "steady inflow from both sides to where the water table is drawn down"
                  + (site.soil().impermeableDepthM().isPresent()
                      ? ""
                      : "; no impermeable layer was given: water from below the drain is not"
                          + " counted"),
              "Dupuit 1863; reach by Sichardt, 3000 s √K"));
    }
    if (site.soil().relief() != null) {
      all.add(
          new Assumption(
              "relief drains",
              "as deep as this drain on the mean, one conductivity above and below, the pipe's"
                  + " outside as the drain"
                  + (site.soil().impermeableDepthM().isPresent()
                      ? ""
                      : "; no impermeable layer was given: taken at the drains, which puts them"
                          + " closest"),
              "Hooghoudt 1940"));
    }
    return all;
  }
}
