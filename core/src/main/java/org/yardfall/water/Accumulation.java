package org.yardfall.water;

import org.yardfall.elevation.GridFrame;

/**
 * What passes through each cell: its own share and all that drains to it, in the order of the flow,
 * without recursion. O(n).
 *
 * <p>Counted in cells and carried in doubles, counts are exact to 2⁵³ and do not depend on the
 * order of adding.
 */
public final class Accumulation {

  private Accumulation() {}

  /** Area in m² that drains through each cell, itself included; 0 where unknown. */
  public static double[] areaM2(FlowField flow) {
    double[] cells = new double[flow.toward().length];
    for (int c = 0; c < cells.length; c++) {
      cells[c] = flow.toward()[c] == FlowField.UNKNOWN ? 0 : 1;
    }
    passDown(flow, cells);
    double cellAreaM2 = flow.frame().cellAreaM2();
    for (int c = 0; c < cells.length; c++) {
      cells[c] *= cellAreaM2;
    }
    return cells;
  }

  /**
   * The sum of the cells' own amounts over all that drains through each cell, in their unit.
   *
   * @param own amount by cell, 0 where the ground is not known; kept
   */
  public static double[] of(FlowField flow, double[] own) {
    double[] sum = own.clone();
    passDown(flow, sum);
    return sum;
  }

  /** Adds each cell's amount to all cells down the flow, in place. */
  static void passDown(FlowField flow, double[] amount) {
    byte[] waitsFor = upstreamNeighbours(flow);
    int[] offset = Neighbours.offsets(flow.frame().cols());
    byte[] toward = flow.toward();
    for (int start = 0; start < toward.length; start++) {
      if (waitsFor[start] != 0) {
        continue;
      }
      int c = start;
      while (toward[c] < FlowField.LEAVES) {
        int next = c + offset[toward[c]];
        amount[next] += amount[c];
        waitsFor[c] = -1;
        if (--waitsFor[next] != 0) {
          break;
        }
        // all of its water has come, so it goes on from here; the scan will pass it by
        c = next;
      }
      if (waitsFor[c] == 0) {
        waitsFor[c] = -1;
      }
    }
  }

  /** How many neighbours drain to each cell. */
  static byte[] upstreamNeighbours(FlowField flow) {
    GridFrame frame = flow.frame();
    byte[] toward = flow.toward();
    byte[] count = new byte[toward.length];
    int cols = frame.cols();
    int rows = frame.rows();
    int[] offset = Neighbours.offsets(cols);
    Stripes.run(
        cols,
        rows,
        (stripe, from, to) -> {
          for (int row = from; row < to; row++) {
            for (int col = 0; col < cols; col++) {
              int c = row * cols + col;
              int n = 0;
              for (int k = 0; k < Neighbours.COUNT; k++) {
                if (frame.has(col + Neighbours.DCOL[k], row + Neighbours.DROW[k])
                    && toward[c + offset[k]] == Neighbours.opposite(k)) {
                  n++;
                }
              }
              count[c] = (byte) n;
            }
          }
        });
    return count;
  }
}
