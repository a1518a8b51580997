package org.yardfall.elevation;

import java.awt.Rectangle;

/** An elevation raster on disk, read by window. */
interface RasterFile {

  /** What the file says of itself. */
  RasterHeader header();

  /**
   * Reads the cells of a window as stored: neither scaled nor converted, NoData not yet taken out.
   *
   * @param window columns and rows, within the raster
   * @param sink takes the rows; possibly from several threads at once and in any order, but each
   *     row once and whole
   * @throws org.yardfall.site.BadInputException where the data cannot be read
   */
  void read(Rectangle window, RowSink sink);

  /** Takes one row of a window. */
  @FunctionalInterface
  interface RowSink {
    /**
     * Takes a row.
     *
     * @param row row of the raster
     * @param samples the values of the window's columns; used again for the next row
     */
    void take(int row, double[] samples);
  }
}
