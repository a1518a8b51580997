package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.stream.IntStream;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.operation.MathTransform;
import org.geotools.referencing.CRS;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Zones written out against the EPSG dataset that GeoTools carries (gt-epsg-hsql). */
class UtmZonesTest {

  static IntStream codes() {
    return IntStream.concat(
        IntStream.concat(IntStream.rangeClosed(26901, 26923), IntStream.rangeClosed(25828, 25838)),
        IntStream.concat(IntStream.rangeClosed(32601, 32660), IntStream.rangeClosed(32701, 32760)));
  }

  @ParameterizedTest
  @MethodSource("codes")
  void aZoneIsWhatTheRegisterSays(int code) throws Exception {
    CoordinateReferenceSystem register =
        CRS.getAuthorityFactory(true).createCoordinateReferenceSystem("EPSG:" + code);
    CoordinateReferenceSystem ours = CrsLookup.decode("EPSG:" + code);
    // The method's own code is all that the text form loses.
    assertEquals(register.toWKT().replace(", AUTHORITY[\"EPSG\",\"9807\"]", ""), ours.toWKT());
    assertEquals(register.getIdentifiers().toString(), ours.getIdentifiers().toString());
    assertTrue(CRS.equalsIgnoreMetadata(register, ours));
    double[] at = {512_345.678, 4_999_876.543};
    assertEquals(degrees(register, at, 0), degrees(ours, at, 0), 0);
    assertEquals(degrees(register, at, 1), degrees(ours, at, 1), 0);
  }

  private static double degrees(CoordinateReferenceSystem crs, double[] at, int axis)
      throws Exception {
    MathTransform transform = CRS.findMathTransform(crs, DefaultGeographicCRS.WGS84);
    double[] out = new double[2];
    transform.transform(at, 0, out, 0, 1);
    return out[axis];
  }

  @Test
  void everythingElseIsLeftToTheRegister() {
    for (int code :
        new int[] {26900, 26924, 25827, 25839, 32600, 32661, 32700, 32761, 2154, 4326}) {
      assertEquals(Optional.empty(), UtmZones.wkt(code), "EPSG:" + code);
    }
  }
}
