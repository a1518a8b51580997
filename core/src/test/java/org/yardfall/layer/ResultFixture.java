package org.yardfall.layer;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.route.Audit;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainKind;
import org.yardfall.route.DrainLine;
import org.yardfall.route.GravityReach;
import org.yardfall.route.MadeUpRoute;
import org.yardfall.route.Rejection;
import org.yardfall.route.Route;
import org.yardfall.route.RoutePlan;
import org.yardfall.route.SlabPipes;
import org.yardfall.route.Station;
import org.yardfall.route.Station.Span;
import org.yardfall.runoff.CurveNumber;
import org.yardfall.runoff.DrainEffectFinder;
import org.yardfall.runoff.InflowLedger;
import org.yardfall.runoff.InflowLedgerFinder;
import org.yardfall.runoff.MadeUpFlow;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Assumption;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.Given;
import org.yardfall.site.LevelledSwale;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Prices;
import org.yardfall.site.Seep;
import org.yardfall.site.ShotInput;
import org.yardfall.site.Site;
import org.yardfall.site.StormInput;
import org.yardfall.site.Surface;
import org.yardfall.site.WorkingCrs;
import org.yardfall.water.AlteredCell;
import org.yardfall.water.Catchment;
import org.yardfall.water.DepressionHierarchy;
import org.yardfall.water.FlowField;
import org.yardfall.water.FlowPath;
import org.yardfall.water.Freeboard;
import org.yardfall.water.LowSpot;
import org.yardfall.water.RoofRunoff;
import org.yardfall.water.StandingWater;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SwaleLeveller;

/**
 * A result drawn by hand, for tests of what is written and shown: an invented lot of 60 m by 50 m
 * on ground that falls 1 % to the east and 1 % to the south, with a dip of 5 m radius in its
 * middle. Its first route runs along the north and east sides at 1 %, half a metre deep, with one
 * branch.
 */
public final class ResultFixture {

  /** The lot's size in metres. */
  public static final double WIDTH_M = 60;

  /** The lot's size in metres. */
  public static final double HEIGHT_M = 50;

  private static final double MARGIN_M = 10;
  private static final double CELL_M = 0.5;
  private static final double DIP_RADIUS_M = 5;
  private static final double DIP_DEPTH_M = 0.3;
  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private final WorkingCrs crs;
  private final double x0;
  private final double y0;
  private String lotId = "7";
  private String neighbourId = "6";

  private ResultFixture(String crs, double easting, double northing) {
    this.crs = CrsLookup.of(crs);
    this.x0 = this.crs.toMetres(easting);
    this.y0 = this.crs.toMetres(northing);
  }

  /** The lot's south-west corner at 500000, 4983000 of UTM zone 15. */
  public static Result metric() {
    return new ResultFixture("EPSG:26915", 500000, 4983000).result();
  }

  /** The lot's south-west corner at 1500000, 1490000 of a state plane zone in US survey feet. */
  public static Result usFeet() {
    return new ResultFixture("EPSG:2903", 1500000, 1490000).result();
  }

  /** As {@link #metric()}, the given text being the lot's, a neighbour's and an outlet's id. */
  public static Result withIds(String id) {
    ResultFixture fixture = new ResultFixture("EPSG:26915", 500000, 4983000);
    fixture.lotId = id;
    fixture.neighbourId = id;
    return fixture.result();
  }

  /** As {@link #metric()}, on an orthophoto. */
  public static Result onPhoto(Path photo) {
    Result full = metric();
    return with(full, MadeUpSite.like(full.site()).ortho(photo).make(), full.notes());
  }

  /** As {@link #metric()}, on another site. */
  public static Result on(Site site) {
    Result full = metric();
    return with(full, site, full.notes());
  }

  /** A result with other notes. */
  public static Result noting(Result full, String... notes) {
    return with(full, full.site(), List.of(notes));
  }

