package org.yardfall.elevation;

import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;

/**
 * Where a grid of square cells lies on the working plane. Row 0 is the northernmost, column 0 the
 * westernmost; a cell's index is {@code row * cols + col}; a cell's elevation is that of its
 * centre.
 *
 * @param cols number of columns, 1 or more
 * @param rows number of rows, 1 or more
 * @param westM x of the western edge in metres
 * @param northM y of the northern edge in metres
 * @param cellM cell size in metres, above 0
 */
public record GridFrame(int cols, int rows, double westM, double northM, double cellM) {

  /** Checks the numbers. */
  public GridFrame {
    if (cols < 1 || rows < 1 || !(cellM > 0)) {
      throw new IllegalArgumentException(
          "grid of " + cols + " x " + rows + " cells of " + cellM + " m");
    }
    if ((long) cols * rows > Integer.MAX_VALUE - 8) {
      throw new IllegalArgumentException(
          "grid of " + cols + " x " + rows + " = " + (long) cols * rows + " cells is too large");
    }
  }

  /**
   * The cells that cover a window, their edges at whole multiples of the cell size.
   *
   * @param windowM the window in metres
   * @param cellM cell size in metres
   * @throws IllegalArgumentException where they are too many
   */
  public static GridFrame covering(Envelope windowM, double cellM) {
    double west = Math.floor(windowM.getMinX() / cellM);
    double north = Math.ceil(windowM.getMaxY() / cellM);
    double cols = Math.max(1, Math.ceil(windowM.getMaxX() / cellM) - west);
    double rows = Math.max(1, north - Math.floor(windowM.getMinY() / cellM));
    if (cols * rows > Integer.MAX_VALUE - 8) {
      throw new IllegalArgumentException(
          String.format(java.util.Locale.ROOT, "%.0f x %.0f cells are too many", cols, rows));
    }
    return new GridFrame((int) cols, (int) rows, west * cellM, north * cellM, cellM);
  }

  /** Number of cells. */
  public int size() {
    return cols * rows;
  }

  /** Area of a cell in m². */
  public double cellAreaM2() {
    return cellM * cellM;
  }

  /** x of the centre of a column, in metres. */
  public double x(int col) {
    return westM + (col + 0.5) * cellM;
  }

  /** y of the centre of a row, in metres. */
  public double y(int row) {
    return northM - (row + 0.5) * cellM;
  }

  /** Column that holds x; outside 0 to cols − 1 where the grid does not reach. */
  public int col(double x) {
    return floor((x - westM) / cellM);
  }

  /** Row that holds y; outside 0 to rows − 1 where the grid does not reach. */
  public int row(double y) {
    return floor((northM - y) / cellM);
  }

  /** As {@code (int) Math.floor}, which is slow before the last compiler has come to it. */
  private static int floor(double value) {
    int towardZero = (int) value;
    return value < towardZero ? towardZero - 1 : towardZero;
  }

  /** Whether the grid has this cell. */
  public boolean has(int col, int row) {
    return col >= 0 && col < cols && row >= 0 && row < rows;
  }

  /** Index of the cell that holds the point, or −1 where the grid does not reach. */
  public int index(double x, double y) {
    int col = col(x);
    int row = row(y);
    return has(col, row) ? row * cols + col : -1;
  }

  /** The centre of a cell, in metres. */
  public Coordinate centre(int cell) {
    int row = cell / cols;
    return new Coordinate(x(cell - row * cols), y(row));
  }

  /** The ground covered, in metres. */
  public Envelope envelope() {
    return new Envelope(westM, westM + cols * cellM, northM - rows * cellM, northM);
  }
}
