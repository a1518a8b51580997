package org.yardfall.water;

import java.util.Set;
import org.yardfall.elevation.GridFrame;

/** A side of the grid. */
public enum Side {
  NORTH,
  EAST,
  SOUTH,
  WEST;

  /** Adds the sides beyond which a place off the grid lies. */
  static void beyond(GridFrame frame, int col, int row, Set<Side> sides) {
    if (row < 0) {
      sides.add(NORTH);
    }
    if (col >= frame.cols()) {
      sides.add(EAST);
    }
    if (row >= frame.rows()) {
      sides.add(SOUTH);
    }
    if (col < 0) {
      sides.add(WEST);
    }
  }
}
