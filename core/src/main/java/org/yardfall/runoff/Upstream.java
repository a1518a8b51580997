package org.yardfall.runoff;

import java.util.Arrays;
import java.util.function.IntConsumer;
import java.util.function.IntPredicate;
import org.yardfall.water.FlowField;

/** The cells of a flow field by the cell that receives their water, to walk up it. */
final class Upstream {

  private static final int NONE = -1;

  /** Tells which ways up may be walked. */
  @FunctionalInterface
  interface Passage {
    /** Whether a cell's water counts where it comes to another. */
    boolean passes(int from, int to);
  }

  private final FlowField flow;

  /** By cell: its giver of the lowest index. */
  private final int[] first;

  /** By cell: the next giver of the same receiver. */
  private final int[] next;

  /** Of a flow field; O(cells). */
  Upstream(FlowField flow) {
    this.flow = flow;
    first = new int[flow.frame().size()];
    next = new int[first.length];
    Arrays.fill(first, NONE);
    for (int c = first.length - 1; c >= 0; c--) {
      int r = flow.receiver(c);
      if (r >= 0) {
        next[c] = first[r];
        first[r] = c;
      }
    }
  }

  /** The first of the cells whose water a cell receives; −1 if there is none. */
  int firstGiver(int cell) {
    return first[cell];
  }

  /** The giver after another to the same cell, by rising index; −1 after the last. */
  int nextGiver(int giver) {
    return next[giver];
  }

  /**
   * Passes on every cell whose water comes to one of the outlets, those included.
   *
   * @param outlets where to start; where one lies above another the lower must not admit it
   * @param admit which cells above them count; what lies above one that does not is left out
   * @param farthestFrom cells at which the longest path may begin
   * @param each is told every cell
   * @return the cell from which the way down is longest, the lowest index of equals; −1 if none
   */
  int walk(int[] outlets, Passage admit, IntPredicate farthestFrom, IntConsumer each) {
    int[] stack = Arrays.copyOf(outlets, outlets.length + 64);
    double[] length = new double[stack.length];
    int top = outlets.length;
    int farthest = NONE;
    double longest = -1;
    while (top > 0) {
      int c = stack[--top];
      double len = length[top];
      each.accept(c);
      if ((len > longest || (len == longest && c < farthest)) && farthestFrom.test(c)) {
        longest = len;
        farthest = c;
      }
      if (top + Byte.SIZE > stack.length) { // a cell has at most eight givers
        stack = Arrays.copyOf(stack, 2 * stack.length);
        length = Arrays.copyOf(length, 2 * length.length);
      }
      for (int up = first[c]; up >= 0; up = next[up]) {
        if (admit.passes(up, c)) {
          stack[top] = up;
          length[top++] = len + flow.stepCells(up);
        }
      }
    }
    return farthest;
  }
}