  private static Result with(Result full, Site site, List<String> notes) {
    return new Result(
        site,
        full.terrain(),
        full.water(),
        full.levelled(),
        full.standing(),
        full.blocked(),
        full.freeboard(),
        full.ledger(),
        full.plan(),
        full.designs(),
        full.effects(),
        notes);
  }

  /** As {@link #metric()}, but with nothing found, no lot and nothing given. */
  public static Result empty() {
    ResultFixture fixture = new ResultFixture("EPSG:26915", 500000, 4983000);
    Result full = fixture.result();
    Site site = full.site();
    SurfaceWater water = full.water();
    return new Result(
        MadeUpSite.site()
            .name(site.name())
            .crs(site.crs())
            .soil(site.soil())
            .storm(site.storm())
            .drain(site.drain())
            .prices(site.prices())
            .elevation(site.elevation())
            .make(),
        full.terrain(),
        new SurfaceWater(
            water.ground(),
            water.filled(),
            water.flow(),
            water.areaM2(),
            water.edge(),
            List.of(),
            List.of(),
            List.of(),
            new BitSet(),
            RoofRunoff.none(),
            List.of(),
            DepressionHierarchy.of(water.ground()),
            new int[0],
            List.of(),
            List.of()),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Map.of(),
        Optional.empty(),
        new RoutePlan(List.of(), List.of(), Optional.empty(), List.of(), List.of()),
        List.of(),
        List.of(),
        List.of());
  }

  private Result result() {
    ElevationGrid ground = ground();
    Site site = site();
    Terrain terrain = terrain(ground);
    SurfaceWater water = water(ground);
    InflowLedger ledger = ledger();
    RoutePlan plan = plan(ground);
    DrainDesigner designer = DrainDesigner.of(site, terrain, water, ledger.storm());
    List<DrainDesign> designs = plan.routes().stream().map(designer::design).toList();
    DrainEffectFinder effects =
        DrainEffectFinder.of(
            InflowLedgerFinder.of(site, terrain, water, ledger.storm(), Optional.of(standing())));
    return new Result(
        site,
        terrain,
        water,
        Optional.of(SwaleLeveller.level(terrain, water, site)),
        Optional.of(standing()),
        Optional.of(blocked()),
        Freeboard.byLowSpot(water.lowSpots(), site, ground),
        Optional.of(ledger),
        plan,
        designs,
        designs.stream()
            .map(
                d ->
                    effects.find(
                        d.catchment().takes(), d.catchment().keepsM3(), site.outlets().get(0)))
            .toList(),
        List.of());
  }

  private Site site() {
    Parcel lot = new Parcel(lotId, box(0, 0, WIDTH_M, HEIGHT_M));
    Parcel neighbour = new Parcel(neighbourId, box(0, HEIGHT_M, WIDTH_M, 2 * HEIGHT_M));
    return MadeUpSite.site()
        .name("Invented lot")
        .crs(crs)
        .lot(lot)
        .parcels(List.of(neighbour, lot))
        .buildings(List.of(new Building("house", box(15, 8, 27, 18), OptionalDouble.of(240.9))))
        .obstacles(
            List.of(
                Given.obstacle(
                    "water main",
                    Obstacle.Kind.UTILITY,
                    line(0, 4, WIDTH_M, 4),
                    0.6,
                    Obstacle.Passage.UNDER,
                    OptionalDouble.of(241.2),
                    0.3),
                Given.obstacle(
                    "oak",
                    Obstacle.Kind.TREE,
                    GEOMETRIES.createPoint(at(40, 30)),
                    3,
                    Obstacle.Passage.SOLID_PIPE,
                    0),
                Given.obstacle(
                    "tank",
                    Obstacle.Kind.SEPTIC,
                    box(5, 25, 8, 29),
                    1.5,
                    Obstacle.Passage.NONE,
                    0)))
        .crossings(List.of(new Crossing("walk", box(50, 9, WIDTH_M, 10.5), 0.1, 0.15)))
        .outlets(
            List.of(
                new Outlet(
                    "CB1",
                    Outlet.Kind.CATCH_BASIN,
                    at(55, 2),
                    OptionalDouble.of(240.9),
                    OptionalDouble.of(241.0),
                    OptionalDouble.of(241.5),
                    "ask the town"),
                new Outlet(
                    lotId,
                    Outlet.Kind.DITCH,
                    at(30, -5),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    "")))
        .soil(Given.soil('D', OptionalDouble.of(1 / 3.6e6), OptionalDouble.empty()))
        .storm(
            new StormInput(
                OptionalDouble.of(0.065), OptionalDouble.of(86400), null, OptionalDouble.of(10)))
        .drain(Given.limits(0.005, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.114, 0.102))
        .prices(new Prices(Map.of(Prices.Item.TRENCH, 40.0, Prices.Item.STONE, 55.0)))
        .elevation(
            new ElevationInput(
                List.of(Path.of("dem.tif")),
                null,
                null,
                OptionalDouble.of(1),
                "local",
                OptionalDouble.of(0.1),
                null,
                ShotInput.NONE,
                ""))
        .seeps(
            List.of(new Seep("spring", GEOMETRIES.createPoint(at(10, 40)), OptionalDouble.empty())))
        .levelled(List.of(new LevelledSwale("old swale", box(27, 22, 33, 28))))
        .assumptions(
            List.of(
                new Assumption("drain.max-grade", "20 %", "common practice, no source"),
                new Assumption("drain.setback", "0.6 m", "common practice, no source")))
        .warnings(List.of("parcel 6 overlaps parcel 5 by 0.1 m2"))
        .make();
  }

