package org.yardfall.route;

import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Seep;

/**
 * The side of a wet patch from which its water comes: uphill by the mean slope of the ground on the
 * patch and around it. Places are told by how far they lie across the slope and up it.
 */
final class UphillSide {

  /** Ground this far round the patch, in metres, counts for the slope. */
  private static final double ROUND_M = 3;

  /** A point or a line is taken for a patch this wide to each side, in metres. */
  private static final double HALF_WIDTH_M = 0.5;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final Coordinate origin;
  private final double upX;
  private final double upY;
  private final double slope;
  private double fromAcrossM = Double.POSITIVE_INFINITY;
  private double toAcrossM = Double.NEGATIVE_INFINITY;
  private double topM = Double.NEGATIVE_INFINITY;

  private UphillSide(Geometry patch, double riseX, double riseY) {
    slope = Math.hypot(riseX, riseY);
    upX = riseX / slope;
    upY = riseY / slope;
    origin = patch.getCentroid().getCoordinate();
    for (Coordinate c : patch.getCoordinates()) {
      double across = (c.x - origin.x) * upY - (c.y - origin.y) * upX;
      fromAcrossM = Math.min(fromAcrossM, across);
      toAcrossM = Math.max(toAcrossM, across);
      topM = Math.max(topM, (c.x - origin.x) * upX + (c.y - origin.y) * upY);
    }
  }

  /** The uphill side of a wet patch; its slope is no number where the ground is not known. */
  static UphillSide of(Seep seep, ElevationGrid ground) {
    Geometry patch = patch(seep);
    GridFrame frame = ground.frame();
    PreparedGeometry round = PreparedGeometryFactory.prepare(patch.buffer(ROUND_M));
    Envelope box = round.getGeometry().getEnvelopeInternal();
    double sumX = 0;
    double sumY = 0;
    int cells = 0;
    for (int row = frame.row(box.getMaxY()); row <= frame.row(box.getMinY()); row++) {
      for (int col = frame.col(box.getMinX()); col <= frame.col(box.getMaxX()); col++) {
        double x = frame.x(col);
        double y = frame.y(row);
        double cell = frame.cellM();
        double riseX = ground.bilinear(x + cell, y) - ground.bilinear(x - cell, y);
        double riseY = ground.bilinear(x, y + cell) - ground.bilinear(x, y - cell);
        boolean known = !Double.isNaN(riseX + riseY);
        if (known && round.contains(FACTORY.createPoint(new Coordinate(x, y)))) {
          sumX += riseX / (2 * cell);
          sumY += riseY / (2 * cell);
          cells++;
        }
      }
    }
    return new UphillSide(patch, sumX / cells, sumY / cells);
  }

  /** A wet patch as an area. */
  static Geometry patch(Seep seep) {
    return seep.shape().getDimension() == 2 ? seep.shape() : seep.shape().buffer(HALF_WIDTH_M);
  }

  /** Mean slope of the ground, rise over run. */
  double slope() {
    return slope;
  }

  /** The ground uphill of the patch, as wide as it is, up to a distance above its upper edge. */
  Polygon strip(double reachM) {
    return FACTORY.createPolygon(
        new Coordinate[] {
          at(fromAcrossM, topM),
          at(toAcrossM, topM),
          at(toAcrossM, topM + reachM),
          at(fromAcrossM, topM + reachM),
          at(fromAcrossM, topM)
        });
  }

  /**
   * A line across the slope above the patch. It runs along the contour but for so much that the
   * ground along it falls at a grade, toward the end that lies nearer to a place.
   *
   * @param aboveM its least distance from the patch's upper edge in metres
   * @param overlapM how far it reaches past the patch on each side in metres
   * @param grade the grade; on ground hardly steeper than it the line runs at 45° to the contour
   * @param toward the place
   * @return the line, upper end first
   */
  LineString line(double aboveM, double overlapM, double grade, Coordinate toward) {
    double from = fromAcrossM - overlapM;
    double to = toAcrossM + overlapM;
    double sine = Math.min(Math.sqrt(0.5), grade / slope);
    double rise = (to - from) * sine / Math.sqrt(1 - sine * sine);
    double low = topM + aboveM;
    boolean fallsToFrom = at(from, low).distance(toward) < at(to, low).distance(toward);
    return FACTORY.createLineString(
        fallsToFrom
            ? new Coordinate[] {at(to, low + rise), at(from, low)}
            : new Coordinate[] {at(from, low + rise), at(to, low)});
  }

  private Coordinate at(double across, double up) {
    return new Coordinate(origin.x + across * upY + up * upX, origin.y - across * upX + up * upY);
  }
}
