package org.yardfall.drain;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.locationtech.jts.simplify.DouglasPeuckerSimplifier;
import org.yardfall.elevation.GridFrame;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.Building;
import org.yardfall.site.FlowOpening;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;
import org.yardfall.water.FlowField;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;

/**
 * Finds the way of the water over the ground while a drain is blocked. It begins where most of the
 * drain's water gathers on the lot: in the low spot that it drains, or at the place of its open
 * stretches to which most ground sheds; from there it follows the flow field. O(n) in the cells on
 * the way, times the low spots and parcels near it.
 */
final class OverlandPathFinder {

  /** Water beside a building is looked at as far from its walls as local rules look, in metres. */
  private static final double BESIDE_M = 3.048;

  /** Nearer than this to its outlet, in metres, a line gathers what is the outlet's own. */
  private static final double OUTLET_M = 3;

  /** A surface outlet this near, in metres, takes the water. */
  private static final double INTO_M = 1;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final Site site;
  private final SurfaceWater water;
  private final FlowField flow;
  private final GridFrame frame;

  OverlandPathFinder(Site site, SurfaceWater water) {
    this.site = site;
    this.water = water;
    this.flow = water.flow();
    this.frame = flow.frame();
  }

  /** Where a drain's water gathers, and of how much ground. */
  private record Start(int cell, double areaM2) {}

  /** The way while a route is blocked; empty where it takes no surface water on the lot. */
  Optional<OverlandPath> find(Route route) {
    return start(route).map(this::follow).filter(path -> path.line().getLength() > 0);
  }

  private Optional<Start> start(Route route) {
    List<Start> starts = new ArrayList<>();
    Coordinate end = route.main().vertices().get(route.main().vertices().size() - 1);
    for (DrainLine line : DrainCatchmentFinder.lines(route)) {
      List<Station> stations = line.stations();
      for (int i = 0; i + 1 < stations.size(); i++) {
        if (stations.get(i).span() == Station.Span.OPEN) {
          along(stations.get(i), stations.get(i + 1), end, starts);
        }
      }
    }
    return starts.stream()
        .max(
            Comparator.comparingDouble(Start::areaM2)
                .thenComparing(Comparator.comparingInt(Start::cell).reversed()));
  }

  private void along(Station from, Station to, Coordinate end, List<Start> starts) {
    LineString stretch =
        FACTORY.createLineString(
            new Coordinate[] {new Coordinate(from.x(), from.y()), new Coordinate(to.x(), to.y())});
    LengthIndexedLine places = new LengthIndexedLine(stretch);
    int steps = (int) Math.max(1, Math.ceil(2 * stretch.getLength() / frame.cellM()));
    for (int i = 0; i <= steps; i++) {
      Coordinate at = places.extractPoint(stretch.getLength() * i / steps);
      int cell = frame.index(at.x, at.y);
      if (cell >= 0 && onLot(at) && at.distance(end) > OUTLET_M) {
        starts.add(new Start(cell, water.areaM2()[cell]));
      }
    }
    for (LowSpot spot : water.lowSpots()) {
      if (spot.parentId().isEmpty()
          && onLot(spot.deepest())
          && spot.outline().getEnvelopeInternal().intersects(stretch.getEnvelopeInternal())
          && spot.outline().intersects(stretch)) {
        int cell = frame.index(spot.deepest().x, spot.deepest().y);
        starts.add(new Start(cell, spot.contributingM2()));
      }
    }
  }

  private boolean onLot(Coordinate at) {
    return site.lot().isEmpty() || site.lot().get().outline().intersects(FACTORY.createPoint(at));
  }

  private OverlandPath follow(Start start) {
    List<Coordinate> way = new ArrayList<>();
    Set<OverlandPath.Onto> onto = new LinkedHashSet<>();
    Set<String> openings = new LinkedHashSet<>();
    Map<String, OverlandPath.Pool> pools = new LinkedHashMap<>();
    Map<String, Double> beside = new LinkedHashMap<>();
    String into = "";
    for (int cell = start.cell(); cell >= 0 && into.isEmpty(); cell = flow.receiver(cell)) {
      Coordinate at = frame.centre(cell);
      Point here = FACTORY.createPoint(at);
      way.add(at);
      pool(here).ifPresent(spot -> pools.putIfAbsent(spot.id(), pool(spot)));
      if (!onLot(at)) {
        onto.add(ground(here));
      }
      site.openings().stream()
          .filter(o -> o.line().isWithinDistance(here, frame.cellM() / 2))
          .forEach(o -> openings.add(words(o)));
      beside(here, water.filled()[cell], beside);
      into = surfaceOutlet(here);
    }
    return new OverlandPath(
        line(way),
        start.areaM2(),
        List.copyOf(pools.values()),
        List.copyOf(onto),
        List.copyOf(openings),
        beside.entrySet().stream()
            .map(e -> new OverlandPath.Beside(e.getKey(), e.getValue()))
            .toList(),
        into);
  }

  private Optional<LowSpot> pool(Point here) {
    return water.lowSpots().stream()
        .filter(spot -> spot.parentId().isEmpty())
        .filter(spot -> spot.outline().getEnvelopeInternal().contains(here.getCoordinate()))
        .filter(spot -> spot.outline().contains(here))
        .findFirst();
  }

  private static OverlandPath.Pool pool(LowSpot spot) {
    return new OverlandPath.Pool(spot.id(), spot.depthM(), spot.spillM());
  }

  private OverlandPath.Onto ground(Point here) {
    for (Parcel parcel : site.parcels()) {
      boolean own = site.lot().map(lot -> lot.id().equals(parcel.id())).orElse(false);
      if (!own && parcel.outline().intersects(here)) {
        return new OverlandPath.Onto(parcel.id(), parcel.rightOfWay());
      }
    }
    return new OverlandPath.Onto("", false);
  }

  private void beside(Point here, double levelM, Map<String, Double> beside) {
    for (Building building : site.buildings()) {
      if (building.lowestOpeningM().isPresent()
          && building.outline().isWithinDistance(here, BESIDE_M)) {
        double freeboard = building.lowestOpeningM().getAsDouble() - levelM;
        beside.merge(building.id(), freeboard, Math::min);
      }
    }
  }

  private String surfaceOutlet(Point here) {
    double near = Math.max(INTO_M, frame.cellM());
    return site.outlets().stream()
        .filter(o -> takesSurfaceWater(o) && here.getCoordinate().distance(o.at()) <= near)
        .map(Outlet::id)
        .findFirst()
        .orElse("");
  }

  private static boolean takesSurfaceWater(Outlet outlet) {
    return switch (outlet.kind()) {
      case CATCH_BASIN, DITCH, WATERWAY, STREET -> true;
      case DAYLIGHT, DRY_WELL -> false;
    };
  }

  private static String words(FlowOpening opening) {
    String kind = opening.kind() == FlowOpening.Kind.CULVERT ? "culvert " : "curb cut ";
    return kind + opening.id();
  }

  /** Without the stair-steps of the cells. */
  private LineString line(List<Coordinate> way) {
    if (way.size() == 1) {
      way.add(new Coordinate(way.get(0).x, way.get(0).y));
    }
    Geometry steps = FACTORY.createLineString(way.toArray(Coordinate[]::new));
    return (LineString) DouglasPeuckerSimplifier.simplify(steps, 0.75 * frame.cellM());
  }
}