  private Terrain terrain(ElevationGrid ground) {
    return new Terrain(
        ground,
        List.of("dem.tif: 160 x 140 cells of 0.5 m"),
        0.1,
        true,
        0.01,
        "local",
        List.of(new Assumption("drain.setback", "0.6 m", "common practice, no source")),
        List.of("dem.tif: elevations are rounded to 0.01 m"));
  }

  private ElevationGrid ground() {
    GridFrame frame =
        new GridFrame(
            (int) ((WIDTH_M + 2 * MARGIN_M) / CELL_M),
            (int) ((HEIGHT_M + 2 * MARGIN_M) / CELL_M),
            x0 - MARGIN_M,
            y0 + HEIGHT_M + MARGIN_M,
            CELL_M);
    float[] z = new float[frame.size()];
    for (int cell = 0; cell < z.length; cell++) {
      double east = frame.x(cell % frame.cols()) - x0;
      double north = frame.y(cell / frame.cols()) - y0;
      double fromDip = Math.hypot(east - 30, north - 25) / DIP_RADIUS_M;
      z[cell] = (float) (plane(east, north) - DIP_DEPTH_M * Math.max(0, 1 - fromDip * fromDip));
    }
    return new ElevationGrid(frame, z);
  }

  private static double plane(double east, double north) {
    return 242 + 0.01 * north - 0.01 * east;
  }

  private SurfaceWater water(ElevationGrid ground) {
    GridFrame frame = ground.frame();
    byte[] south = new byte[frame.size()];
    Arrays.fill(south, (byte) 6);
    Arrays.fill(south, frame.size() - frame.cols(), frame.size(), FlowField.LEAVES);
    double[] area = new double[frame.size()];
    float[] filled = ground.z().clone();
    for (int cell = 0; cell < area.length; cell++) {
      area[cell] = (cell / frame.cols() + 1) * frame.cellAreaM2();
      double fromDip =
          Math.hypot(
              frame.x(cell % frame.cols()) - x0 - 30, frame.y(cell / frame.cols()) - y0 - 25);
      if (fromDip < DIP_RADIUS_M) {
        filled[cell] = Math.max(filled[cell], 241.9f);
      }
    }
    Polygon dip = circle(30, 25, 4);
    return new SurfaceWater(
        ground,
        filled,
        new FlowField(frame, south),
        area,
        new BitSet(),
        List.of(
            new LowSpot(
                "L1",
                dip,
                at(30, 25),
                241.65,
                241.9,
                at(33, 21),
                0.25,
                dip.getArea(),
                dip.getArea() * 0.12,
                410,
                true,
                "",
                List.of(),
                "",
                List.of(
                    new LowSpot.Stage(241.7, 4, 0.1),
                    new LowSpot.Stage(241.9, dip.getArea(), dip.getArea() * 0.12)),
                "")),
        List.of(new FlowPath("F1", line(30, 58, 30, 29), 380, true, false)),
        List.of(
            new Catchment("C1", "lot", box(-5, -5, WIDTH_M + 5, HEIGHT_M + 8), 4410, "north"),
            new Catchment("C2", "L1", ring(), ring().getArea(), "")),
        new BitSet(),
        RoofRunoff.none(),
        List.of(new AlteredCell("K1", 0, ground.z()[0] + 0.3f, ground.z()[0])),
        DepressionHierarchy.of(ground),
        new int[0],
        List.of(new Assumption("elevation.accuracy", "0.10 m", "site file")),
        List.of("catchment cut off to the north: extend the raster by about 20 m"));
  }

