package org.yardfall.drain;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.route.DrainLine;
import org.yardfall.route.MadeUpRoute;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Given;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Prices;
import org.yardfall.site.Prices.Item;
import org.yardfall.site.Site;
import org.yardfall.site.Soil;
import org.yardfall.water.FlowField;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;

/**
 * An invented yard: 60 m wide and 40 m deep, falling southward at 2.5 %, in cells of a metre; the
 * lot is its southern half, the neighbour's its northern. A drain runs along the line between them,
 * eastward at 1 %, to an outlet on the east side.
 */
final class Yard {

  static final GeometryFactory FACTORY = new GeometryFactory();
  static final GridFrame FRAME = new GridFrame(60, 40, 0, 40, 1);

  /** Toward the south in the flow field. */
  private static final byte SOUTH = 6;

  DrainLimits limits = Given.limits(0.005, 0.2, 0.15, 1.5, 0.3, 0.9, 0.4572, 0.11684, 0.1016);
  Map<Item, Double> prices = prices();
  Optional<Prices.StoneUnit> stoneSoldBy = Optional.empty();
  List<Obstacle> obstacles = new ArrayList<>();
  List<Building> buildings = new ArrayList<>();
  List<Crossing> slabs = new ArrayList<>();
  List<LowSpot> lowSpots = new ArrayList<>();
  OptionalDouble waterLevelM = OptionalDouble.empty();
  OptionalDouble lidM = OptionalDouble.empty();
  Outlet.Kind outletKind = Outlet.Kind.DITCH;
  Coordinate outletAt = new Coordinate(60, 19);
  Polygon lot = box(0, 0, 60, 20);
  Soil soil = Given.soil('D');
  double rainM = 0.03;
  double grade = 0.01;
  byte[] toward = new byte[FRAME.size()];

  Yard() {
    for (int i = 0; i < toward.length; i++) {
      toward[i] = i / FRAME.cols() == FRAME.rows() - 1 ? FlowField.LEAVES : SOUTH;
    }
  }

  static Map<Item, Double> prices() {
    Map<Item, Double> prices = new EnumMap<>(Item.class);
    double price = 7;
    for (Item item : Item.values()) {
      prices.put(item, price);
      price += 6;
    }
    return prices;
  }

  static Polygon box(double west, double south, double east, double north) {
    return (Polygon) FACTORY.toGeometry(new Envelope(west, east, south, north));
  }

  Site site() {
    Parcel lot = new Parcel("7", this.lot);
    Parcel neighbour = new Parcel("9", box(0, 20, 60, 40));
    Outlet outlet =
        new Outlet("D1", outletKind, outletAt, OptionalDouble.empty(), waterLevelM, lidM, "");
    return MadeUpSite.site()
        .lot(lot)
        .parcels(List.of(lot, neighbour))
        .buildings(buildings)
        .obstacles(obstacles)
        .crossings(slabs)
        .outlets(List.of(outlet))
        .soil(soil)
        .storm(Given.storm(rainM))
        .drain(limits)
        .prices(new Prices(prices, stoneSoldBy))
        .elevation(Given.elevation())
        .make();
  }

  static double groundM(double y) {
    return 100 + 0.025 * y;
  }

  ElevationGrid ground() {
    float[] z = new float[FRAME.size()];
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) groundM(FRAME.y(i / FRAME.cols()));
    }
    return new ElevationGrid(FRAME, z);
  }

  Terrain terrain() {
    ElevationGrid ground = ground();
    return new Terrain(ground, List.of(), 0.1, true, 0, "", List.of(), List.of());
  }

  /** The surface water with this yard's own flow field and low spots. */
  SurfaceWater water() {
    SurfaceWater found = SurfaceWaterFinder.find(terrain(), site());
    return new SurfaceWater(
        found.ground(),
        found.filled(),
        new FlowField(FRAME, toward),
        found.areaM2(),
        found.edge(),
        lowSpots,
        found.flowPaths(),
        found.catchments(),
        found.undetermined(),
        found.roofs(),
        found.altered(),
        found.depressions(),
        found.lowSpotNodes(),
        found.assumptions(),
        found.warnings());
  }

  Storm storm() {
    return Storm.of(site().storm());
  }

  /** The drain at y 19, 0.5 m deep at its upper end, stations every 5 m. */
  Route route() {
    return route(line(19, 0.5, Station.Span.OPEN));
  }

  DrainLine line(double y, double depthM, Station.Span span) {
    List<Station> stations = new ArrayList<>();
    for (int i = 0; i <= 12; i++) {
      double x = 5 * i;
      double depth = depthM + grade * x;
      stations.add(
          new Station(
              x,
              x,
              y,
              groundM(y),
              groundM(y) - depth,
              depth - limits.pipeOutsideM(),
              depth,
              grade,
              span));
    }
    return new DrainLine(List.of(new Coordinate(0, y), new Coordinate(60, y)), stations);
  }

  static Route route(DrainLine main, Route.Branch... branches) {
    return MadeUpRoute.to("D1", main, List.of(branches)).make();
  }

  DrainDesign design() {
    return design(route());
  }

  DrainDesign design(Route route) {
    return DrainDesigner.design(route, site(), terrain(), water(), storm());
  }
}
