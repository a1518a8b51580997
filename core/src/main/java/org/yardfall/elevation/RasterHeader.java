package org.yardfall.elevation;

import java.awt.geom.AffineTransform;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What a raster says of itself before any elevation is read.
 *
 * @param file the file
 * @param cols number of columns
 * @param rows number of rows
 * @param cellToCrs from (column, row), where the first cell spans 0 to 1, to the CRS's coordinates
 * @param crs its CRS, where it has one
 * @param type how a cell is stored
 * @param noData the declared NoData value as written, NaN included
 * @param scale what a stored value is multiplied by
 * @param offset what is added then
 * @param verticalUnit the unit of the elevations, where the file names it
 * @param verticalDatum the vertical datum's name, or empty
 * @param warnings what was odd about the header
 */
record RasterHeader(
    Path file,
    int cols,
    int rows,
    AffineTransform cellToCrs,
    Optional<RasterCrs> crs,
    SampleType type,
    OptionalDouble noData,
    double scale,
    double offset,
    Optional<VerticalUnit> verticalUnit,
    String verticalDatum,
    List<String> warnings) {

  RasterHeader {
    cellToCrs = new AffineTransform(cellToCrs);
    warnings = List.copyOf(warnings);
  }

  /** Whether columns run along one axis of the CRS and rows along the other, rows southward. */
  boolean northUp() {
    return unsheared() && cellToCrs.getScaleX() > 0 && cellToCrs.getScaleY() < 0;
  }

  /** Whether the only thing wrong is that rows run northward. */
  boolean southUp() {
    return unsheared() && cellToCrs.getScaleX() > 0 && cellToCrs.getScaleY() > 0;
  }

  /** Whether cells are square in the CRS's unit: no cell is off by more than a hundredth of one. */
  boolean square() {
    double wide = cellToCrs.getScaleX();
    double high = Math.abs(cellToCrs.getScaleY());
    return Math.abs(wide - high) * Math.max(cols, rows) <= 0.01 * wide;
  }

  private boolean unsheared() {
    return cellToCrs.getShearX() == 0 && cellToCrs.getShearY() == 0;
  }

  /** The same raster with its rows counted from the other end. */
  RasterHeader flipped() {
    AffineTransform flip = new AffineTransform(cellToCrs);
    flip.concatenate(new AffineTransform(1, 0, 0, -1, 0, rows));
    return new RasterHeader(
        file,
        cols,
        rows,
        flip,
        crs,
        type,
        noData,
        scale,
        offset,
        verticalUnit,
        verticalDatum,
        warnings);
  }
}
