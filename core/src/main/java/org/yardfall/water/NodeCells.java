package org.yardfall.water;

import java.util.Arrays;

/**
 * The cells that lie under water in chosen depressions when these are full. Cells are kept with the
 * smallest chosen depression that holds them and gathered from there.
 */
final class NodeCells {

  private final DepressionHierarchy depressions;
  private final int[] nearest;

  /** By chosen depression: where its own cells begin. */
  private final int[] from;

  private final int[] cells;

  /**
   * Sorts the cells.
   *
   * @param measures how large the depressions are
   * @param nearest by node: itself where it is chosen, else the nearest chosen ancestor, else 0
   * @param wet the cells under water when all are full
   */
  NodeCells(
      DepressionHierarchy depressions, DepressionMeasures measures, int[] nearest, WetCells wet) {
    this.depressions = depressions;
    this.nearest = nearest;
    from = new int[depressions.nodes() + 1];
    for (int n = depressions.firstNode(); n < depressions.nodes(); n++) {
      from[nearest[n] + 1] += measures.ownCells(n);
    }
    from[1] = 0; // what no chosen depression holds is not kept
    for (int n = 1; n < from.length; n++) {
      from[n] += from[n - 1];
    }
    cells = new int[from[from.length - 1]];
    int[] next = from.clone();
    for (int i = 0; i < wet.cell.length; i++) {
      int node = nearest[wet.node[i]];
      if (node != 0) {
        cells[next[node]++] = wet.cell[i];
      }
    }
  }

  /** The cells under water in a chosen depression when it is full, in the order of its parts. */
  int[] of(int node) {
    int[] found = new int[64];
    int size = 0;
    int[] stack = new int[64];
    stack[0] = node;
    for (int top = 1; top > 0; ) {
      int n = stack[--top];
      if (nearest[n] == n) {
        int own = from[n + 1] - from[n];
        if (size + own > found.length) {
          found = Arrays.copyOf(found, Math.max(found.length * 2, size + own));
        }
        System.arraycopy(cells, from[n], found, size, own);
        size += own;
      }
      if (!depressions.isPit(n)) {
        if (top + 2 > stack.length) {
          stack = Arrays.copyOf(stack, top * 2);
        }
        stack[top++] = depressions.left(n);
        stack[top++] = depressions.right(n);
      }
    }
    return Arrays.copyOf(found, size);
  }
}
