package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;

/**
 * The worked examples of IOGP Publication 373-7-2, Geomatics Guidance Note 7 part 2 (coordinate
 * conversions and transformations including formulas), to its last printed digit. The figures of
 * methods 9807 and 9802 were read in published copies; those of 9801 are from memory and were
 * reckoned again by its formulas.
 */
class GuidanceNotePointsTest {

  private static final double CENTIMETRE = 0.0051;

  private static double degrees(int degrees, int minutes, double seconds) {
    return degrees + minutes / 60.0 + seconds / 3600;
  }

  private static void check(
      String base, String projected, double longitude, double latitude, double e, double n) {
    CoordinateReferenceSystem from = CrsLookup.decode(base);
    CoordinateReferenceSystem to = CrsLookup.decode(projected);
    Coordinate there = PlaneTransform.between(from, to).apply(new Coordinate(longitude, latitude));
    assertEquals(e, there.x, CENTIMETRE);
    assertEquals(n, there.y, CENTIMETRE);
    Coordinate back = PlaneTransform.between(to, from).apply(there);
    assertEquals(longitude, back.x, 1e-9);
    assertEquals(latitude, back.y, 1e-9);
  }

  /** Method 9807; the note prints its scale factor as 0.9996013, the register has more digits. */
  @Test
  void transverseMercator() {
    String geographic =
        "GEOGCS[\"OSGB36\",DATUM[\"OSGB36\",SPHEROID[\"Airy 1830\",6377563.396,299.32496]],"
            + "PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.017453292519943295]]";
    String projected =
        "PROJCS[\"British National Grid\","
            + geographic
            + ",PROJECTION[\"Transverse_Mercator\"],PARAMETER[\"latitude_of_origin\",49],"
            + "PARAMETER[\"central_meridian\",-2],PARAMETER[\"scale_factor\",0.9996013],"
            + "PARAMETER[\"false_easting\",400000],PARAMETER[\"false_northing\",-100000],"
            + "UNIT[\"metre\",1]]";
    check(geographic, projected, 0.5, 50.5, 577_274.99, 69_740.50);
  }

  /** Method 9802, in US survey feet. */
  @Test
  void lambertConicConformalWithTwoParallels() {
    check("EPSG:4267", "EPSG:32040", -96, 28.5, 2_963_503.91, 254_759.80);
    assertEquals(
        WorkingCrs.US_SURVEY_FOOT_M, CrsLookup.metresPerUnit(CrsLookup.decode("EPSG:32040")));
  }

  /** Method 9801. */
  @Test
  void lambertConicConformalWithOneParallel() {
    check(
        "EPSG:4242",
        "EPSG:24200",
        -degrees(76, 56, 37.26),
        degrees(17, 55, 55.80),
        255_966.58,
        142_493.51);
  }
}
