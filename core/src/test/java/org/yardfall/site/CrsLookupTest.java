package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.geotools.referencing.CRS;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CrsLookupTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "EPSG:26915",
        "epsg:26915",
        " EPSG::26915",
        "urn:ogc:def:crs:EPSG::26915",
        "urn:ogc:def:crs:EPSG:9.9:26915",
        "urn:x-ogc:def:crs:epsg::26915",
        "http://www.opengis.net/def/crs/EPSG/0/26915",
        "https://www.opengis.net/def/crs/EPSG/9.9.1/26915"
      })
  void everySpellingOfACodeGivesTheSameCrs(String name) {
    assertSame(CrsLookup.decode("EPSG:26915"), CrsLookup.decode(name));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"OGC:CRS84", "urn:ogc:def:crs:OGC:1.3:CRS84", "CRS:84", "EPSG:4326", "CRS84"})
  void wgs84IsLongitudeFirst(String name) {
    assertSame(DefaultGeographicCRS.WGS84, CrsLookup.decode(name));
  }

  /**
   * From the pole to the equator is the quarter meridian, on WGS 84 10 001 965.729 m (the length
   * that the series of Helmert gives for its axes; value from memory).
   */
  @Test
  void anAzimuthalEquidistantCrsCanBeWorkedIn() throws Exception {
    WorkingCrs crs =
        CrsLookup.of(
            CrsLookup.decode(
                "PROJCS[\"about the pole\",GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\","
                    + "SPHEROID[\"WGS 84\",6378137,298.257223563]],PRIMEM[\"Greenwich\",0],"
                    + "UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Azimuthal_Equidistant\"],"
                    + "PARAMETER[\"latitude_of_center\",90],PARAMETER[\"longitude_of_center\",0],"
                    + "PARAMETER[\"false_easting\",0],PARAMETER[\"false_northing\",0],"
                    + "UNIT[\"metre\",1]]"));
    double[] place = {90, 0};
    CRS.findMathTransform(DefaultGeographicCRS.WGS84, crs.crs(), true)
        .transform(place, 0, place, 0, 1);
    assertEquals(10_001_965.729, Math.hypot(place[0], place[1]), 1e-3);
  }

  /** Codes whose register definition has the northing first (Gauss-Krüger, LAEA Europe, Poland). */
  @ParameterizedTest
  @ValueSource(strings = {"EPSG:31467", "EPSG:3035", "EPSG:2180"})
  void eastingComesFirstWhateverTheRegisterSays(String name) {
    WorkingCrs crs = CrsLookup.of(name);
    assertEquals(
        "EAST", crs.crs().getCoordinateSystem().getAxis(0).getDirection().name(), crs.name());
  }

  /** Units as the EPSG register gives them. */
  @ParameterizedTest
  @CsvSource({"EPSG:26915, 1.0", "EPSG:2263, 0.3048006096012192", "EPSG:2994, 0.3048"})
  void feetAreExact(String name, double metres) {
    assertEquals(metres, CrsLookup.of(name).metresPerUnit(), 0.0);
  }

  @ParameterizedTest
  @ValueSource(strings = {"0.3048006096", "0.304800609601", "0.3048006096012192"})
  void aRoundedSurveyFootIsTheSurveyFoot(String digits) {
    String wkt =
        "PROJCS[\"local\",GEOGCS[\"GCS_North_American_1983\",DATUM[\"D_North_American_1983\","
            + "SPHEROID[\"GRS_1980\",6378137.0,298.257222101]],PRIMEM[\"Greenwich\",0.0],"
            + "UNIT[\"Degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],"
            + "PARAMETER[\"central_meridian\",-93],UNIT[\"Foot_US\","
            + digits
            + "]]";
    assertEquals(1200.0 / 3937.0, CrsLookup.of(wkt).metresPerUnit(), 0.0);
  }

  @Test
  void degreesAreNoLengths() {
    checkProblem("EPSG:4269", "not projected");
    checkProblem("EPSG:4326", "not projected");
  }

  @Test
  void anUnknownNameIsOneClearLine() {
    checkProblem("EPSG:999999", "there is no CRS EPSG:999999");
    checkProblem("UTM 15", "not understood");
    checkProblem("PROJCS[\"half", "cannot be understood");
  }

  /** Zone rule and the Norwegian exceptions: NGA.STND.0037, section on UTM zones. From memory. */
  @ParameterizedTest
  @CsvSource({
    "-93.2, 45.0, EPSG:26915", "15, -30, EPSG:32733", "-180, 10, EPSG:32601", "180, 10, EPSG:32660",
    "5, 60, EPSG:32632", "8, 78, EPSG:32631", "20, 78, EPSG:32633", "30, 78, EPSG:32635"
  })
  void utmZoneOfAPlace(double longitude, double latitude, String expected) {
    assertEquals(expected.replace("269", "326"), CrsLookup.utm(longitude, latitude).name());
  }

  @Test
  void thePolesHaveNoUtmZone() {
    assertThrows(BadInputException.class, () -> CrsLookup.utm(0, 88));
  }

  private static void checkProblem(String name, String part) {
    BadInputException e = assertThrows(BadInputException.class, () -> CrsLookup.of(name));
    assertTrue(e.getMessage().contains(part), e.getMessage());
    assertEquals(1, e.getMessage().lines().count());
  }
}