  private StandingWater standing() {
    Polygon pond = circle(30, 25, 3);
    return new StandingWater(
        List.of(
            new StandingWater.Pond(
                "L1", pond, 241.85, 0.2, pond.getArea(), pond.getArea() * 0.1, 1.25, "")),
        364,
        120.5,
        pond.getArea() * 0.1,
        364 - 120.5 - pond.getArea() * 0.1,
        0,
        List.of());
  }

  private StandingWater blocked() {
    Polygon pond = circle(30, 25, 4);
    return new StandingWater(
        List.of(
            new StandingWater.Pond(
                "L1", pond, 241.9, 0.25, pond.getArea(), pond.getArea() * 0.12, 2.5, "")),
        364,
        120.5,
        pond.getArea() * 0.12,
        364 - 120.5 - pond.getArea() * 0.12,
        0,
        List.of());
  }

  private InflowLedger ledger() {
    return new InflowLedger(
        Storm.of(site().storm()),
        List.of(
            MadeUpFlow.of(
                "I1",
                true,
                neighbourId,
                line(20, HEIGHT_M, 40, HEIGHT_M),
                at(31, HEIGHT_M),
                180,
                20,
                405,
                true,
                12.5,
                0.00421,
                "lawn 310 m2, roof 95 m2")),
        List.of(
            MadeUpFlow.of(
                "O1",
                false,
                "",
                line(WIDTH_M, 5, WIDTH_M, 15),
                at(WIDTH_M, 9),
                95.5,
                10,
                900,
                false,
                24.25,
                0.0085,
                "lawn 900 m2")),
        new InflowLedger.Balance(12.5, 195, 24.25, 2.5, 180.75, 0, 0, 0),
        CurveNumber.runoff(Map.of(Surface.Kind.LAWN, 3000.0), 'D', 0.065),
        List.of(new Assumption("runoff.surfaces", "lawn", "common practice, no source")),
        List.of("inflow I1 is a lower bound"));
  }

  private RoutePlan plan(ElevationGrid ground) {
    DrainLine main = drain(0.01, 0.5, at(5, 45), at(30, 45), at(55, 45), at(55, 10.5), at(55, 2));
    DrainLine branch = drain(0.01, 0.5, at(30, 20), at(55, 20));
    DrainLine curtain = drain(0.012, 0.45, at(13, 20), at(29, 20), at(55, 2));
    return new RoutePlan(
        List.of(
            route(1, DrainKind.PERIMETER, main, List.of(new Route.Branch(branch, 75))),
            route(2, DrainKind.CURTAIN, curtain, List.of())),
        List.of(
            new Rejection(
                "X1",
                DrainKind.LOW_SPOT,
                "CB1",
                List.of(at(30, 25), at(40, 20)),
                "no-fall",
                "the low spot lies 0.12 m too low to fall to CB1 at 0.5 %",
                List.of(
                    new Rejection.Relaxation("outlet", 0.12, "m"),
                    new Rejection.Relaxation("min-grade", 0.0021, "m/m")),
                OptionalDouble.of(0.12)),
            new Rejection(
                "X2",
                DrainKind.CURTAIN,
                "",
                List.of(),
                "nothing-arrives",
                "no water reaches the building",
                List.of(),
                OptionalDouble.empty())),
        Optional.of(reach(ground)),
        List.of(new Assumption("prices", "relative weights", "common practice, no source")),
        List.of(),
        List.of(
            new Outlet(
                "daylight 1",
                Outlet.Kind.DAYLIGHT,
                at(58, 1),
                OptionalDouble.of(241.1),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                "")));
  }

