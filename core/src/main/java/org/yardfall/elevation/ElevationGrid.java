package org.yardfall.elevation;

/**
 * Ground elevations in metres on a grid; {@link Float#NaN} where the ground is not known. The array
 * is handed over, not copied: whoever holds the grid must not write to it.
 *
 * @param frame where the grid lies
 * @param z elevations in metres by cell index, {@code frame.size()} long
 */
@SuppressWarnings("ArrayRecordComponent") // a hot-loop array, deliberately shared
public record ElevationGrid(GridFrame frame, float[] z) {

  /** Checks the size. */
  public ElevationGrid {
    if (z.length != frame.size()) {
      throw new IllegalArgumentException(z.length + " elevations for " + frame);
    }
  }

  /** Elevation of a cell in metres, NaN where not known. */
  public float at(int col, int row) {
    return z[row * frame.cols() + col];
  }

  /**
   * Elevation at a point by bilinear interpolation between cell centres, in metres. Within half a
   * cell of the grid's edge the nearest centres are used. NaN outside the grid or where any of the
   * four centres that count is not known.
   */
  public double bilinear(double x, double y) {
    if (frame.index(x, y) < 0) {
      return Double.NaN;
    }
    double u = clamp((x - frame.westM()) / frame.cellM() - 0.5, frame.cols() - 1);
    double v = clamp((frame.northM() - y) / frame.cellM() - 0.5, frame.rows() - 1);
    int col = Math.min((int) u, Math.max(0, frame.cols() - 2));
    int row = Math.min((int) v, Math.max(0, frame.rows() - 2));
    double fu = u - col;
    double fv = v - row;
    double north = mix(at(col, row), fu == 0 ? 0 : at(col + 1, row), fu);
    if (fv == 0) {
      return north;
    }
    double south = mix(at(col, row + 1), fu == 0 ? 0 : at(col + 1, row + 1), fu);
    return mix(north, south, fv);
  }

  private static double mix(double a, double b, double share) {
    return share == 0 ? a : a + (b - a) * share;
  }

  private static double clamp(double value, double max) {
    return Math.max(0, Math.min(max, value));
  }
}
