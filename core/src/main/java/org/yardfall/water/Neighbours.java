package org.yardfall.water;

/** The eight neighbours of a cell, numbered from east counter-clockwise. */
final class Neighbours {

  static final int COUNT = 8;
  static final int[] DCOL = {1, 1, 0, -1, -1, -1, 0, 1};
  static final int[] DROW = {0, -1, -1, -1, 0, 1, 1, 1};

  /** Distance to a neighbour in cells. */
  static final double[] DISTANCE = {
    1, Math.sqrt(2), 1, Math.sqrt(2), 1, Math.sqrt(2), 1, Math.sqrt(2)
  };

  /** The order that prefers sides to corners where there is nothing else to choose by. */
  static final int[] SIDES_FIRST = {0, 2, 4, 6, 1, 3, 5, 7};

  private Neighbours() {}

  /** Offsets of the neighbours' cell indices in a grid of so many columns. */
  static int[] offsets(int cols) {
    int[] offset = new int[COUNT];
    for (int k = 0; k < COUNT; k++) {
      offset[k] = DROW[k] * cols + DCOL[k];
    }
    return offset;
  }

  /** The direction back. */
  static int opposite(int k) {
    return (k + 4) & 7;
  }
}
