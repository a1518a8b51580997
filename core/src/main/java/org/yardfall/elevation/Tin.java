package org.yardfall.elevation;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import org.locationtech.jts.geom.Envelope;

/**
 * A surface of triangles. The arrays are handed over, not copied.
 *
 * @param x eastings of the vertices on the working plane in metres
 * @param y northings in metres
 * @param z elevations in metres
 * @param corners the triangles: three vertex numbers each
 */
@SuppressWarnings("ArrayRecordComponent") // hot-loop arrays, deliberately shared
public record Tin(double[] x, double[] y, double[] z, int[] corners) {

  /** How far outside a triangle, as a share of it, a point still counts as on its edge. */
  private static final double ON_EDGE = 1e-9;

  /** Number of triangles. */
  public int triangles() {
    return corners.length / 3;
  }

  /** Area of the triangles on plan in m². */
  public double areaM2() {
    double sum = 0;
    for (int t = 0; t < corners.length; t += 3) {
      sum += Math.abs(cross(corners[t], corners[t + 1], corners[t + 2])) / 2;
    }
    return sum;
  }

  /** What the triangles cover, in metres. */
  public Envelope envelope() {
    Envelope envelope = new Envelope();
    for (int corner : corners) {
      envelope.expandToInclude(x[corner], y[corner]);
    }
    return envelope;
  }

  /** Twice the area of a triangle, positive where its corners run anticlockwise. */
  private double cross(int a, int b, int c) {
    return (x[b] - x[a]) * (y[c] - y[a]) - (x[c] - x[a]) * (y[b] - y[a]);
  }

  private double edgeM(int a, int b) {
    return Math.hypot(x[a] - x[b], y[a] - y[b]);
  }

  /**
   * The surface at the cells' centres; NaN where no triangle covers them. Takes time in proportion
   * to triangles and cells.
   */
  public ElevationGrid grid(GridFrame frame) {
    return painted(frame, (t, u, v) -> z[corners[t]] + u * rise(t, 1) + v * rise(t, 2));
  }

  private double rise(int t, int corner) {
    return z[corners[t + corner]] - z[corners[t]];
  }

  /**
   * A value of each triangle at the centres of the cells that it covers; NaN where none does.
   *
   * @param values by triangle
   */
  ElevationGrid flat(GridFrame frame, double[] values) {
    return painted(frame, (t, u, v) -> values[t / 3]);
  }

  /** A value within a triangle whose corners begin at t, by its coordinates along two sides. */
  private interface Within {
    double at(int t, double u, double v);
  }

  private ElevationGrid painted(GridFrame frame, Within value) {
    float[] cells = new float[frame.size()];
    Arrays.fill(cells, Float.NaN);
    for (int t = 0; t < corners.length; t += 3) {
      paint(t, frame, cells, value);
    }
    return new ElevationGrid(frame, cells);
  }

  private void paint(int t, GridFrame frame, float[] cells, Within value) {
    int a = corners[t];
    int b = corners[t + 1];
    int c = corners[t + 2];
    double area = cross(a, b, c);
    if (area == 0) {
      return;
    }
    double north = Math.max(y[a], Math.max(y[b], y[c]));
    double south = Math.min(y[a], Math.min(y[b], y[c]));
    double west = Math.min(x[a], Math.min(x[b], x[c]));
    double east = Math.max(x[a], Math.max(x[b], x[c]));
    int firstRow = Math.max(0, frame.row(north) - 1);
    int lastRow = Math.min(frame.rows() - 1, frame.row(south) + 1);
    int firstCol = Math.max(0, frame.col(west) - 1);
    int lastCol = Math.min(frame.cols() - 1, frame.col(east) + 1);
    for (int row = firstRow; row <= lastRow; row++) {
      double py = frame.y(row);
      for (int col = firstCol; col <= lastCol; col++) {
        double px = frame.x(col);
        double u = ((px - x[a]) * (y[c] - y[a]) - (x[c] - x[a]) * (py - y[a])) / area;
        double v = ((x[b] - x[a]) * (py - y[a]) - (px - x[a]) * (y[b] - y[a])) / area;
        if (u >= -ON_EDGE && v >= -ON_EDGE && u + v <= 1 + ON_EDGE) {
          cells[row * frame.cols() + col] = (float) value.at(t, u, v);
        }
      }
    }
  }

  /**
   * Without the triangles that reach across open ground at the rim: from the rim inward, those with
   * an edge on the rim longer than the limit (the idea of the χ-shape of Duckham, Kulik, Worboys &
   * Galton 2008, Pattern Recognition 41; here a shot may lose its last triangle).
   *
   * @param longestEdgeM the longest edge that the rim may have, in metres
   */
  public Tin trimmed(double longestEdgeM) {
    Map<Long, int[]> sides = sides();
    boolean[] gone = new boolean[triangles()];
    Deque<Integer> open = new ArrayDeque<>();
    for (int t = 0; t < gone.length; t++) {
      open.add(t);
    }
    while (!open.isEmpty()) {
      int t = open.poll();
      if (gone[t] || !reachesAcross(t, sides, gone, longestEdgeM)) {
        continue;
      }
      gone[t] = true;
      for (int side = 0; side < 3; side++) {
        int other = across(t, side, sides);
        if (other >= 0 && !gone[other]) {
          open.add(other);
        }
      }
    }
    int[] left = new int[corners.length];
    int count = 0;
    for (int t = 0; t < gone.length; t++) {
      if (!gone[t]) {
        System.arraycopy(corners, 3 * t, left, count, 3);
        count += 3;
      }
    }
    return new Tin(x, y, z, Arrays.copyOf(left, count));
  }

  private boolean reachesAcross(int t, Map<Long, int[]> sides, boolean[] gone, double limit) {
    for (int side = 0; side < 3; side++) {
      int other = across(t, side, sides);
      if ((other < 0 || gone[other])
          && edgeM(corners[3 * t + side], corners[3 * t + (side + 1) % 3]) > limit) {
        return true;
      }
    }
    return false;
  }

  private int across(int t, int side, Map<Long, int[]> sides) {
    int[] both = sides.get(key(corners[3 * t + side], corners[3 * t + (side + 1) % 3]));
    return both[0] == t ? both[1] : both[0];
  }

  /** The one or two triangles at each edge; −1 for none. */
  private Map<Long, int[]> sides() {
    Map<Long, int[]> sides = new HashMap<>();
    for (int i = 0; i < corners.length; i++) {
      int t = i / 3;
      int next = 3 * t + (i - 3 * t + 1) % 3;
      int[] both = sides.computeIfAbsent(key(corners[i], corners[next]), k -> new int[] {-1, -1});
      if (both[0] < 0) {
        both[0] = t;
      } else {
        both[1] = t;
      }
    }
    return sides;
  }

  private static long key(int a, int b) {
    return ((long) Math.min(a, b) << 32) | Math.max(a, b);
  }
}
