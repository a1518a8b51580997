package org.yardfall.layer;

import static org.yardfall.layer.Layer.Column.integer;
import static org.yardfall.layer.Layer.Column.real;
import static org.yardfall.layer.Layer.Column.text;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.layer.Layer.Shape;
import org.yardfall.route.GravityReach;
import org.yardfall.site.DrainLimits;
import org.yardfall.water.CellOutline;

/**
 * The gravity reach as a map: where a drain can lie at all, to which outlet, and with how much
 * room.
 *
 * <p>The room at a place is the height between the highest invert that has the least cover and the
 * lowest invert from which a pipe still falls to the outlet: 0 means that a pipe fits at one depth
 * only. It is sorted into a few classes, so that a designer sees at a glance where there is fall to
 * spare.
 */
final class ReachLayer {

  /** Lower bounds of the classes in metres. */
  static final List<Double> FROM_M = List.of(0.0, 0.1, 0.2, 0.4, 0.8);

  /** Patches and gaps smaller than this are not drawn. */
  private static final double LEAST_M2 = 2.0;

  private static final int NONE = -1;
  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private ReachLayer() {}

  private record Reach(String outlet, int roomClass, Geometry area) {}

  static Layer of(Result result) {
    return Layer.of(
        "reach",
        "Where a drain can fall to an outlet, by its room in height",
        Shape.AREA,
        result.plan().reach().map(reach -> areas(reach, result)).orElse(List.of()),
        Reach::area,
        List.of(
            text("outlet", Reach::outlet),
            integer("room_class", Reach::roomClass),
            real("room_lo_m", 3, reach -> FROM_M.get(reach.roomClass() - 1)),
            real("room_hi_m", 3, reach -> upper(reach.roomClass()).orElse(null)),
            real("area_m2", 2, reach -> reach.area().getArea())));
  }

  private static Optional<Double> upper(int roomClass) {
    return roomClass < FROM_M.size() ? Optional.of(FROM_M.get(roomClass)) : Optional.empty();
  }

  private static List<Reach> areas(GravityReach reach, Result result) {
    int[] groups = groups(reach, result.terrain().ground(), result.site().drain());
    int[] met = Arrays.stream(groups).filter(group -> group != NONE).sorted().distinct().toArray();
    List<Reach> areas = new ArrayList<>();
    for (int group : met) {
      areas.add(
          new Reach(
              reach.outletIds().get(group / FROM_M.size()),
              group % FROM_M.size() + 1,
              withoutSpecks(CellOutline.of(reach.frame(), cellsOf(groups, group)))));
    }
    return areas;
  }

  private static int[] cellsOf(int[] groups, int group) {
    return IntStream.range(0, groups.length).filter(cell -> groups[cell] == group).toArray();
  }

  /** The parts that are large enough to be drawn, without the gaps that are too small. */
  private static Geometry withoutSpecks(Geometry area) {
    List<Polygon> kept = new ArrayList<>();
    for (int i = 0; i < area.getNumGeometries(); i++) {
      Polygon part = (Polygon) area.getGeometryN(i);
      if (part.getArea() >= LEAST_M2) {
        kept.add(withoutSmallHoles(part));
      }
    }
    return GEOMETRIES.createMultiPolygon(kept.toArray(new Polygon[0]));
  }

  private static Polygon withoutSmallHoles(Polygon part) {
    List<LinearRing> holes = new ArrayList<>();
    for (int i = 0; i < part.getNumInteriorRing(); i++) {
      if (GEOMETRIES.createPolygon(part.getInteriorRingN(i)).getArea() >= LEAST_M2) {
        holes.add(part.getInteriorRingN(i));
      }
    }
    return GEOMETRIES.createPolygon(part.getExteriorRing(), holes.toArray(new LinearRing[0]));
  }

  /** By cell the outlet's index times the number of classes plus the class from 0. */
  private static int[] groups(GravityReach reach, ElevationGrid ground, DrainLimits limits) {
    GridFrame frame = reach.frame();
    int[] groups = new int[frame.size()];
    for (int cell = 0; cell < groups.length; cell++) {
      double x = frame.x(cell % frame.cols());
      double y = frame.y(cell / frame.cols());
      double room = limits.highestInvertM(ground.bilinear(x, y)) - reach.invertM()[cell];
      groups[cell] =
          Double.isNaN(room) || reach.outlet()[cell] < 0
              ? NONE
              : reach.outlet()[cell] * FROM_M.size() + roomClass(room);
    }
    return groups;
  }

  private static int roomClass(double roomM) {
    int found = 0;
    while (found + 1 < FROM_M.size() && roomM >= FROM_M.get(found + 1)) {
      found++;
    }
    return found;
  }
}
