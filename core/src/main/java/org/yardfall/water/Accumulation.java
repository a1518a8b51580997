package org.yardfall.water;

import java.util.Arrays;

/**
 * What passes through each cell: its own share and all that drains to it, in the order of the flow,
 * without recursion. O(n).
 *
 * <p>Counted in cells and carried in doubles, counts are exact to 2⁵³ and do not depend on the
 * order of adding. What is not whole is added in an order that depends on the grid alone: stripes
 * of rows are worked on all cores, each passing down what stays within it; then what flows from one
 * stripe into another is followed on, in the order of cells (as by tiles in Barnes 2017, "Parallel
 * non-divergent flow accumulation for trillion cell digital elevation models on desktops or
 * clusters", Environmental Modelling &amp; Software 92).
 *
 * <p>Stripes pay: of 16 million cells, two cores take 0.17 to 0.21 s where one that follows the
 * flow over the whole grid takes 0.33 s.
 */
public final class Accumulation {

  private static final byte PASSED = -1;

  private final int cols;
  private final int rows;
  private final byte[] toward;
  private final int[] offset;
  private final double[] amount;

  /** By cell: how many neighbours have yet to pass their water to it. */
  private final byte[] waitsFor;

  private Accumulation(FlowField flow, double[] amount) {
    cols = flow.frame().cols();
    rows = flow.frame().rows();
    toward = flow.toward();
    offset = Neighbours.offsets(cols);
    this.amount = amount;
    waitsFor = new byte[toward.length];
  }

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
    new Accumulation(flow, amount).passDown();
  }

  private void passDown() {
    int[][] leaving = new int[Stripes.count(cols, rows)][];
    Stripes.run(cols, rows, (stripe, from, to) -> leaving[stripe] = count(from * cols, to * cols));
    for (int[] cells : leaving) {
      for (int c : cells) {
        waitsFor[receiver(c)]++;
      }
    }
    Stripes.run(
        cols,
        rows,
        (stripe, from, to) -> {
          for (int c = from * cols; c < to * cols; c++) {
            follow(c, from * cols, to * cols);
          }
        });
    for (int[] cells : leaving) {
      for (int c : cells) {
        follow(c, 0, toward.length);
      }
    }
  }

  /** Counts who waits for whom within a stripe; the cells whose water leaves it, in order. */
  private int[] count(int from, int to) {
    int[] leaving = new int[64];
    int size = 0;
    for (int c = from; c < to; c++) {
      if (toward[c] < FlowField.LEAVES) {
        int next = receiver(c);
        if (next >= from && next < to) {
          waitsFor[next]++;
        } else {
          if (size == leaving.length) {
            leaving = Arrays.copyOf(leaving, size * 2);
          }
          leaving[size++] = c;
        }
      }
    }
    return Arrays.copyOf(leaving, size);
  }

  /** Passes on the water of a cell that waits for no other, and so on down the flow. */
  private void follow(int start, int from, int to) {
    int c = start;
    while (waitsFor[c] == 0 && toward[c] < FlowField.LEAVES) {
      int next = receiver(c);
      if (next < from || next >= to) {
        return;
      }
      amount[next] += amount[c];
      waitsFor[c] = PASSED;
      waitsFor[next]--;
      c = next;
    }
  }

  private int receiver(int c) {
    return c + offset[toward[c]];
  }
}
