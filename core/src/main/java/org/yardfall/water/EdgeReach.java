package org.yardfall.water;

import java.util.BitSet;
import org.yardfall.elevation.GridFrame;

/**
 * Cells that could receive water from beyond the known ground: those at the grid's rim or beside
 * unknown ground, and all down the flow from them. What drains through them is known only as "at
 * least".
 */
public final class EdgeReach {

  private EdgeReach() {}

  /** The cells that water from beyond the known ground can reach. O(n). */
  public static BitSet of(FlowField flow) {
    GridFrame frame = flow.frame();
    byte[] toward = flow.toward();
    BitSet reached = new BitSet(toward.length);
    int cols = frame.cols();
    int rows = frame.rows();
    for (int col = 0; col < cols; col++) {
      follow(flow, col, reached);
      follow(flow, (rows - 1) * cols + col, reached);
    }
    for (int row = 0; row < rows; row++) {
      follow(flow, row * cols, reached);
      follow(flow, row * cols + cols - 1, reached);
    }
    for (int c = 0; c < toward.length; c++) {
      if (toward[c] == FlowField.UNKNOWN) {
        int row = c / cols;
        int col = c - row * cols;
        for (int k = 0; k < Neighbours.COUNT; k++) {
          int col2 = col + Neighbours.DCOL[k];
          int row2 = row + Neighbours.DROW[k];
          if (frame.has(col2, row2)) {
            follow(flow, row2 * cols + col2, reached);
          }
        }
      }
    }
    return reached;
  }

  private static void follow(FlowField flow, int start, BitSet reached) {
    if (flow.toward()[start] == FlowField.UNKNOWN) {
      return;
    }
    for (int c = start; c >= 0 && !reached.get(c); c = flow.receiver(c)) {
      reached.set(c);
    }
  }
}
