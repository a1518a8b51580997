package org.yardfall.sheet;

import java.awt.Shape;
import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import org.locationtech.jts.awt.ShapeWriter;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;

/**
 * Where the working plane lies on a drawing: north up, to one scale.
 *
 * @param westM x in metres at the left of the drawing
 * @param northM y in metres at its top
 * @param pointsPerM scale in points per metre
 * @param frame the drawing in points
 */
record MapView(double westM, double northM, double pointsPerM, Rectangle2D frame) {

  /** A view at a scale with the middle of some ground in the middle of the drawing. */
  static MapView centred(Envelope ground, double pointsPerM, Rectangle2D frame) {
    Coordinate middle = ground.centre();
    return new MapView(
        middle.x - frame.getWidth() / 2 / pointsPerM,
        middle.y + frame.getHeight() / 2 / pointsPerM,
        pointsPerM,
        frame);
  }

  double x(double xM) {
    return frame.getMinX() + (xM - westM) * pointsPerM;
  }

  double y(double yM) {
    return frame.getMinY() + (northM - yM) * pointsPerM;
  }

  Point2D at(Coordinate place) {
    return new Point2D.Double(x(place.x), y(place.y));
  }

  /** The ground that the drawing shows, in metres. */
  Envelope ground() {
    return new Envelope(
        westM,
        westM + frame.getWidth() / pointsPerM,
        northM - frame.getHeight() / pointsPerM,
        northM);
  }

  /** A geometry as it lies on the drawing. */
  Shape shape(Geometry geometry) {
    return new ShapeWriter((from, to) -> to.setLocation(x(from.x), y(from.y))).toShape(geometry);
  }
}
