package org.yardfall.water;

import java.util.Arrays;
import org.yardfall.elevation.GridFrame;

/**
 * Flow in any direction (Tarboton 1997, "A new method for the determination of flow directions and
 * upslope areas in grid digital elevation models", Water Resources Research 33(2)): down the
 * steepest of the eight triangular facets round a cell, shared between the two neighbours that the
 * direction passes between, by angle. Where no facet falls (flats, hollows, the edge) the water
 * goes as by steepest descent.
 *
 * @param frame the grid
 * @param angle by cell: direction in radians counter-clockwise from east, 0 to 2π; NaN where the
 *     water leaves or the ground is not known
 */
@SuppressWarnings("ArrayRecordComponent") // a hot-loop array, deliberately shared
public record DInfinity(GridFrame frame, float[] angle) {

  private static final double EIGHTH = Math.PI / 4;

  /** A step is to one of the two neighbours that the flow passes between, or nearly so. */
  private static final double LEAST_COSINE = Math.sqrt(0.5) - 1e-6;

  /**
   * Directions over a filled surface.
   *
   * @param filled elevations without hollows, in metres; NaN where unknown
   * @param flow steepest descent on the same surface, flats resolved
   */
  public static DInfinity of(float[] filled, FlowField flow) {
    GridFrame frame = flow.frame();
    float[] angle = new float[filled.length];
    Stripes.run(
        frame.cols(),
        frame.rows(),
        (stripe, from, to) -> {
          for (int row = from; row < to; row++) {
            for (int col = 0; col < frame.cols(); col++) {
              int c = row * frame.cols() + col;
              angle[c] = (float) angle(flow, filled, c);
            }
          }
        });
    return new DInfinity(frame, angle);
  }

  /**
   * Bearing of the flow at one cell in degrees clockwise from grid north, NaN where it leaves or is
   * unknown.
   *
   * @param filled elevations without hollows, in metres; NaN where unknown
   * @param flow steepest descent on the same surface, flats resolved
   */
  public static double bearingDeg(float[] filled, FlowField flow, int cell) {
    return (450 - Math.toDegrees(angle(flow, filled, cell))) % 360;
  }

  /**
   * How far in metres water gets down its own bearing with the step from a cell to the next. Summed
   * over a way that is the way's length; the steps themselves, each to one of eight neighbours, are
   * up to 1 / cos 22.5° longer, 8.2 %, where the ground falls between two of them.
   *
   * @param filled elevations without hollows, in metres; NaN where unknown
   * @param flow steepest descent on the same surface, flats resolved
   * @param cell a cell from which water goes to another
   */
  public static double advanceM(float[] filled, FlowField flow, int cell) {
    double cosine = Math.cos(flow.toward()[cell] * EIGHTH - angle(flow, filled, cell));
    return flow.stepM(cell) * (cosine < LEAST_COSINE ? 1 : cosine);
  }

  private static double angle(FlowField flow, float[] filled, int cell) {
    byte k = flow.toward()[cell];
    if (k >= FlowField.LEAVES) {
      return Double.NaN;
    }
    int cols = flow.frame().cols();
    double steepest = angle(flow.frame(), filled, cell % cols, cell / cols);
    return steepest >= 0 ? steepest : k * EIGHTH;
  }

  /** Direction of the steepest facet, −1 where none falls. */
  private static double angle(GridFrame frame, float[] z, int col, int row) {
    int c = row * frame.cols() + col;
    double steepest = 0; // squared: of all facets only the steepest needs its angle
    int facet = -1;
    double across = 0;
    double straight = 0;
    for (int k = 0; k < Neighbours.COUNT; k++) {
      int side = (k & 1) == 0 ? k : (k + 1) & 7;
      int corner = (k & 1) == 0 ? k + 1 : k;
      if (!frame.has(col + Neighbours.DCOL[side], row + Neighbours.DROW[side])
          || !frame.has(col + Neighbours.DCOL[corner], row + Neighbours.DROW[corner])) {
        continue;
      }
      float sideZ = z[c + Neighbours.DROW[side] * frame.cols() + Neighbours.DCOL[side]];
      float cornerZ = z[c + Neighbours.DROW[corner] * frame.cols() + Neighbours.DCOL[corner]];
      double outward = (double) z[c] - sideZ;
      double along = Math.max(0, (double) sideZ - cornerZ);
      if (along > outward) { // straight to the corner
        outward = ((double) z[c] - cornerZ) / 2;
        along = outward;
      }
      double fall = outward * outward + along * along;
      if (outward > 0 && fall > steepest) {
        steepest = fall;
        facet = k;
        straight = outward;
        across = along;
      }
    }
    if (facet < 0) {
      return -1;
    }
    double r = Math.atan2(across, straight);
    double angle = (facet & 1) == 0 ? facet * EIGHTH + r : (facet + 1) * EIGHTH - r;
    return angle >= 2 * Math.PI ? 0 : angle;
  }

  /**
   * Bearing of the flow in degrees clockwise from grid north, NaN where it leaves or is unknown.
   */
  public double bearingDeg(int cell) {
    return (450 - Math.toDegrees(angle[cell])) % 360;
  }

  /**
   * The sum of the cells' own amounts over all that drains through each cell, in their unit. In the
   * order of the flow, without recursion; O(n).
   *
   * @param own amount by cell, 0 where the ground is not known; kept
   */
  public double[] accumulate(double[] own) {
    double[] sum = own.clone();
    byte[] waitsFor = new byte[own.length];
    for (int c = 0; c < own.length; c++) {
      for (int part = 0; part < 2; part++) {
        if (share(c, part) > 0) {
          waitsFor[receiver(c, part)]++;
        }
      }
    }
    int[] ready = new int[64];
    for (int start = 0; start < own.length; start++) {
      if (waitsFor[start] != 0) {
        continue;
      }
      ready[0] = start;
      for (int top = 1; top > 0; ) {
        int c = ready[--top];
        waitsFor[c] = -1;
        for (int part = 0; part < 2; part++) {
          double share = share(c, part);
          if (share > 0) {
            int next = receiver(c, part);
            sum[next] += share * sum[c];
            if (--waitsFor[next] == 0) {
              if (top == ready.length) {
                ready = Arrays.copyOf(ready, top * 2);
              }
              ready[top++] = next;
            }
          }
        }
      }
    }
    return sum;
  }

  /**
   * Share of a cell's water that goes to the first or second neighbour its direction is between.
   */
  double share(int cell, int part) {
    if (Float.isNaN(angle[cell])) {
      return 0;
    }
    double beyond = angle[cell] / EIGHTH - eighth(cell);
    double second = beyond < 1e-6 ? 0 : beyond > 1 - 1e-6 ? 1 : beyond;
    return part == 0 ? 1 - second : second;
  }

  /** The first or second neighbour that a cell's direction is between. */
  int receiver(int cell, int part) {
    int k = (eighth(cell) + part) & 7;
    return cell + Neighbours.DROW[k] * frame.cols() + Neighbours.DCOL[k];
  }

  private int eighth(int cell) {
    return (int) (angle[cell] / EIGHTH);
  }
}
