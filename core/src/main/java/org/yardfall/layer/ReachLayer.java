package org.yardfall.layer;

import static org.yardfall.layer.Layer.Column.integer;
import static org.yardfall.layer.Layer.Column.perhaps;
import static org.yardfall.layer.Layer.Column.real;
import static org.yardfall.layer.Layer.Column.text;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.Contour;
import org.yardfall.elevation.Contours;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.layer.Layer.Shape;
import org.yardfall.route.GravityReach;
import org.yardfall.route.ReachShortfall.Limit;
import org.yardfall.water.CellOutline;

/**
 * The gravity reach as a map: where a drain can lie at all, to which outlet, how deep, and with how
 * much room; and where it cannot, what is lacking.
 *
 * <p>The room at a place is the height between the highest invert that has the least cover and the
 * lowest invert from which a pipe still falls to the outlet: 0 means that a pipe fits at one depth
 * only. It is sorted into a few classes, so that a designer sees at a glance where there is fall to
 * spare, and contoured; each area tells the lowest inverts in it, from the lowest to the highest.
 * Where the lot has no reach, the areas tell the least change of each limit that, alone, would give
 * it one.
 */
final class ReachLayer {

  /** Lower bounds of the classes in metres. */
  static final List<Double> FROM_M = List.of(0.0, 0.1, 0.2, 0.4, 0.8);

  /** Class of ground from which no pipe falls to an outlet. */
  static final int NO_REACH = 0;

  /** Vertical distance of the contours in metres. */
  static final double CONTOUR_M = 0.2;

  /** Patches and gaps smaller than this are not drawn. */
  private static final double LEAST_M2 = 2.0;

  /** Contours shorter than this are not drawn. */
  private static final double LEAST_LINE_M = 2.0;

  /** The limits, lengths before the grade. */
  private static final List<Limit> LIMITS = List.of(Limit.values());

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private ReachLayer() {}

  /** What the cells of an area have in common. */
  private record Group(String outlet, int roomClass, List<OptionalDouble> relax)
      implements Comparable<Group> {

    Optional<Double> atLeastM() {
      return roomClass == NO_REACH ? Optional.empty() : Optional.of(FROM_M.get(roomClass - 1));
    }

    Optional<Double> belowM() {
      return roomClass == NO_REACH || roomClass == FROM_M.size()
          ? Optional.empty()
          : Optional.of(FROM_M.get(roomClass));
    }

    OptionalDouble relax(Limit limit) {
      return relax.isEmpty() ? OptionalDouble.empty() : relax.get(LIMITS.indexOf(limit));
    }

    OptionalDouble shortfallM() {
      return relax.stream()
          .limit(LIMITS.indexOf(Limit.MIN_GRADE))
          .filter(OptionalDouble::isPresent)
          .mapToDouble(OptionalDouble::getAsDouble)
          .min();
    }

    @Override
    public int compareTo(Group other) {
      return Comparator.comparing(Group::outlet)
          .thenComparing(Group::roomClass)
          .thenComparing(g -> g.relax().toString())
          .compare(this, other);
    }
  }

  private record Area(Group group, Geometry outline, OptionalDouble lowM, OptionalDouble highM) {}

  static Layer of(Result result) {
    double aboveM = result.site().drain().minCoverM() + result.site().drain().pipeOutsideM();
    return Layer.of(
        "reach",
        "Where a drain can fall to an outlet, how deep, and what is lacking where it cannot",
        Shape.AREA,
        result.plan().reach().map(reach -> areas(reach, result)).orElse(List.of()),
        Area::outline,
        List.of(
            text("outlet", area -> area.group().outlet()),
            integer("room_class", area -> area.group().roomClass()),
            real("room_lo_m", 3, area -> area.group().atLeastM().orElse(null)),
            real("room_hi_m", 3, area -> area.group().belowM().orElse(null)),
            real("deep_lo_m", 3, area -> area.group().atLeastM().map(m -> m + aboveM).orElse(null)),
            perhaps("invert_lo", Area::lowM),
            perhaps("invert_hi", Area::highM),
            perhaps("short_m", area -> area.group().shortfallM()),
            perhaps("by_outlet", area -> area.group().relax(Limit.OUTLET)),
            perhaps("by_depth", area -> area.group().relax(Limit.MAX_DEPTH)),
            perhaps("by_cover", area -> area.group().relax(Limit.MIN_COVER)),
            real(
                "to_grade",
                6,
                area -> {
                  OptionalDouble to = area.group().relax(Limit.MIN_GRADE);
                  return to.isPresent() ? to.getAsDouble() : null;
                }),
            real("area_m2", 2, area -> area.outline().getArea())));
  }

