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
              toward[c] = inner && col < cols - 1 ? inside(z, cols, c) : atEdge(frame, z, col, row);
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
        ? inside(z, cols, cell)
        : atEdge(frame, z, col, row);
  }

  private static byte inside(float[] z, int cols, int c) {
    float here = z[c];
    float best = 0;
    byte k = LEVEL;
    float fall = here - z[c + 1];
    if (fall > best) {
      best = fall;
      k = 0;
    }
    fall = (here - z[c - cols + 1]) * DIAGONAL;
    if (fall > best) {
      best = fall;
      k = 1;
    }
    fall = here - z[c - cols];
    if (fall > best) {
      best = fall;
      k = 2;
    }
    fall = (here - z[c - cols - 1]) * DIAGONAL;
    if (fall > best) {
      best = fall;
      k = 3;
    }
    fall = here - z[c - 1];
    if (fall > best) {
      best = fall;
      k = 4;
    }
    fall = (here - z[c + cols - 1]) * DIAGONAL;
    if (fall > best) {
      best = fall;
      k = 5;
    }
    fall = here - z[c + cols];
    if (fall > best) {
      best = fall;
      k = 6;
    }
    fall = (here - z[c + cols + 1]) * DIAGONAL;
    if (fall > best) {
      k = 7;
    }
    return k == LEVEL ? withoutFall(z, cols, c) : k;
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
