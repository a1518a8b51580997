package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleBinaryOperator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.MadeUpFlow;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.FlowOpening;
import org.yardfall.site.Given;
import org.yardfall.site.LevelledSwale;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.PinnedLine;
import org.yardfall.site.Prices;
import org.yardfall.site.Seep;
import org.yardfall.site.Site;
import org.yardfall.site.Soil;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;

/** A made-up yard for tests: ground from a formula, the south-west corner of the grid at 0 0. */
final class Yard {

  /** The lot in the middle of a yard of 40 m by 50 m. */
  static final String LOT = "POLYGON((5 5, 35 5, 35 45, 5 45, 5 5))";

  final ElevationGrid ground;
  Optional<Parcel> lot = Optional.empty();
  final List<Parcel> parcels = new ArrayList<>();
  final List<Building> buildings = new ArrayList<>();
  final List<Obstacle> obstacles = new ArrayList<>();
  final List<Crossing> crossings = new ArrayList<>();
  final List<Outlet> outlets = new ArrayList<>();
  final List<FlowOpening> openings = new ArrayList<>();
  final List<Seep> seeps = new ArrayList<>();
  final List<LevelledSwale> levelled = new ArrayList<>();
  final List<BoundaryFlow> flows = new ArrayList<>();
  DrainLimits limits = Given.limits(0.01, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.117, 0.102);
  Soil soil = Given.soil('C');

  private Yard(ElevationGrid ground) {
    this.ground = ground;
  }

