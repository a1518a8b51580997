package org.yardfall.water;

import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * Steepest descent to one of eight neighbours: the greatest fall over the distance between the
 * centres (O'Callaghan &amp; Mark 1984). Of several equally steep ones the first counter-clockwise
 * from east is taken, so that results are reproducible.
 *
 * <p>A cell without a lower neighbour is {@link FlowField#LEAVES} where it lies at the edge of the
 * known ground and {@link #LEVEL} elsewhere: part of a flat, or a pit. O(n), on all cores.
 */
final class SteepestDescent {

  /** No lower neighbour: not yet known where its water goes. Never leaves this package. */
  static final byte LEVEL = 10;

  private static final long NO_FALL = 7;
  private static final long ENDLESS = (long) Float.floatToRawIntBits(Float.POSITIVE_INFINITY) << 3;
  private static final float DIAGONAL = (float) Math.sqrt(0.5);

  private SteepestDescent() {}

  /** Directions by cell over a surface; NaN is ground not known. */
  static byte[] of(GridFrame frame, float[] z) {
    byte[] toward = new byte[z.length];
    int cols = frame.cols();
    int rows = frame.rows();
    Stripes.run(
        cols,
        rows,
        (stripe, from, to) -> {
          for (int row = from; row < to; row++) {
            boolean inner = row > 0 && row < rows - 1 && cols > 2;
            int c = row * cols;
            toward[c] = atEdge(frame, z, 0, row);
            for (int col = 1; col < cols; col++) {
              c++;
              toward[c] =
                  inner && col < cols - 1 ? inside(frame, z, col, row) : atEdge(frame, z, col, row);
            }
          }
        });
    return toward;
  }

  /** Directions by cell over the ground, flats not resolved. */
  static byte[] of(ElevationGrid ground) {
    return of(ground.frame(), ground.z());
  }

  /** The direction at any cell of a surface. */
  static byte at(GridFrame frame, float[] z, int cell) {
    int cols = frame.cols();
    int row = cell / cols;
    int col = cell - row * cols;
    return row > 0 && row < frame.rows() - 1 && col > 0 && col < cols - 1
        ? inside(frame, z, col, row)
        : atEdge(frame, z, col, row);
  }

  // Which way is steepest cannot be foreseen, so nothing branches on it: falls greater than 0 sort
  // as their bits do, and the direction is put below them, the first the greatest; NaN sorts above.
  private static byte inside(GridFrame frame, float[] z, int col, int row) {
    int cols = frame.cols();
    int c = row * cols + col;
    float here = z[c];
    long best = NO_FALL;
    best = greater(best, here - z[c + 1], 0);
    best = greater(best, (here - z[c - cols + 1]) * DIAGONAL, 1);
    best = greater(best, here - z[c - cols], 2);
    best = greater(best, (here - z[c - cols - 1]) * DIAGONAL, 3);
    best = greater(best, here - z[c - 1], 4);
    best = greater(best, (here - z[c + cols - 1]) * DIAGONAL, 5);
    best = greater(best, here - z[c + cols], 6);
    best = greater(best, (here - z[c + cols + 1]) * DIAGONAL, 7);
    if (best <= NO_FALL) {
      return withoutFall(z, cols, c);
    }
    return best < ENDLESS ? (byte) (7 - (best & 7)) : atEdge(frame, z, col, row);
  }

  private static long greater(long best, float fall, int k) {
    long other = (long) Float.floatToRawIntBits(fall) << 3 | (7 - k);
    long more = other - best;
    return best + (more & ~(more >> 63));
  }

  private static byte withoutFall(float[] z, int cols, int c) {
    if (Float.isNaN(z[c])) {
      return FlowField.UNKNOWN;
    }
    float sum =
        z[c + 1]
            + z[c - cols + 1]
            + z[c - cols]
            + z[c - cols - 1]
            + z[c - 1]
            + z[c + cols - 1]
            + z[c + cols]
            + z[c + cols + 1];
    return Float.isNaN(sum) ? FlowField.LEAVES : LEVEL;
  }

  private static byte atEdge(GridFrame frame, float[] z, int col, int row) {
    int c = row * frame.cols() + col;
    if (Float.isNaN(z[c])) {
      return FlowField.UNKNOWN;
    }
    float best = 0;
    byte toward = FlowField.LEAVES;
    for (int k = 0; k < Neighbours.COUNT; k++) {
      int col2 = col + Neighbours.DCOL[k];
      int row2 = row + Neighbours.DROW[k];
      if (frame.has(col2, row2)) {
        float fall = (z[c] - z[row2 * frame.cols() + col2]) * ((k & 1) == 0 ? 1 : DIAGONAL);
        if (fall > best) {
          best = fall;
          toward = (byte) k;
        }
      }
    }
    return toward;
  }
}
