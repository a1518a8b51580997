package org.yardfall.runoff;

import java.util.Arrays;
import java.util.function.IntConsumer;
import java.util.function.IntPredicate;
import org.yardfall.elevation.GridFrame;
import org.yardfall.water.FlowField;

/** Walks up a flow field from a set of cells. */
final class Upstream {

  /** Tells which ways up may be walked. */
  @FunctionalInterface
  interface Passage {
    /** Whether a cell's water counts where it comes to another. */
    boolean passes(int from, int to);
  }

  private final FlowField flow;
  private int[] stack = new int[64];
  private double[] length = new double[64];
  private int top;

  Upstream(FlowField flow) {
    this.flow = flow;
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
    GridFrame f = flow.frame();
    int farthest = -1;
    double longest = -1;
    for (int outlet : outlets) {
      push(outlet, 0);
    }
    while (top > 0) {
      int c = stack[--top];
      double len = length[top];
      each.accept(c);
      if (farthestFrom.test(c) && (len > longest || (len == longest && c < farthest))) {
        longest = len;
        farthest = c;
      }
      int col = c % f.cols();
      int row = c / f.cols();
      for (int dr = -1; dr <= 1; dr++) {
        for (int dc = -1; dc <= 1; dc++) {
          if ((dr != 0 || dc != 0) && f.has(col + dc, row + dr)) {
            int up = (row + dr) * f.cols() + col + dc;
            if (flow.receiver(up) == c && admit.passes(up, c)) {
              push(up, len + (dr != 0 && dc != 0 ? Math.sqrt(2) : 1));
            }
          }
        }
      }
    }
    return farthest;
  }

  private void push(int cell, double len) {
    if (top == stack.length) {
      stack = Arrays.copyOf(stack, 2 * top);
      length = Arrays.copyOf(length, 2 * top);
    }
    stack[top] = cell;
    length[top++] = len;
  }
}
