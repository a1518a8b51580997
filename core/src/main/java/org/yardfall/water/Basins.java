package org.yardfall.water;

import static org.yardfall.water.SteepestDescent.LEVEL;

import java.util.Arrays;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * Every pit of the ground and the cells that drain to it down the slope, before anything is filled.
 * A pit is a cell, or a flat, without a lower neighbour that does not lie at the edge of the known
 * ground.
 *
 * @param frame the grid
 * @param toward directions by cell; {@link SteepestDescent#LEVEL} at the pits
 * @param label by cell: {@link #UNKNOWN}, {@link #OUTSIDE}, then the inlets, then the pits in the
 *     order of their first cells
 * @param inlets number of inlets, labelled from {@link #FIRST} on
 * @param pitCells by pit, in the order of labels, its first cell
 */
@SuppressWarnings("ArrayRecordComponent") // hot-loop arrays, deliberately shared
record Basins(GridFrame frame, byte[] toward, int[] label, int inlets, int[] pitCells) {

  /** Label of ground that is not known. */
  static final int UNKNOWN = 0;

  /** Label of ground that drains over the edge of the known ground. */
  static final int OUTSIDE = 1;

  /** First label of an inlet, or of a pit where there are no inlets. */
  static final int FIRST = 2;

  /** Label of the first pit. */
  int firstPit() {
    return FIRST + inlets;
  }

  /** One more than the last label. */
  int labels() {
    return firstPit() + pitCells.length;
  }

  /** The basins of some ground. */
  static Basins of(ElevationGrid ground) {
    return of(ground, new int[0]);
  }

  /**
   * The basins of some ground in which inlets take all water that reaches them.
   *
   * @param inletCells cells of the inlets, all different and known
   */
  static Basins of(ElevationGrid ground, int[] inletCells) {
    GridFrame frame = ground.frame();
    byte[] toward = SteepestDescent.of(ground);
    int[] label = new int[toward.length];
    for (int i = 0; i < inletCells.length; i++) {
      toward[inletCells[i]] = FlowField.LEAVES;
      label[inletCells[i]] = FIRST + i;
    }
    Flats.drain(frame, ground.z(), toward);
    int[] pits = numberPits(ground, toward, label, FIRST + inletCells.length);
    spreadLabels(frame, toward, label);
    return new Basins(frame, toward, label, inletCells.length, pits);
  }

  private static int[] numberPits(ElevationGrid ground, byte[] toward, int[] label, int first) {
    float[] z = ground.z();
    int[] offset = Neighbours.offsets(ground.frame().cols());
    int[] pits = new int[1024];
    int[] stack = new int[64];
    int count = 0;
    for (int c = 0; c < toward.length; c++) {
      if (toward[c] == LEVEL && label[c] == 0) {
        if (count == pits.length) {
          pits = Arrays.copyOf(pits, count * 2);
        }
        pits[count] = c;
        int mine = first + count++;
        label[c] = mine;
        stack[0] = c;
        for (int top = 1; top > 0; ) {
          int at = stack[--top];
          for (int o : offset) {
            int n = at + o;
            if (toward[n] == LEVEL && label[n] == 0 && z[n] == z[at]) {
              if (top == stack.length) {
                stack = Arrays.copyOf(stack, top * 2);
              }
              label[n] = mine;
              stack[top++] = n;
            }
          }
        }
      }
    }
    return Arrays.copyOf(pits, count);
  }

  // A cell's label follows from the directions alone, so it does not matter which thread writes it.
  private static void spreadLabels(GridFrame frame, byte[] toward, int[] label) {
    int cols = frame.cols();
    int[] offset = Neighbours.offsets(cols);
    Stripes.run(
        cols,
        frame.rows(),
        (stripe, from, to) -> {
          for (int start = from * cols; start < to * cols; start++) {
            if (label[start] != 0 || toward[start] == FlowField.UNKNOWN) {
              continue;
            }
            int c = start;
            int found = label[c];
            while (found == 0) {
              if (toward[c] == FlowField.LEAVES) {
                found = OUTSIDE;
              } else {
                c += offset[toward[c]];
                found = label[c];
              }
            }
            for (c = start; label[c] == 0; c += offset[toward[c]]) {
              label[c] = found;
              if (toward[c] == FlowField.LEAVES) {
                break;
              }
            }
          }
        });
  }
}
