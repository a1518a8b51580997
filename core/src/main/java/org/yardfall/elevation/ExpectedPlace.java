package org.yardfall.elevation;

import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;

/** Where shots should lie: a lot or a raster, with its neighbourhood. */
final class ExpectedPlace {

  /** A survey may go beyond the lot by the lot's own size, and by this in any case. */
  private static final double LEAST_MARGIN_M = 50;

  private final Envelope envelope;
  private final String name;

  /**
   * The neighbourhood of a geometry.
   *
   * @param geometry in metres of the working plane; null or empty is nowhere
   * @param name what it is in words, such as {@code the lot}
   */
  ExpectedPlace(Geometry geometry, String name) {
    this.name = name;
    envelope = geometry == null ? new Envelope() : geometry.getEnvelopeInternal().copy();
    if (!envelope.isNull()) {
      envelope.expandBy(Math.max(LEAST_MARGIN_M, envelope.getDiameter()));
    }
  }

  String name() {
    return name;
  }

  boolean known() {
    return !envelope.isNull();
  }

  boolean contains(double x, double y) {
    return envelope.contains(x, y);
  }

  /** The share of places, as x, y, x, y, …, scaled, that lie here; x and y exchanged if asked. */
  double share(double[] xy, double scale, boolean swapped) {
    int inside = 0;
    for (int i = 0; i < xy.length; i += 2) {
      double x = scale * xy[swapped ? i + 1 : i];
      double y = scale * xy[swapped ? i : i + 1];
      if (contains(x, y)) {
        inside++;
      }
    }
    return xy.length == 0 ? 0 : 2.0 * inside / xy.length;
  }
}
