package org.yardfall;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.elevation.Terrain;
import org.yardfall.layer.Result;
import org.yardfall.route.RoutePlan;
import org.yardfall.runoff.InflowLedger;
import org.yardfall.runoff.InflowLedgerFinder;
import org.yardfall.runoff.Storm;
import org.yardfall.runoff.SurfaceCover;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Problem;
import org.yardfall.site.Site;
import org.yardfall.water.Freeboard;
import org.yardfall.water.StandingWater;
import org.yardfall.water.StandingWaterFinder;
import org.yardfall.water.SurfaceWater;

/**
 * The whole job in one call: {@code Screening.of(site).run()} reads the ground, finds what its
 * water does, and designs the drains. It prints nothing and writes no file.
 */
public final class Screening {

  private static final RoutePlan NO_PLAN =
      new RoutePlan(List.of(), List.of(), Optional.empty(), List.of(), List.of());

  /** A pipe into a drain does not lie deeper than this in metres; common practice, no source. */
  private static final double DEEPEST_INVERT_M = 10;

  private final Site given;
  private Progress progress = Progress.SILENT;
  private Consumer<Result> onWater = water -> {};

  private Screening(Site site) {
    this.given = site;
  }

  /** A screening of the given site. */
  public static Screening of(Site site) {
    return new Screening(site);
  }

  /** Tells the given listener what is being worked at. */
  public Screening onProgress(Progress listener) {
    this.progress = listener;
    return this;
  }

  /**
   * Gives the given listener, before the routes are sought, what the surface water does: what needs
   * no route can be made of it meanwhile. The listener must not keep the screening waiting.
   */
  public Screening onWater(Consumer<Result> listener) {
    this.onWater = listener;
    return this;
  }

  /**
   * The whole job.
   *
   * @return everything found; no route in it where no drain can be proposed, with the reasons
   * @throws BadInputException if the site names no lot or no outlet, or its ground cannot be read
   */
  public Result run() {
    if (given.lot().isEmpty()) {
      throw new BadInputException(
          "parcels", "no lot is named", "name one under parcels: lot, or with --lot");
    }
    return screen(true);
  }

  /**
   * The surface water alone, of the lot and its catchment, or of the whole raster without a lot.
   *
   * @throws BadInputException if the ground cannot be read
   */
  public Result surfaceWater() {
    return screen(false);
  }

  private Result screen(boolean routes) {
    progress.stage("elevation and surface water");
    ElevationSource source =
        ElevationSource.open(
            given.elevation(), given.crs(), given.lot().map(Parcel::outline).orElse(null));
    Site site = source.features().on(given);
    CatchmentWindow window = CatchmentWindow.read(site, source);
    ShapedSite shaped = ShapedSite.of(site, window.terrain(), window.water());

    List<String> notes = shaped.warnings();

    progress.stage("storm");
    Storm storm = Storm.of(site.storm());
    Standing standing = standing(shaped, storm);
    Optional<InflowLedgerFinder> after = ledger(shaped, storm, standing);
    Optional<InflowLedgerFinder> now =
        shaped.levelled().isEmpty()
            ? after
            : ledger(shaped.now(), storm, standing(shaped.now(), storm));
    Optional<InflowLedger> ledger = now.map(InflowLedgerFinder::find);
    Result surface =
        new Result(
            site,
            shaped.terrain(),
            shaped.water(),
            shaped.levelled(),
            Optional.of(standing.open()),
            standing.blocked(),
            standing.freeboard(),
            ledger,
            NO_PLAN,
            List.of(),
            List.of(),
            notes);
    if (!routes) {
      return surface;
    }

    progress.stage("routes");
    refuseOutletsOutOfReach(site, shaped.terrain());
    onWater.accept(surface);
    InflowLedger flows =
        shaped.levelled().isEmpty() ? ledger.orElseThrow() : after.orElseThrow().find();
    SizedPlan sized =
        AllCores.run(
            () -> SizedPlan.find(shaped, flows.all(), after.orElseThrow().interception(), storm));
    return surface.planned(
        sized.site(),
        sized.plan(),
        sized.designs(),
        sized.effects(now.orElseThrow(), after.orElseThrow()));
  }

  private static Optional<InflowLedgerFinder> ledger(
      ShapedSite shaped, Storm storm, Standing standing) {
    return shaped
        .site()
        .lot()
        .map(
            lot ->
                InflowLedgerFinder.of(
                    shaped.site(),
                    shaped.terrain(),
                    shaped.water(),
                    storm,
                    Optional.of(standing.open())));
  }

  /**
   * What stands after the storm: the catch basins take what reaches them, or none does; and how far
   * the lots round a low spot lie above its spill, however it stands.
   */
  private record Standing(
      StandingWater open,
      Optional<StandingWater> blocked,
      Map<String, List<Freeboard>> freeboard) {}

  private static Standing standing(ShapedSite shaped, Storm storm) {
    Site site = shaped.site();
    Terrain terrain = shaped.terrain();
    SurfaceWater water = shaped.water();
    SurfaceCover cover = SurfaceCover.of(site, water);
    double areaM2 = 0;
    for (int cell = 0; cell < terrain.ground().z().length; cell++) {
      if (!Float.isNaN(terrain.ground().z()[cell])) {
        areaM2 += cover.areaM2(cell);
      }
    }
    List<Coordinate> inlets =
        site.outlets().stream()
            .filter(outlet -> outlet.kind() == Outlet.Kind.CATCH_BASIN)
            .map(Outlet::at)
            .filter(at -> terrain.ground().frame().index(at.x, at.y) >= 0)
            .toList();
    double[] runoffM = cover.runoffDepthM(storm.depthM());
    double rainM3 = areaM2 * storm.depthM();
    StandingWater open = StandingWaterFinder.after(water, runoffM, rainM3, inlets);
    return new Standing(
        open,
        inlets.isEmpty()
            ? Optional.empty()
            : Optional.of(StandingWaterFinder.after(water, runoffM, rainM3)),
        Freeboard.byLowSpot(water.lowSpots(), site, terrain.ground()));
  }

  /**
   * An invert above all the ground, or far below it, is a slip of the pen or of the unit, not a
   * yard to be refused, nor one to be drained into the depths.
   */
  private static void refuseOutletsOutOfReach(Site site, Terrain terrain) {
    double highest = Double.NEGATIVE_INFINITY;
    for (float z : terrain.ground().z()) {
      highest = z > highest ? z : highest;
    }
    List<Problem> problems = new ArrayList<>();
    for (Outlet outlet : site.outlets()) {
      if (outlet.invertM().orElse(highest) > highest) {
        problems.add(
            new Problem(
                "outlet " + outlet.id(),
                String.format(
                    Locale.ROOT,
                    "its invert, %.2f m, is above all the ground, which rises to %.2f m",
                    outlet.invertM().getAsDouble(),
                    highest),
                "check its level, its unit and its datum"));
      }
      double over = terrain.ground().bilinear(outlet.at().x, outlet.at().y);
      double invert = outlet.invertM().orElse(over);
      if (invert < over - DEEPEST_INVERT_M) { // never where the ground there is not known
        problems.add(
            new Problem(
                "outlet " + outlet.id(),
                String.format(
                    Locale.ROOT,
                    "its invert, %.2f m, lies %.2f m below the ground at it, %.2f m",
                    invert,
                    over - invert,
                    over),
                "check its level, its unit and its datum"));
      }
    }
    if (!problems.isEmpty()) {
      throw new BadInputException(problems);
    }
  }
}
