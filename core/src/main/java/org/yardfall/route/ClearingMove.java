package org.yardfall.route;

import java.util.Collection;
import org.locationtech.jts.densify.Densifier;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineSegment;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.polygonize.Polygonizer;

/**
 * How far a line must move sideways to be clear of a shape that it meets. A stretch that crosses
 * the shape cuts it into parts; the line is clear once it has passed the whole of the lesser one,
 * so the move is the distance to that part's farthest point.
 */
final class ClearingMove {

  /** Step in metres at which the depth of a line's end within a shape is measured. */
  private static final double STEP_M = 0.05;

  /** What is this near to the edge, in metres, lies on it. */
  private static final double EDGE_M = 1e-6;

  private ClearingMove() {}

  /**
   * The least move in metres; 0 where the line does not enter the shape, infinite where the shape
   * closes round so that no move leads past it. Takes O(n log n) for n corners.
   */
  static double ofM(LineString line, Geometry shape) {
    double most = 0;
    for (int i = 0; i < shape.getNumGeometries(); i++) {
      Polygon polygon = (Polygon) shape.getGeometryN(i);
      Geometry runs = line.intersection(polygon);
      for (int k = 0; k < runs.getNumGeometries(); k++) {
        if (runs.getGeometryN(k) instanceof LineString run && run.getLength() > 0) {
          most = Math.max(most, ofRunM(line, run, polygon));
        }
      }
    }
    return most;
  }

  private static double ofRunM(LineString line, LineString run, Polygon polygon) {
    Geometry edge = polygon.getBoundary();
    double depth = depthM(run, edge);
    if (depth < EDGE_M) {
      return 0;
    }
    if (edge.distance(run.getStartPoint()) > EDGE_M || edge.distance(run.getEndPoint()) > EDGE_M) {
      return depth;
    }
    double least = Double.POSITIVE_INFINITY;
    Collection<?> parts = parts(run, edge, polygon);
    if (parts.size() > 1) {
      for (Object part : parts) {
        least = Math.min(least, farthestM((Polygon) part, line, run));
      }
    }
    return least;
  }

  /** The parts of a polygon between its edge and a run across it. */
  private static Collection<?> parts(LineString run, Geometry edge, Polygon polygon) {
    Polygonizer polygonizer = new Polygonizer();
    polygonizer.add(edge.union(longer(run)));
    Collection<?> parts = polygonizer.getPolygons();
    parts.removeIf(part -> !polygon.contains(((Polygon) part).getInteriorPoint()));
    return parts;
  }

  /**
   * The run led on over the edge at both ends: an end computed to lie on the edge lies beside it by
   * a rounding, and would not part the polygon.
   */
  private static LineString longer(LineString run) {
    Coordinate[] points = run.copy().getCoordinates();
    int n = points.length;
    points[0] = beyond(points[0], points[1]);
    points[n - 1] = beyond(points[n - 1], points[n - 2]);
    return run.getFactory().createLineString(points);
  }

  private static Coordinate beyond(Coordinate end, Coordinate before) {
    return new LineSegment(before, end).pointAlong(1 + EDGE_M / before.distance(end));
  }

  /** From the line to the far side of a part, by the corners of either. */
  private static double farthestM(Polygon part, LineString line, LineString run) {
    Geometry farSide = part.getExteriorRing().difference(run);
    return Math.max(farthestM(farSide, line), farthestM(run, farSide));
  }

  private static double farthestM(Geometry from, Geometry to) {
    double farthest = 0;
    for (Coordinate corner : from.getCoordinates()) {
      farthest = Math.max(farthest, to.distance(to.getFactory().createPoint(corner)));
    }
    return farthest;
  }

  private static double depthM(LineString run, Geometry edge) {
    double most = 0;
    for (Coordinate c : Densifier.densify(run, STEP_M).getCoordinates()) {
      most = Math.max(most, edge.distance(run.getFactory().createPoint(c)));
    }
    return most;
  }
}
