package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Point;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Building;
import org.yardfall.site.Outlet;
import org.yardfall.site.OutletRules;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;
import org.yardfall.trench.Stone;
import org.yardfall.water.FlowField;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;

/**
 * Asks of each outlet what its kind needs: that water need not be lifted into it, that it does not
 * lead back to where the water was taken, that it does not pour onto a neighbour, that soil takes
 * it, that it is allowed.
 */
final class OutletInspector {

  /** A flow path this near to a collecting line, in metres, is back in it. */
  private static final double BACK_M = 0.5;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final Site site;
  private final ElevationGrid ground;
  private final SurfaceWater water;
  private final OutletRules rules;

  OutletInspector(Site site, ElevationGrid ground, SurfaceWater water, OutletRules rules) {
    this.site = site;
    this.ground = ground;
    this.water = water;
    this.rules = rules;
  }

  /**
   * Why an outlet is refused.
   *
   * @param code the reason's code
   * @param sentence the reason with its numbers
   * @param shortfallM by how much the outlet lies too high at least, in metres; empty where
   *     lowering it is no mend
   */
  record Refusal(String code, String sentence, OptionalDouble shortfallM) {

    static Refusal of(String code, String format, Object... values) {
      return new Refusal(code, String.format(Locale.ROOT, format, values), OptionalDouble.empty());
    }
  }

  /** Why a collector's water may not be let go at an outlet, or empty where it may. */
  Optional<Refusal> refuse(Outlet outlet, Collector collector, List<LowSpot> lowSpots) {
    return allowed(outlet, collector)
        .or(() -> liftsWater(outlet, collector))
        .or(() -> ontoNeighbour(outlet))
        .or(() -> recirculates(outlet, collector, lowSpots));
  }

  private Optional<Refusal> allowed(Outlet outlet, Collector collector) {
    if (rules.pumped() && outlet.kind() == Outlet.Kind.STREET && !rules.pumpedToStreet()) {
      return Optional.of(
          Refusal.of(
              "pumped-to-street",
              "outlet %s: pumped water may not be let onto a street under the rules set; ice and"
                  + " flooding are the usual grounds",
              outlet.id()));
    }
    if (outlet.kind() == Outlet.Kind.DAYLIGHT && inNeighbour(outlet.at()).isEmpty()) {
      List<String> faults = OutletZone.faults(site, rules, outlet.at());
      if (!faults.isEmpty()) {
        return Optional.of(
            Refusal.of(
                "outlet-zone",
                "outlet %s: a pipe may not come to daylight there: %s%s",
                outlet.id(),
                String.join("; ", faults),
                OutletZone.daylight(site, rules).isEmpty()
                    ? "; nothing of the lot is left: there is no lawful surface outlet under these"
                        + " rules"
                    : ""));
      }
    }
    return outlet.kind() == Outlet.Kind.DRY_WELL ? dryWell(outlet, collector) : Optional.empty();
  }

  /** How large a pit filled with stone must be to hold the storm's rain on what drains to it. */
  private String storage(Collector collector) {
    if (!(collector.servedM2() > 0)) {
      return "";
    }
    double rainM3 = collector.servedM2() * Storm.of(site.storm()).depthM();
    return String.format(
        Locale.ROOT,
        "; the design storm rains %.1f m3 on the %.0f m2 that drain to it, which fills %.1f m3 of"
            + " stone at %.0f %% voids but for what soaks away meanwhile",
        rainM3,
        collector.servedM2(),
        rainM3 / Stone.USUAL.porosity(),
        100 * Stone.USUAL.porosity());
  }