  private Route route(int rank, DrainKind kind, DrainLine main, List<Route.Branch> branches) {
    return MadeUpRoute.to("CB1", main, branches)
        .ranked(rank, kind)
        .searchPrice(main.lengthM() * 95)
        .bored(
            List.of("bored under walk at 84.5 m"), List.of(new Bore(0, 84.5, 86, SlabPipes.two())))
        .said(List.of("takes the water of I1"), List.of("Locate buried utilities before digging."))
        .audit(
            new Audit(
                List.of(
                    new Audit.Check("falls", true, 0.01, 0.005, "m/m", 12.5),
                    new Audit.Check("cover", true, 0.336, 0.15, "m", 0))))
        .make();
  }

  /** A line that starts at a depth and falls steadily, with a station at each point. */
  private DrainLine drain(double grade, double depthM, Coordinate... points) {
    List<Station> stations = new ArrayList<>();
    double station = 0;
    for (int i = 0; i < points.length; i++) {
      station += i == 0 ? 0 : points[i].distance(points[i - 1]);
      double top = plane(points[0].x - x0, points[0].y - y0) - depthM;
      double ground = plane(points[i].x - x0, points[i].y - y0);
      double invert = top - grade * station;
      stations.add(
          new Station(
              station,
              points[i].x,
              points[i].y,
              ground,
              invert,
              ground - invert - 0.114,
              ground - invert,
              grade,
              i == points.length - 2 ? Span.BORED : Span.OPEN));
    }
    return new DrainLine(Arrays.asList(points), stations);
  }

  private GravityReach reach(ElevationGrid ground) {
    DrainLimits limits = site().drain();
    GridFrame frame = ground.frame();
    double[] invert = new double[frame.size()];
    int[] outlet = new int[frame.size()];
    Point basin = GEOMETRIES.createPoint(at(55, 2));
    for (int cell = 0; cell < invert.length; cell++) {
      Coordinate place = new Coordinate(frame.x(cell % frame.cols()), frame.y(cell / frame.cols()));
      double z = ground.z()[cell];
      double lowest =
          Math.max(
              240.9 + limits.minGrade() * place.distance(basin.getCoordinate()),
              limits.lowestInvertM(z));
      boolean usable = lowest <= limits.highestInvertM(z);
      invert[cell] = usable ? lowest : Double.NaN;
      outlet[cell] = usable ? 0 : -1;
    }
    return new GravityReach(frame, List.of("CB1"), invert, outlet, Optional.empty());
  }

  private Coordinate at(double east, double north) {
    return new Coordinate(x0 + east, y0 + north);
  }

  private Polygon box(double west, double south, double east, double north) {
    return GEOMETRIES.createPolygon(
        new Coordinate[] {
          at(west, south), at(east, south), at(east, north), at(west, north), at(west, south)
        });
  }

  private LineString line(double east0, double north0, double east1, double north1) {
    return GEOMETRIES.createLineString(new Coordinate[] {at(east0, north0), at(east1, north1)});
  }

  private Polygon circle(double east, double north, double radius) {
    return (Polygon) GEOMETRIES.createPoint(at(east, north)).buffer(radius);
  }

  /** An area with a hole. */
  private Polygon ring() {
    return (Polygon) circle(30, 30, 12).difference(circle(30, 38, 2));
  }
}
