package org.yardfall.water;

/**
 * The cells under water when every depression is full, in rising order, each with the smallest
 * depression that must be full for that. O(n log d) for depressions nested d deep; on all cores.
 */
final class WetCells {

  /** The cells. */
  final int[] cell;

  /** By place in {@link #cell}: the smallest depression whose spill stands above the cell. */
  final int[] node;

  private WetCells(int size) {
    cell = new int[size];
    node = new int[size];
  }

  /**
   * Finds them.
   *
   * @param z the ground
   * @param filled the surface to which the depressions fill
   */
  static WetCells of(DepressionHierarchy depressions, float[] z, float[] filled) {
    int cols = depressions.frame().cols();
    int rows = depressions.frame().rows();
    int[] begin = new int[Stripes.count(cols, rows) + 1];
    Stripes.run(
        cols,
        rows,
        (stripe, from, to) -> {
          int wet = 0;
          for (int c = from * cols; c < to * cols; c++) {
            wet += filled[c] > z[c] ? 1 : 0;
          }
          begin[stripe + 1] = wet;
        });
    for (int i = 1; i < begin.length; i++) {
      begin[i] += begin[i - 1];
    }
    Ascent ascent = new Ascent(depressions);
    WetCells found = new WetCells(begin[begin.length - 1]);
    Stripes.run(
        cols,
        rows,
        (stripe, from, to) -> {
          int i = begin[stripe];
          for (int c = from * cols; c < to * cols; c++) {
            if (filled[c] > z[c]) {
              found.cell[i] = c;
              found.node[i++] = ascent.over(depressions.pitOf(c), z[c]);
            }
          }
        });
    return found;
  }
}
