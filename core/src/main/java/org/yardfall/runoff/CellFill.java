package org.yardfall.runoff;

import java.util.Arrays;
import java.util.function.IntConsumer;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.GridFrame;

/**
 * Finds the cells whose centre lies in a polygon, row by row between the crossings of its rings
 * (even-odd), so that neighbouring polygons never share a cell. O(rows · edges) a polygon.
 */
final class CellFill {

  private CellFill() {}

  /** Passes each such cell on, in rising order within a polygon. */
  static void fill(Geometry area, GridFrame frame, IntConsumer cell) {
    for (int g = 0; g < area.getNumGeometries(); g++) {
      if (area.getGeometryN(g) instanceof Polygon polygon) {
        fill(polygon, frame, cell);
      }
    }
  }

  private static void fill(Polygon polygon, GridFrame frame, IntConsumer cell) {
    Envelope box = polygon.getEnvelopeInternal().intersection(frame.envelope());
    if (box.isNull()) {
      return;
    }
    Coordinate[][] rings = new Coordinate[1 + polygon.getNumInteriorRing()][];
    rings[0] = polygon.getExteriorRing().getCoordinates();
    for (int i = 1; i < rings.length; i++) {
      rings[i] = polygon.getInteriorRingN(i - 1).getCoordinates();
    }
    int last = Math.min(frame.rows() - 1, frame.row(box.getMinY()));
    for (int row = Math.max(0, frame.row(box.getMaxY())); row <= last; row++) {
      double[] x = crossings(rings, frame.y(row));
      for (int i = 0; i + 1 < x.length; i += 2) {
        int from = Math.max(0, (int) Math.ceil((x[i] - frame.westM()) / frame.cellM() - 0.5));
        int to =
            Math.min(
                frame.cols() - 1,
                (int) Math.ceil((x[i + 1] - frame.westM()) / frame.cellM() - 0.5) - 1);
        for (int col = from; col <= to; col++) {
          cell.accept(row * frame.cols() + col);
        }
      }
    }
  }

  private static double[] crossings(Coordinate[][] rings, double y) {
    double[] x = new double[8];
    int n = 0;
    for (Coordinate[] ring : rings) {
      for (int i = 1; i < ring.length; i++) {
        Coordinate a = ring[i - 1];
        Coordinate b = ring[i];
        if ((a.y > y) != (b.y > y)) {
          if (n == x.length) {
            x = Arrays.copyOf(x, 2 * n);
          }
          x[n++] = a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y);
        }
      }
    }
    x = Arrays.copyOf(x, n);
    Arrays.sort(x);
    return x;
  }
}