  private Optional<Refusal> dryWell(Outlet outlet, Collector collector) {
    for (Building building : site.buildings()) {
      double away = building.outline().distance(FACTORY.createPoint(outlet.at()));
      if (away < rules.dryWellFromHouseM()) {
        return Optional.of(
            Refusal.of(
                "near-building",
                "outlet %s: a dry well %.2f m from building %s soaks its footing; it must be"
                    + " %.2f m away",
                outlet.id(),
                away,
                building.id(),
                rules.dryWellFromHouseM()));
      }
    }
    OptionalDouble conductivity = site.soil().conductivityMS();
    if (conductivity.isEmpty()) {
      return Optional.of(
          Refusal.of(
              "soil-unknown",
              "outlet %s: whether a dry well works cannot be said, the soil's conductivity not"
                  + " being known; have a percolation test made%s",
              outlet.id(),
              storage(collector)));
    }
    if (conductivity.getAsDouble() < rules.dryWellConductivityMS()) {
      return Optional.of(
          Refusal.of(
              "soil-too-tight",
              "outlet %s: the soil takes %.2f mm/h, a dry well needs %.1f mm/h",
              outlet.id(),
              conductivity.getAsDouble() * 3.6e6,
              rules.dryWellConductivityMS() * 3.6e6));
    }
    double there = ground.bilinear(outlet.at().x, outlet.at().y);
    OptionalDouble table = site.soil().waterTableM(there);
    double invert = outlet.invertM().orElse(there);
    if (table.isPresent() && table.getAsDouble() >= invert) {
      return Optional.of(
          Refusal.of(
              "water-table",
              "outlet %s: the water table at %.2f m stands above the dry well's inlet at %.2f m",
              outlet.id(),
              table.getAsDouble(),
              invert));
    }
    return Optional.empty();
  }

  /** A pipe cannot lift water above the lowest ground at which the drain takes it in. */
  private Optional<Refusal> liftsWater(Outlet outlet, Collector collector) {
    double lowest = lowestGroundM(collector);
    if (rules.pumped()) {
      return Optional.empty();
    }
    if (outlet.lidM().isPresent()) {
      double needs = outlet.lidM().getAsDouble() + rules.lidLossM();
      if (needs > lowest) {
        return Optional.of(
            lift(
                "lid-too-high",
                String.format(
                    Locale.ROOT,
                    "outlet %s: its lid at %.2f m with %.2f m of head to pass it needs water at"
                        + " %.2f m, but at %.2f m it wells out of the drain's lowest ground; a pipe"
                        + " cannot lift water: %.3f m short",
                    outlet.id(),
                    outlet.lidM().getAsDouble(),
                    rules.lidLossM(),
                    needs,
                    lowest,
                    needs - lowest),
                needs - lowest));
      }
    }
    if (outlet.waterLevelM().isPresent() && outlet.waterLevelM().getAsDouble() >= lowest) {
      double by = outlet.waterLevelM().getAsDouble() - lowest;
      return Optional.of(
          lift(
              "backflow",
              String.format(
                  Locale.ROOT,
                  "outlet %s: in the storm its water stands at %.2f m, %.3f m above the drain's"
                      + " lowest ground at %.2f m, and would flow back into the yard",
                  outlet.id(),
                  outlet.waterLevelM().getAsDouble(),
                  by,
                  lowest),
              by));
    }
    return Optional.empty();
  }

  /**
   * Why a drain found may not end at a lid.
   *
   * @param upperEndM invert of the drain's upper end in metres, below the lid
   */
  static Refusal belowLid(Outlet outlet, double upperEndM) {
    double by = outlet.lidM().orElseThrow() - upperEndM;
    return lift(
        "lid-too-high",
        String.format(
            Locale.ROOT,
            "outlet %s: its lid at %.2f m lies above the drain's upper end at %.2f m, so that water"
                + " would stand in the whole pipe before any passes it; a pipe cannot lift water:"
                + " %.3f m short; an outlet without a lid, such as a flat one through the curb, needs"
                + " no such head",
            outlet.id(),
            outlet.lidM().getAsDouble(),
            upperEndM,
            by),
        by);
  }

  /**
   * Why a drain found may not lead to an outlet whose water stands high.
   *
   * @param groundM lowest ground in metres over the drain, lower than that water
   */
  static Refusal aboveDrain(Outlet outlet, double groundM) {
    double by = outlet.waterLevelM().orElseThrow() - groundM;
    return lift(
        "backflow",
        String.format(
            Locale.ROOT,
            "outlet %s: in the storm its water stands at %.2f m, %.3f m above the lowest ground over"
                + " the way to it, at %.2f m, and would well out of the drain there",
            outlet.id(),
            outlet.waterLevelM().getAsDouble(),
            by,
            groundM),
        by);
  }

