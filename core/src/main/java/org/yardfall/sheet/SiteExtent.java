package org.yardfall.sheet;

import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;

/** The ground that a drawing must show. */
final class SiteExtent {

  private SiteExtent() {}

  /** The lot and the first route, outlet included; all the ground read where there is no lot. */
  static Envelope of(Result result) {
    if (result.site().lot().isEmpty()) {
      return result.terrain().ground().frame().envelope();
    }
    Envelope extent = new Envelope(result.site().lot().get().outline().getEnvelopeInternal());
    if (!result.routes().isEmpty()) {
      Route first = result.routes().get(0);
      MapPainter.lines(first).stream()
          .flatMap(line -> line.vertices().stream())
          .forEach((Coordinate bend) -> extent.expandToInclude(bend));
    }
    return extent;
  }

  /** The ground round it that a photograph or contours are worth showing on, in metres. */
  static Envelope photo(Result result) {
    Envelope extent = of(result);
    extent.expandBy(0.3 * Math.max(extent.getWidth(), extent.getHeight()));
    return extent.intersection(result.terrain().ground().frame().envelope());
  }
}
