package org.yardfall.water;

import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * Steepest descent, kept straight: on even ground water runs the way the ground slopes, however
 * that lies to the grid.
 *
 * <p>Of the eight neighbours the one with the greatest fall over the distance between the centres
 * is found (O'Callaghan &amp; Mark 1984), of equally steep ones the first counter-clockwise from
 * east. Always taken, it leads up to 22.5° astray on a plane. So where the lower of the two
 * neighbours beside it makes a facet with it down which the slope points between the two (Tarboton
 * 1997), water goes to the one or the other by turns: to the corner in a share of the columns (of
 * the rows, where it runs north or south) that is the tangent of the angle off the side. Both lie
 * lower, so nothing climbs.
 *
 * <p>Whose turn it is hangs on the column alone: on whether a number below one that stands for it,
 * its multiple of the golden section, is less than that share. Such numbers fill every share so
 * evenly that over hundreds of cells a path strays from the straight line by a cell and a half at
 * most (tried: 200 cells, any slope), mostly by less than one; and as they are the same for all
 * cells of a column, paths down a plane run side by side, do not meet, and each carries what its
 * own length sheds. Fairfield &amp; Leymarie 1991 (from memory) drew the turns at random, which
 * scatters paths; Orlandini et al. 2003, "Path-based methods for the determination of nondispersive
 * drainage directions in grid-based digital elevation models", Water Resources Research 39(6), sum
 * up each path's deviation on the way down (of this the abstract was read), which needs the cells
 * in the order of the flow. Columns are counted on the working plane, so that a window of a grid
 * has the directions of the whole.
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

  /** The golden section of 2³². */
  private static final int GOLDEN = 0x9E3779B9;

  private final GridFrame frame;
  private final float[] z;
  private final int cols;
  private final int rows;
  private final int[] offset;

  /** By column, then by row. */
  private final float[] turns;

  /** Over a surface; NaN is ground not known. */
  SteepestDescent(GridFrame frame, float[] z) {
    this.frame = frame;
    this.z = z;
    cols = frame.cols();
    rows = frame.rows();
    offset = Neighbours.offsets(cols);
    turns = new float[cols + rows];
    turns(frame.westM() / frame.cellM(), 0, cols);
    turns(-frame.northM() / frame.cellM(), cols, cols + rows);
  }

  /**
   * Numbers from 0 to below 1 for lines of cells; grids most often begin at whole or half cells.
   */
  private void turns(double firstEdge, int from, int to) {
    int first = (int) (long) Math.floor(firstEdge + 0.25);
    for (int i = from; i < to; i++) {
      turns[i] = (((first + i - from) * GOLDEN) >>> 8) * 0x1p-24f;
    }
  }

  /** Directions by cell over the ground, flats not resolved. */
  static byte[] of(ElevationGrid ground) {
    return new SteepestDescent(ground.frame(), ground.z()).all();
  }

  private byte[] all() {
    byte[] toward = new byte[z.length];
    Stripes.run(
        cols,
        rows,
        (stripe, from, to) -> {
          for (int row = from; row < to; row++) {
            boolean inner = row > 0 && row < rows - 1 && cols > 2;
            int c = row * cols;
            toward[c] = atEdge(0, row);
            for (int col = 1; col < cols; col++) {
              c++;
              toward[c] = inner && col < cols - 1 ? inside(col, row) : atEdge(col, row);
            }
          }
        });
    return toward;
  }

  /** The direction at any cell. */
  byte at(int cell) {
    int row = cell / cols;
    int col = cell - row * cols;
    return row > 0 && row < rows - 1 && col > 0 && col < cols - 1
        ? inside(col, row)
        : atEdge(col, row);
  }

  // Which way is steepest cannot be foreseen, so nothing branches on it: falls greater than 0 sort
  // as their bits do, and the direction is put below them, the first the greatest; NaN sorts above.
  private byte inside(int col, int row) {
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
      return withoutFall(c);
    }
    return best < ENDLESS ? straight(c, 7 - (int) (best & 7), col, row) : atEdge(col, row);
  }

  private static long greater(long best, float fall, int k) {
    long other = (long) Float.floatToRawIntBits(fall) << 3 | (7 - k);
    long more = other - best;
    return best + (more & ~(more >> 63));
  }

  /** The steepest neighbour or the one beside it, whichever keeps the way straight. */
  private byte straight(int c, int steepest, int col, int row) {
    float left = z[c + offset[(steepest + 1) & 7]];
    float right = z[c + offset[(steepest - 1) & 7]];
    int beside = (steepest + 1 + (below(right, left) & -2)) & 7;
    int side = chosen(steepest, beside, -(steepest & 1));
    int corner = steepest ^ beside ^ side;
    float sideZ = z[c + offset[side]];
    float turn = turns[chosen(col, cols + row, -((side >> 1) & 1))];
    return (byte) chosen(side, corner, below(turn * (z[c] - sideZ), sideZ - z[c + offset[corner]]));
  }

  /** All bits where one number, not NaN, is less than another (−0 is than 0), else none. */
  private static int below(float a, float b) {
    return Float.floatToRawIntBits(a - b) >> 31;
  }

  /** The second where all bits are given, the first where none is. */
  private static int chosen(int first, int second, int bits) {
    return first ^ ((first ^ second) & bits);
  }

  private byte withoutFall(int c) {
    if (Float.isNaN(z[c])) {
      return FlowField.UNKNOWN;
    }
    float sum = 0;
    for (int o : offset) {
      sum += z[c + o];
    }
    return Float.isNaN(sum) ? FlowField.LEAVES : LEVEL;
  }

  private byte atEdge(int col, int row) {
    int c = row * cols + col;
    if (Float.isNaN(z[c])) {
      return FlowField.UNKNOWN;
    }
    float best = 0;
    byte toward = FlowField.LEAVES;
    for (int k = 0; k < Neighbours.COUNT; k++) {
      if (known(col, row, k)) {
        float fall = (z[c] - z[c + offset[k]]) * ((k & 1) == 0 ? 1 : DIAGONAL);
        if (fall > best) {
          best = fall;
          toward = (byte) k;
        }
      }
    }
    return toward != FlowField.LEAVES
            && known(col, row, (toward + 1) & 7)
            && known(col, row, (toward - 1) & 7)
        ? straight(c, toward, col, row)
        : toward;
  }

  private boolean known(int col, int row, int k) {
    int col2 = col + Neighbours.DCOL[k];
    int row2 = row + Neighbours.DROW[k];
    return frame.has(col2, row2) && !Float.isNaN(z[row2 * cols + col2]);
  }
}