  static Yard of(double widthM, double heightM, double cellM, DoubleBinaryOperator z) {
    GridFrame frame =
        new GridFrame(
            (int) Math.round(widthM / cellM), (int) Math.round(heightM / cellM), 0, heightM, cellM);
    float[] cells = new float[frame.size()];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = (float) z.applyAsDouble(frame.x(i % frame.cols()), frame.y(i / frame.cols()));
    }
    return new Yard(new ElevationGrid(frame, cells));
  }

  /** 40 m by 50 m in cells of half a metre, a lot of 30 m by 40 m in its middle. */
  static Yard lot(DoubleBinaryOperator z) {
    return of(40, 50, 0.5, z).lot(LOT);
  }

  /** Such a lot on ground that falls 2 % southward, from 11 m. */
  static Yard slope() {
    return lot((x, y) -> 10 + 0.02 * y);
  }

  Yard lot(String wkt) {
    lot = Optional.of(new Parcel("lot", (Polygon) wkt(wkt)));
    parcels.add(lot.get());
    return this;
  }

  Yard neighbour(String id, String wkt) {
    parcels.add(new Parcel(id, (Polygon) wkt(wkt)));
    return this;
  }

  Yard street(String id, String wkt) {
    parcels.add(new Parcel(id, (Polygon) wkt(wkt), true));
    return this;
  }

  Yard house(String wkt) {
    buildings.add(
        new Building("B" + (buildings.size() + 1), (Polygon) wkt(wkt), OptionalDouble.empty()));
    return this;
  }

  Yard slab(String wkt) {
    crossings.add(new Crossing("walk" + crossings.size(), (Polygon) wkt(wkt), 0.1, 0.1));
    return this;
  }

  Yard obstacle(Obstacle.Kind kind, Obstacle.Passage passage, double clearanceM, String wkt) {
    obstacles.add(
        Given.obstacle(kind.name() + obstacles.size(), kind, wkt(wkt), clearanceM, passage, 0.1));
    return this;
  }

  Yard outlet(Outlet outlet) {
    outlets.add(outlet);
    return this;
  }

  Yard outlet(String id, Outlet.Kind kind, double x, double y, double invertM) {
    return outlet(
        new Outlet(
            id,
            kind,
            new Coordinate(x, y),
            OptionalDouble.of(invertM),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            ""));
  }

  /** A catch basin, CB1. */
  Yard basin(double x, double y, double invertM) {
    return outlet("CB1", Outlet.Kind.CATCH_BASIN, x, y, invertM);
  }

  /** A wet patch; a depth that is no number is not known. */
  Yard seep(String id, double waterDepthM, String wkt) {
    OptionalDouble depth =
        Double.isNaN(waterDepthM) ? OptionalDouble.empty() : OptionalDouble.of(waterDepthM);
    seeps.add(new Seep(id, wkt(wkt), depth));
    return this;
  }

  /** Water that enters over a straight stretch of the property line. */
  Yard inflow(String neighbour, double areaM2, String wkt) {
    LineString stretch = (LineString) wkt(wkt);
    flows.add(MadeUpFlow.inward("I" + (flows.size() + 1), neighbour, stretch, areaM2));
    return this;
  }

  /** The same, with the ground that it comes from by parcel in m². */
  Yard inflow(String neighbour, double areaM2, String wkt, Map<String, Double> byParcelM2) {
    inflow(neighbour, areaM2, wkt);
    BoundaryFlow f = flows.remove(flows.size() - 1);
    flows.add(
        new BoundaryFlow(
            f.id(),
            f.enters(),
            f.neighbour(),
            f.stretch(),
            f.at(),
            f.bearingDeg(),
            f.widthM(),
            f.areaM2(),
            f.atLeast(),
            f.volumeM3(),
            f.peakM3S(),
            f.surfaces(),
            f.concentrated(),
            byParcelM2,
            f.runoff(),
            f.time(),
            f.intensityMS(),
            f.coefficient(),
            f.downstream()));
    return this;
  }

  /** Water that enters over all of the northern line of {@link #LOT}. */
  Yard fromNorth(double areaM2) {
    return inflow("north", areaM2, "LINESTRING(5 45, 35 45)");
  }

  Yard limits(DrainLimits with) {
    limits = with;
    return this;
  }

  Site site() {
    Map<Prices.Item, Double> prices = new EnumMap<>(Prices.Item.class);
    for (Prices.Item item : Prices.Item.values()) {
      prices.put(item, 10.0);
    }
    prices.put(Prices.Item.TRENCH, 40.0);
    prices.put(Prices.Item.BORE, 150.0);
    return MadeUpSite.site()
        .lot(lot.orElse(null))
        .parcels(parcels)
        .buildings(buildings)
        .obstacles(obstacles)
        .crossings(crossings)
        .outlets(outlets)
        .openings(openings)
        .soil(soil)
        .storm(Given.storm(0.065))
        .drain(limits)
        .prices(new Prices(prices))
        .elevation(Given.elevation())
        .seeps(seeps)
        .levelled(levelled)
        .make();
  }

  Terrain terrain() {
    return new Terrain(ground, List.of(), 0.02, true, 0, "", List.of(), List.of());
  }

  SurfaceWater water() {
    return SurfaceWaterFinder.find(terrain(), site());
  }

  RoutePlan plan() {
    return plan(site());
  }

  /** The plan for this yard as another site has it. */
  RoutePlan plan(Site as) {
    return RouteFinder.plan(as, terrain(), water(), flows);
  }

  /** The plan of a drawn drain alone. */
  RoutePlan pinned(String wkt) {
    return RouteFinder.pinned(drawn(wkt), terrain(), water());
  }

  /** Its site with a drain drawn to the nearest outlet. */
  Site drawn(String wkt) {
    return drawn(wkt, "");
  }

  /** Its site with several lines drawn. */
  Site drawnLines(String... wkts) {
    return site()
        .withPinned(
            Arrays.stream(wkts)
                .map(text -> new PinnedLine("mine", (LineString) wkt(text), "", ""))
                .toList());
  }

  /** Its site with a drain drawn to an outlet. */
  Site drawn(String wkt, String outletId) {
    return site().withPinned(List.of(new PinnedLine("mine", (LineString) wkt(wkt), outletId, "")));
  }

  static Geometry wkt(String text) {
    try {
      return new WKTReader().read(text);
    } catch (ParseException e) {
      throw new IllegalArgumentException(text, e);
    }
  }
}
