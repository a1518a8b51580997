package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;

/**
 * A polygonal area laid out for many short questions: is a point in it, which parts of a segment
 * run through it. Edges are few (a slab, a house with its offset), so they are simply all tried
 * once the envelope has been passed.
 */
final class Area {

  private static final double[] NOTHING = {};

  private final Envelope envelope;
  private final double[] ax;
  private final double[] ay;
  private final double[] bx;
  private final double[] by;

  private Area(Envelope envelope, double[] ax, double[] ay, double[] bx, double[] by) {
    this.envelope = envelope;
    this.ax = ax;
    this.ay = ay;
    this.bx = bx;
    this.by = by;
  }

  /** The polygons of a geometry; other parts of it are left out. */
  static Area of(Geometry geometry) {
    List<LinearRing> rings = new ArrayList<>();
    for (int i = 0; i < geometry.getNumGeometries(); i++) {
      if (geometry.getGeometryN(i) instanceof Polygon polygon && !polygon.isEmpty()) {
        rings.add(polygon.getExteriorRing());
        for (int hole = 0; hole < polygon.getNumInteriorRing(); hole++) {
          rings.add(polygon.getInteriorRingN(hole));
        }
      }
    }
    int edges = rings.stream().mapToInt(r -> r.getNumPoints() - 1).sum();
    double[][] ends = new double[4][edges];
    Envelope envelope = new Envelope();
    int e = 0;
    for (LinearRing ring : rings) {
      envelope.expandToInclude(ring.getEnvelopeInternal());
      Coordinate[] points = ring.getCoordinates();
      for (int i = 1; i < points.length; i++, e++) {
        ends[0][e] = points[i - 1].x;
        ends[1][e] = points[i - 1].y;
        ends[2][e] = points[i].x;
        ends[3][e] = points[i].y;
      }
    }
    return new Area(envelope, ends[0], ends[1], ends[2], ends[3]);
  }

  boolean isEmpty() {
    return ax.length == 0;
  }

  Envelope envelope() {
    return envelope;
  }

  /** Whether the point lies in the area; on its edge either answer may come. */
  boolean contains(double x, double y) {
    if (!envelope.contains(x, y)) {
      return false;
    }
    boolean inside = false;
    for (int e = 0; e < ax.length; e++) {
      if ((ay[e] > y) != (by[e] > y)
          && x < ax[e] + (y - ay[e]) / (by[e] - ay[e]) * (bx[e] - ax[e])) {
        inside = !inside;
      }
    }
    return inside;
  }

  /**
   * The parts of a segment that run through the area, as pairs of shares of its length, rising.
   * Parts that touch end to end come as one.
   */
  double[] inside(double x0, double y0, double x1, double y1) {
    if (!envelope.intersects(
        new Envelope(Math.min(x0, x1), Math.max(x0, x1), Math.min(y0, y1), Math.max(y0, y1)))) {
      return NOTHING;
    }
    double dx = x1 - x0;
    double dy = y1 - y0;
    double[] cuts = new double[2 * ax.length + 2];
    int n = 0;
    cuts[n++] = 0;
    for (int e = 0; e < ax.length; e++) {
      double ex = bx[e] - ax[e];
      double ey = by[e] - ay[e];
      double cross = dx * ey - dy * ex;
      if (cross == 0) {
        continue; // parallel: where they overlap, the neighbouring edges cut
      }
      double px = ax[e] - x0;
      double py = ay[e] - y0;
      double t = (px * ey - py * ex) / cross;
      double u = (px * dy - py * dx) / cross;
      if (t > 0 && t < 1 && u >= 0 && u <= 1) {
        cuts[n++] = t;
      }
    }
    cuts[n++] = 1;
    Arrays.sort(cuts, 0, n);
    double[] parts = new double[n + 1];
    int p = 0;
    for (int i = 1; i < n; i++) {
      if (cuts[i] - cuts[i - 1] < 1e-12) {
        continue;
      }
      double middle = (cuts[i] + cuts[i - 1]) / 2;
      if (contains(x0 + middle * dx, y0 + middle * dy)) {
        if (p > 0 && cuts[i - 1] - parts[p - 1] < 1e-12) {
          parts[p - 1] = cuts[i];
        } else {
          parts[p++] = cuts[i - 1];
          parts[p++] = cuts[i];
        }
      }
    }
    return p == 0 ? NOTHING : Arrays.copyOf(parts, p);
  }

  /** Whether any part of the segment runs through the area. */
  boolean meets(double x0, double y0, double x1, double y1) {
    return inside(x0, y0, x1, y1).length > 0;
  }

  /** Whether an edge of the area lies within the distance of the point. */
  boolean near(double x, double y, double distanceM) {
    return x > envelope.getMinX() - distanceM
        && x < envelope.getMaxX() + distanceM
        && y > envelope.getMinY() - distanceM
        && y < envelope.getMaxY() + distanceM
        && toEdge(x, y) <= distanceM;
  }

  /** Distance from a point to the area's nearest edge. */
  double toEdge(double x, double y) {
    double best = Double.POSITIVE_INFINITY;
    for (int e = 0; e < ax.length; e++) {
      double ex = bx[e] - ax[e];
      double ey = by[e] - ay[e];
      double length2 = ex * ex + ey * ey;
      double t = length2 == 0 ? 0 : ((x - ax[e]) * ex + (y - ay[e]) * ey) / length2;
      t = Math.max(0, Math.min(1, t));
      best = Math.min(best, Math.hypot(x - ax[e] - t * ex, y - ay[e] - t * ey));
    }
    return best;
  }
}
