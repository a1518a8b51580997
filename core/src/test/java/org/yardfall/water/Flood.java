package org.yardfall.water;

import java.util.PriorityQueue;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * The filled surface by the plainest priority-flood, Algorithm 1 of Barnes, Lehman &amp; Mulla 2014
 * (Computers &amp; Geosciences 62): an oracle that shares no code with what it checks.
 */
final class Flood {

  private record Cell(float level, int col, int row) {}

  private Flood() {}

  static float[] fill(ElevationGrid ground) {
    GridFrame frame = ground.frame();
    float[] filled = new float[frame.size()];
    boolean[] closed = new boolean[frame.size()];
    PriorityQueue<Cell> open = new PriorityQueue<>((a, b) -> Float.compare(a.level(), b.level()));
    for (int row = 0; row < frame.rows(); row++) {
      for (int col = 0; col < frame.cols(); col++) {
        int c = row * frame.cols() + col;
        if (Float.isNaN(ground.at(col, row))) {
          filled[c] = Float.NaN;
          closed[c] = true;
        } else if (onEdge(ground, col, row)) {
          filled[c] = ground.at(col, row);
          closed[c] = true;
          open.add(new Cell(filled[c], col, row));
        }
      }
    }
    while (!open.isEmpty()) {
      Cell from = open.remove();
      for (int row = from.row() - 1; row <= from.row() + 1; row++) {
        for (int col = from.col() - 1; col <= from.col() + 1; col++) {
          int c = row * frame.cols() + col;
          if (frame.has(col, row) && !closed[c]) {
            closed[c] = true;
            filled[c] = Math.max(from.level(), ground.at(col, row));
            open.add(new Cell(filled[c], col, row));
          }
        }
      }
    }
    return filled;
  }

  static boolean onEdge(ElevationGrid ground, int col, int row) {
    for (int r = row - 1; r <= row + 1; r++) {
      for (int c = col - 1; c <= col + 1; c++) {
        if (!ground.frame().has(c, r) || Float.isNaN(ground.at(c, r))) {
          return true;
        }
      }
    }
    return false;
  }
}
