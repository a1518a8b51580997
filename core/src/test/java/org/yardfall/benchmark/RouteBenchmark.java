package org.yardfall.benchmark;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.route.Bounds;
import org.yardfall.route.Draft;
import org.yardfall.route.DrainRouter;
import org.yardfall.route.GravityReach;
import org.yardfall.route.GravityReachFinder;
import org.yardfall.route.OutletTarget;
import org.yardfall.route.RouteFinder;
import org.yardfall.route.RouteGround;
import org.yardfall.route.RoutePlan;
import org.yardfall.route.RouteSettings;
import org.yardfall.route.TrenchCost;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.MadeUpFlow;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Given;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;
import org.yardfall.trench.MetrePrice;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;

/** Time of a lot's ground, gravity reach and whole drain against the number of cells. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 3, time = 2)
public class RouteBenchmark {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /**
   * Lots in metres and their cells: a small one, 40 × 60 m and a hectare, at 0.5 m and at 0.25 m.
   */
  @Param({"20x30@0.5", "20x30@0.25", "40x60@0.5", "40x60@0.25", "100x100@0.5", "100x100@0.25"})
  public String lot;

  private Site site;
  private ElevationGrid ground;
  private RouteGround route;
  private List<OutletTarget> targets;
  private Bounds bounds;
  private List<LineString> collector;
  private Terrain terrain;
  private SurfaceWater water;
  private List<BoundaryFlow> flows;

  /** Makes an invented lot, gently sloped and rough, with a house and a drive. */
  @Setup
  public void make() {
    String[] size = lot.split("[x@]", -1);
    double width = Double.parseDouble(size[0]);
    double depth = Double.parseDouble(size[1]);
    double cell = Double.parseDouble(size[2]);
    Random random = new Random(3);
    GridFrame frame =
        new GridFrame(
            (int) ((width + 20) / cell), (int) ((depth + 20) / cell), -10, depth + 10, cell);
    float[] z = new float[frame.size()];
    for (int n = 0; n < z.length; n++) {
      double y = frame.y(n / frame.cols());
      z[n] = (float) (100 + 0.008 * y + 0.04 * random.nextDouble());
    }
    ground = new ElevationGrid(frame, z);
    DrainLimits limits = Given.limits(0.005, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.116, 0.102);
    Outlet basin =
        new Outlet(
            "CB",
            Outlet.Kind.CATCH_BASIN,
            new Coordinate(width * 0.8, -4),
            OptionalDouble.of(99),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            "");
    Parcel own = new Parcel("own", box(0, 0, width, depth));
    double mid = width / 2;
    site =
        MadeUpSite.site()
            .lot(own)
            .parcels(List.of(own, new Parcel("next", box(width, 0, width + 30, depth))))
            .buildings(
                List.of(
                    new Building(
                        "house",
                        box(mid - 6, depth / 2 - 5, mid + 6, depth / 2 + 5),
                        OptionalDouble.empty())))
            .crossings(
                List.of(new Crossing("drive", box(mid - 5, 0, mid - 2, depth / 2 - 5), 0.1, 0.1)))
            .outlets(List.of(basin))
            .drain(limits)
            .storm(Given.storm(0.065))
            .make();
    RouteSettings settings = RouteSettings.defaults(limits);
    route = RouteGround.of(site, ground, settings);
    targets = List.of(OutletTarget.of(basin, route));
    bounds = Bounds.of(limits, settings);
    collector =
        List.of(
            FACTORY.createLineString(
                new Coordinate[] {
                  new Coordinate(0.7, depth / 2),
                  new Coordinate(0.7, depth - 0.7),
                  new Coordinate(width - 0.7, depth - 0.7)
                }));
    terrain = new Terrain(ground, List.of(), 0.02, true, 0, "", List.of(), List.of());
    water = SurfaceWaterFinder.find(terrain, site);
    LineString back =
        FACTORY.createLineString(
            new Coordinate[] {new Coordinate(0, depth), new Coordinate(width, depth)});
    flows = List.of(MadeUpFlow.inward("I1", "", back, 300));
  }

  private static Polygon box(double west, double south, double east, double north) {
    return (Polygon) FACTORY.toGeometry(new Envelope(west, east, south, north));
  }

  /** Masks and steps. */
  @Benchmark
  public RouteGround ground() {
    return RouteGround.of(site, ground, RouteSettings.defaults(site.drain()));
  }

  /** One pass of the gravity reach. */
  @Benchmark
  public GravityReach reach() {
    return GravityReachFinder.find(route, targets, bounds);
  }

  /** Every kind of drain of the lot to its outlet, ranked, with the reach and what it lacks. */
  @Benchmark
  public RoutePlan plan() {
    return RouteFinder.plan(site, terrain, water, flows);
  }

  /** Arms, trunk, straightening and grade line. */
  @Benchmark
  public Optional<Draft> drain() {
    return DrainRouter.of(route, collector)
        .route(targets, bounds, TrenchCost.price(MetrePrice.of(site)));
  }
}
