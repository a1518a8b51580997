package org.yardfall.water;

import java.util.Arrays;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Location;
import org.yardfall.elevation.GridFrame;

/** The cells of a grid whose centres lie in an area or on its boundary. */
public final class CellsWithin {

  private CellsWithin() {}

  /**
   * Cell indices in rising order.
   *
   * @param area a polygon or multipolygon in metres of the working plane
   */
  public static int[] of(GridFrame frame, Geometry area) {
    Envelope box = area.getEnvelopeInternal().intersection(frame.envelope());
    int[] cells = new int[64];
    int size = 0;
    if (!box.isNull()) {
      IndexedPointInAreaLocator locator = new IndexedPointInAreaLocator(area);
      int lastRow = Math.min(frame.rows() - 1, frame.row(box.getMinY()));
      int lastCol = Math.min(frame.cols() - 1, frame.col(box.getMaxX()));
      for (int row = Math.max(0, frame.row(box.getMaxY())); row <= lastRow; row++) {
        for (int col = Math.max(0, frame.col(box.getMinX())); col <= lastCol; col++) {
          if (locator.locate(new Coordinate(frame.x(col), frame.y(row))) != Location.EXTERIOR) {
            if (size == cells.length) {
              cells = Arrays.copyOf(cells, size * 2);
            }
            cells[size++] = row * frame.cols() + col;
          }
        }
      }
    }
    return Arrays.copyOf(cells, size);
  }
}