  private static Refusal lift(String code, String sentence, double byM) {
    double least = Math.max(1, Math.ceil(byM * 1000)) / 1000;
    return new Refusal(code, sentence, OptionalDouble.of(least));
  }

  /** Lowest ground in metres over a collector's lines. */
  double lowestGroundM(Collector collector) {
    double lowest = Double.POSITIVE_INFINITY;
    double step = ground.frame().cellM() / 2;
    for (LineString line : collector.lines()) {
      var along = new org.locationtech.jts.linearref.LengthIndexedLine(line);
      int steps = (int) Math.ceil(line.getLength() / step);
      for (int i = 0; i <= steps; i++) {
        Coordinate p = along.extractPoint(line.getLength() * i / steps);
        double z = ground.bilinear(p.x, p.y);
        lowest = Double.isNaN(z) ? lowest : Math.min(lowest, z);
      }
    }
    return lowest;
  }

  private Optional<Refusal> ontoNeighbour(Outlet outlet) {
    if (outlet.kind() != Outlet.Kind.DAYLIGHT) {
      return Optional.empty();
    }
    Optional<Parcel> neighbour = inNeighbour(outlet.at());
    for (Coordinate p : downhill(outlet.at())) {
      if (neighbour.isPresent()) {
        break;
      }
      neighbour = inNeighbour(p);
      if (neighbour.isEmpty() && !inLot(p)) {
        break;
      }
    }
    return neighbour.map(
        n ->
            Refusal.of(
                "onto-neighbour",
                "outlet %s: the water would reach parcel %s as a point, which concentrates it;"
                    + " spread it level along the lot's own line well short of the boundary, or"
                    + " raise the matter with the neighbour",
                outlet.id(),
                n.id()));
  }

  private Optional<Refusal> recirculates(
      Outlet outlet, Collector collector, List<LowSpot> lowSpots) {
    boolean surface =
        switch (outlet.kind()) {
          case DAYLIGHT, DITCH, STREET -> true;
          case CATCH_BASIN, WATERWAY, DRY_WELL -> false;
        };
    if (!surface) {
      return Optional.empty();
    }
    double near = Math.max(BACK_M, ground.frame().cellM() * 0.75);
    for (Coordinate p : downhill(outlet.at())) {
      Point here = FACTORY.createPoint(p);
      for (LineString line : collector.lines()) {
        if (line.isWithinDistance(here, near)) {
          return Optional.of(
              Refusal.of(
                  "recirculates",
                  "outlet %s: from there water runs back to the drain at %.1f, %.1f",
                  outlet.id(),
                  p.x,
                  p.y));
        }
      }
      for (LowSpot spot : lowSpots) {
        if (collector.serves().contains(spot.id()) && spot.outline().intersects(here)) {
          return Optional.of(
              Refusal.of(
                  "recirculates",
                  "outlet %s: from there water runs back into low spot %s, which it is to drain",
                  outlet.id(),
                  spot.id()));
        }
      }
    }
    return Optional.empty();
  }

  /** Cell centres down the flow path from a place, the place's own cell first. */
  List<Coordinate> downhill(Coordinate from) {
    FlowField flow = water.flow();
    GridFrame frame = flow.frame();
    List<Coordinate> path = new ArrayList<>();
    int cell = frame.index(from.x, from.y);
    while (cell >= 0 && path.size() <= frame.size()) {
      path.add(frame.centre(cell));
      cell = flow.receiver(cell);
    }
    return path;
  }

  private boolean inLot(Coordinate p) {
    return site.lot().orElseThrow().outline().intersects(FACTORY.createPoint(p));
  }

  private Optional<Parcel> inNeighbour(Coordinate p) {
    Geometry here = FACTORY.createPoint(p);
    return site.neighbours().stream()
        .filter(parcel -> parcel.outline().intersects(here))
        .findFirst();
  }
}