  /** Lines of equal room, which are lines of equal greatest depth as well. */
  static Layer contours(Result result) {
    double aboveM = result.site().drain().minCoverM() + result.site().drain().pipeOutsideM();
    return Layer.of(
        "reach_lines",
        "How far a drain can be lowered and still fall to an outlet",
        Shape.LINE,
        result.plan().reach().map(reach -> lines(reach, result)).orElse(List.of()),
        Contour::line,
        List.of(
            real("room_m", 3, Contour::elevationM),
            real("deepest_m", 3, line -> line.elevationM() + aboveM)));
  }

  private static List<Contour> lines(GravityReach reach, Result result) {
    return Contours.of(new ElevationGrid(reach.frame(), roomM(reach, result)), CONTOUR_M).stream()
        .filter(line -> line.elevationM() > CONTOUR_M / 2)
        .filter(line -> line.line().getLength() >= LEAST_LINE_M)
        .toList();
  }

  private static List<Area> areas(GravityReach reach, Result result) {
    Map<Group, List<Integer>> cells = new HashMap<>();
    for (int cell = 0; cell < reach.frame().size(); cell++) {
      int here = cell;
      group(reach, cell, result)
          .ifPresent(group -> cells.computeIfAbsent(group, g -> new ArrayList<>()).add(here));
    }
    List<Area> areas = new ArrayList<>();
    new TreeMap<>(cells).forEach((group, members) -> areas.add(area(reach, group, members)));
    return areas;
  }

  private static Area area(GravityReach reach, Group group, List<Integer> members) {
    int[] cells = members.stream().mapToInt(i -> i).toArray();
    double[] inverts =
        Arrays.stream(cells).filter(reach::reaches).mapToDouble(c -> reach.invertM()[c]).toArray();
    return new Area(
        group,
        withoutSpecks(CellOutline.of(reach.frame(), cells)),
        Arrays.stream(inverts).min(),
        Arrays.stream(inverts).max());
  }

  private static Optional<Group> group(GravityReach reach, int cell, Result result) {
    double room = roomM(reach, cell, result);
    if (!Double.isNaN(room)) {
      return Optional.of(
          new Group(reach.outletIds().get(reach.outlet()[cell]), roomClass(room), List.of()));
    }
    return reach
        .shortfall()
        .filter(lack -> lack.lacks(cell))
        .map(
            lack ->
                new Group(
                    "",
                    NO_REACH,
                    Arrays.stream(Limit.values()).map(limit -> lack.relax(limit, cell)).toList()));
  }

  /** The room in height by cell in metres; NaN where no outlet is reached. */
  static float[] roomM(GravityReach reach, Result result) {
    float[] room = new float[reach.frame().size()];
    for (int cell = 0; cell < room.length; cell++) {
      room[cell] = (float) roomM(reach, cell, result);
    }
    return room;
  }

  private static double roomM(GravityReach reach, int cell, Result result) {
    if (!reach.reaches(cell)) {
      return Double.NaN;
    }
    GridFrame frame = reach.frame();
    double ground =
        result
            .terrain()
            .ground()
            .bilinear(frame.x(cell % frame.cols()), frame.y(cell / frame.cols()));
    return result.site().drain().highestInvertM(ground) - reach.invertM()[cell];
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

  private static int roomClass(double roomM) {
    int found = 0;
    while (found + 1 < FROM_M.size() && roomM >= FROM_M.get(found + 1)) {
      found++;
    }
    return found + 1;
  }
}
