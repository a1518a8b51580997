package org.yardfall.water;

import org.yardfall.elevation.GridFrame;

/**
 * The direction of flow at any angle (Tarboton 1997, "A new method for the determination of flow
 * directions and upslope areas in grid digital elevation models", Water Resources Research 33(2)):
 * down the steepest of the eight triangular facets round a cell. Where no facet falls (flats,
 * hollows, the edge) it is that of the steepest descent.
 */
public final class DInfinity {

  private static final double EIGHTH = Math.PI / 4;

  /** A step is to one of the two neighbours that the flow passes between, or nearly so. */
  private static final double LEAST_COSINE = Math.sqrt(0.5) - 1e-6;

  private DInfinity() {}

  /**
   * Bearing of the flow at a cell in degrees clockwise from grid north, NaN where it leaves or is
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
    double steepest = 0;
    double angle = -1;
    for (int k = 0; k < Neighbours.COUNT; k++) {
      int side = (k & 1) == 0 ? k : (k + 1) & 7;
      int corner = (k & 1) == 0 ? k + 1 : k;
      if (!frame.has(col + Neighbours.DCOL[side], row + Neighbours.DROW[side])
          || !frame.has(col + Neighbours.DCOL[corner], row + Neighbours.DROW[corner])) {
        continue;
      }
      int[] offset = {
        Neighbours.DROW[side] * frame.cols() + Neighbours.DCOL[side],
        Neighbours.DROW[corner] * frame.cols() + Neighbours.DCOL[corner]
      };
      double outward = (double) z[c] - z[c + offset[0]];
      double along = (double) z[c + offset[0]] - z[c + offset[1]];
      double r = Math.atan2(along, outward);
      double fall = Math.hypot(outward, along);
      if (r < 0) {
        r = 0;
        fall = outward;
      } else if (r > EIGHTH) {
        r = EIGHTH;
        fall = ((double) z[c] - z[c + offset[1]]) / Math.sqrt(2);
      }
      if (fall > steepest) {
        steepest = fall;
        angle = (k & 1) == 0 ? k * EIGHTH + r : (k + 1) * EIGHTH - r;
      }
    }
    return angle >= 2 * Math.PI ? 0 : angle;
  }
}
