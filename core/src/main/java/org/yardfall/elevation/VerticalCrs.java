package org.yardfall.elevation;

import java.util.Locale;
import java.util.Optional;
import org.geotools.api.referencing.FactoryException;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.crs.VerticalCRS;
import org.geotools.measure.Units;
import org.geotools.referencing.CRS;
import si.uom.SI;

/**
 * A vertical CRS of the EPSG register.
 *
 * @param datum the name of its datum
 * @param unit the unit of its heights
 */
record VerticalCrs(String datum, VerticalUnit unit) {

  /** The vertical part of a compound CRS's definition, empty where it has none. */
  static Optional<VerticalCrs> ofWkt(String wkt) {
    if (!wkt.toUpperCase(Locale.ROOT).startsWith("COMPD_CS")) {
      return Optional.empty();
    }
    try {
      return Optional.ofNullable(CRS.getVerticalCRS(CRS.parseWKT(wkt)))
          .map(vertical -> of(vertical, "its CRS's definition"));
    } catch (FactoryException | RuntimeException e) {
      return Optional.empty();
    }
  }

  private static VerticalCrs of(VerticalCRS vertical, String readFrom) {
    double metres =
        Units.getConverterToAny(vertical.getCoordinateSystem().getAxis(0).getUnit(), SI.METRE)
            .convert(1.0);
    return new VerticalCrs(
        vertical.getDatum().getName().getCode(), VerticalUnit.ofMetres(metres, readFrom));
  }

  /** The vertical CRS with the given code, empty where the register has none. */
  static Optional<VerticalCrs> ofEpsg(int code) {
    try {
      CoordinateReferenceSystem crs =
          CRS.getAuthorityFactory(true).createCoordinateReferenceSystem("EPSG:" + code);
      if (crs instanceof VerticalCRS vertical) {
        return Optional.of(of(vertical, "its vertical CRS EPSG:" + code));
      }
      return Optional.empty();
    } catch (FactoryException e) {
      return Optional.empty();
    }
  }
}
