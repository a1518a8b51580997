package org.yardfall.elevation;

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

  /** The vertical CRS with the given code, empty where the register has none. */
  static Optional<VerticalCrs> ofEpsg(int code) {
    try {
      CoordinateReferenceSystem crs =
          CRS.getAuthorityFactory(true).createCoordinateReferenceSystem("EPSG:" + code);
      if (crs instanceof VerticalCRS vertical) {
        double metres =
            Units.getConverterToAny(vertical.getCoordinateSystem().getAxis(0).getUnit(), SI.METRE)
                .convert(1.0);
        return Optional.of(
            new VerticalCrs(
                vertical.getDatum().getName().getCode(),
                VerticalUnit.ofMetres(metres, "its vertical CRS EPSG:" + code)));
      }
      return Optional.empty();
    } catch (FactoryException e) {
      return Optional.empty();
    }
  }
}
