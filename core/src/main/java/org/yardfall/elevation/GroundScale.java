package org.yardfall.elevation;

import java.util.Locale;
import org.geotools.api.referencing.crs.ProjectedCRS;
import org.geotools.api.referencing.cs.AxisDirection;
import org.geotools.api.referencing.datum.Ellipsoid;
import org.geotools.api.referencing.operation.MathTransform;
import org.geotools.api.referencing.operation.TransformException;
import org.geotools.referencing.CRS;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.site.BadInputException;
import org.yardfall.site.WorkingCrs;

/** How a CRS's lengths stand to those on the ground. */
final class GroundScale {

  /** How far a CRS's lengths may be off on the ground, as a share, before they are no lengths. */
  private static final double GREATEST_ERROR = 0.01;

  private GroundScale() {}

  /** Lengths are measured on the working plane, so it must not stretch them. */
  static void check(WorkingCrs crs, Envelope window) {
    double x = crs.toCrsUnit(window.centre().x);
    double y = crs.toCrsUnit(window.centre().y);
    if (stretches(crs, x, y)) {
      throw new BadInputException(
          crs.name(),
          String.format(
              Locale.ROOT,
              "a length of 100 m in this CRS is %.1f m on the ground here",
              100 / at(crs, x, y)),
          "give a local CRS as site.crs, for example the UTM zone");
    }
  }

  /** Whether lengths at a place, in the CRS's unit, are off by more than one in a hundred. */
  static boolean stretches(WorkingCrs working, double x, double y) {
    return Math.abs(at(working, x, y) - 1) > GREATEST_ERROR;
  }

  /**
   * Length by the CRS over length on the ground, at a place: the greater of both axes' point scale
   * factors. Found by going a metre along each axis and measuring on the ellipsoid with its radii
   * of curvature.
   */
  static double at(WorkingCrs working, double x, double y) {
    if (!(CRS.getHorizontalCRS(working.crs()) instanceof ProjectedCRS projected)) {
      return 1;
    }
    try {
      MathTransform toDegrees = projected.getConversionFromBase().getMathTransform().inverse();
      double step = 1 / working.metresPerUnit();
      double[] places = {x, y, x + step, y, x, y + step};
      double[] degrees = new double[6];
      toDegrees.transform(places, 0, degrees, 0, 3);
      boolean northFirst =
          AxisDirection.NORTH.equals(
              projected.getBaseCRS().getCoordinateSystem().getAxis(0).getDirection());
      Ellipsoid ellipsoid = projected.getBaseCRS().getDatum().getEllipsoid();
      double east = lengthM(degrees, 2, northFirst, ellipsoid);
      double north = lengthM(degrees, 4, northFirst, ellipsoid);
      return Math.max(1 / east, 1 / north);
    } catch (TransformException | RuntimeException e) {
      return Double.NaN;
    }
  }

  private static double lengthM(double[] degrees, int at, boolean northFirst, Ellipsoid ellipsoid) {
    int lon = northFirst ? 1 : 0;
    int lat = 1 - lon;
    double a = ellipsoid.getSemiMajorAxis();
    double b = ellipsoid.getSemiMinorAxis();
    double e2 = 1 - (b * b) / (a * a);
    double latitude = Math.toRadians(degrees[lat]);
    double w = 1 - e2 * Math.sin(latitude) * Math.sin(latitude);
    double primeVertical = a / Math.sqrt(w);
    double meridian = primeVertical * (1 - e2) / w;
    double dLon = Math.toRadians(degrees[at + lon] - degrees[lon]);
    double dLat = Math.toRadians(degrees[at + lat] - degrees[lat]);
    return Math.hypot(dLon * primeVertical * Math.cos(latitude), dLat * meridian);
  }
}
