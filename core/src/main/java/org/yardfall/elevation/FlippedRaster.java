package org.yardfall.elevation;

import java.awt.Rectangle;

/** A raster whose rows run northward, seen with its rows running southward. */
record FlippedRaster(RasterFile stored, RasterHeader header) implements RasterFile {

  /** The raster itself where it is not south-up. */
  static RasterFile northUp(RasterFile stored) {
    return stored.header().southUp()
        ? new FlippedRaster(stored, stored.header().flipped())
        : stored;
  }

  @Override
  public void read(Rectangle window, RowSink sink) {
    int rows = header.rows();
    Rectangle mirrored =
        new Rectangle(window.x, rows - window.y - window.height, window.width, window.height);
    stored.read(mirrored, (row, samples) -> sink.take(rows - 1 - row, samples));
  }
}
