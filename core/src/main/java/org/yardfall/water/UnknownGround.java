package org.yardfall.water;

import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * Ground without elevation that known ground surrounds, as apart from the raster's blank margin.
 */
final class UnknownGround {

  private UnknownGround() {}

  /** Number of unknown cells that do not hang together, side by side, with the grid's rim. */
  static int enclosed(ElevationGrid ground) {
    GridFrame frame = ground.frame();
    float[] z = ground.z();
    int unknown = 0;
    for (float v : z) {
      unknown += Float.isNaN(v) ? 1 : 0;
    }
    if (unknown == 0) {
      return 0;
    }
    boolean[] margin = new boolean[z.length];
    int[] stack = new int[unknown];
    int top = 0;
    for (int c = 0; c < z.length; c++) {
      int row = c / frame.cols();
      int col = c - row * frame.cols();
      boolean rim = row == 0 || col == 0 || row == frame.rows() - 1 || col == frame.cols() - 1;
      if (rim && Float.isNaN(z[c])) {
        margin[c] = true;
        stack[top++] = c;
      }
    }
    int outside = top;
    while (top > 0) {
      int c = stack[--top];
      int row = c / frame.cols();
      int col = c - row * frame.cols();
      for (int k = 0; k < Neighbours.COUNT; k += 2) {
        int col2 = col + Neighbours.DCOL[k];
        int row2 = row + Neighbours.DROW[k];
        int n = row2 * frame.cols() + col2;
        if (frame.has(col2, row2) && Float.isNaN(z[n]) && !margin[n]) {
          margin[n] = true;
          outside++;
          stack[top++] = n;
        }
      }
    }
    return unknown - outside;
  }
}
