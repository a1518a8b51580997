package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;

class PlaneTransformTest {

  /** PROJ's own answers; the script that made them lies beside them. */
  @ParameterizedTest
  @CsvFileSource(resources = "crs/proj-points.csv")
  void agreesWithProj(String name, double x, double y, double longitude, double latitude) {
    WorkingCrs plane = CrsLookup.of(name);
    Coordinate there =
        PlaneTransform.toWgs84(plane).apply(new Coordinate(plane.toMetres(x), plane.toMetres(y)));
    assertEquals(longitude, there.x, 1e-9);
    assertEquals(latitude, there.y, 1e-9);
    Coordinate back = PlaneTransform.toPlane(CrsLookup.decode("OGC:CRS84"), plane).apply(there);
    assertEquals(plane.toMetres(x), back.x, 1e-4);
    assertEquals(plane.toMetres(y), back.y, 1e-4);
  }

  /**
   * Origins of national grids on WGS 84 by the register's seven-parameter shifts, whose signs must
   * not be confused (coordinate frame or position vector). Values by PROJ 9.1 without grids.
   */
  @ParameterizedTest
  @CsvSource({
    "EPSG:28992, 155000, 463000, 5.38720350841377, 52.1551723011922",
    "EPSG:27700, 400000, 300000, -2.00143311551089, 52.5977924308338",
    "EPSG:2994, 500000, 2000000, -123.764443974064, 47.1907982581578"
  })
  void rotatedDatumShiftsAgreeWithProjToACentimetre(
      String name, double x, double y, double longitude, double latitude) {
    WorkingCrs plane = CrsLookup.of(name);
    PlaneTransform transform = PlaneTransform.toWgs84(plane);
    Coordinate there = transform.apply(new Coordinate(plane.toMetres(x), plane.toMetres(y)));
    assertEquals(longitude, there.x, 1e-7);
    assertEquals(latitude, there.y, 1e-7);
    assertTrue(transform.operation().contains("EPSG;"), transform.operation());
  }

  @Test
  void theOperationIsSaid() {
    checkOperation("EPSG:26915", "North American Datum 1983 taken as equal to WGS 84 (null shift");
    checkOperation("EPSG:32633", "same datum, no shift");
    checkOperation("EPSG:21781", "shifted by 674.374, 15.056, 405.346 m");
  }

  /** Shapefile definitions name the datum only; the grid's own code must agree to a millimetre. */
  @ParameterizedTest
  @CsvSource({
    "EPSG:26915, 500012, 4999981, D_North_American_1983, GRS_1980, 298.257222101, 6378137",
    "EPSG:21781, 600000, 200000, D_CH1903, Bessel_1841, 299.1528128, 6377397.155"
  })
  void aDatumNamedAsInAShapefileNeedsNoWarning(
      String code, double x, double y, String datum, String spheroid, double flattening, double a) {
    WorkingCrs plane = CrsLookup.of(code);
    String wkt =
        String.format(
            java.util.Locale.ROOT,
            "GEOGCS[\"GCS\",DATUM[\"%s\",SPHEROID[\"%s\",%s,%s]],PRIMEM[\"Greenwich\",0.0],"
                + "UNIT[\"Degree\",0.0174532925199433]]",
            datum,
            spheroid,
            a,
            flattening);
    PlaneTransform out = PlaneTransform.fromPlane(plane, CrsLookup.decode(wkt));
    PlaneTransform viaWgs84 = PlaneTransform.toWgs84(plane);
    PlaneTransform back =
        PlaneTransform.between(CrsLookup.decode(wkt), CrsLookup.decode("OGC:CRS84"));
    assertTrue(out.warning().isEmpty() && back.warning().isEmpty(), out.operation());
    Coordinate expected = viaWgs84.apply(new Coordinate(x, y));
    Coordinate actual = back.apply(out.apply(new Coordinate(x, y)));
    assertEquals(expected.x, actual.x, 1e-8);
    assertEquals(expected.y, actual.y, 1e-8);
  }

  @Test
  void aMissingDatumShiftIsWarnedOf() {
    String wkt =
        "PROJCS[\"old grid\",GEOGCS[\"old\",DATUM[\"Old town datum\","
            + "SPHEROID[\"Bessel 1841\",6377397.155,299.1528128]],PRIMEM[\"Greenwich\",0],"
            + "UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],"
            + "PARAMETER[\"central_meridian\",9],UNIT[\"metre\",1]]";
    String warning = PlaneTransform.toWgs84(CrsLookup.of(wkt)).warning().orElseThrow();
    assertTrue(warning.contains("no shift is known between the datums Old town datum"), warning);
    assertTrue(PlaneTransform.toWgs84(CrsLookup.of("EPSG:26915")).warning().isEmpty());
  }

  @Test
  void geometriesKeepTheirKindAndLoseTheirHeights() throws ParseException {
    WorkingCrs plane = CrsLookup.of("EPSG:2263");
    Geometry feet =
        new WKTReader()
            .read(
                "MULTIPOLYGON Z(((980000 200000 5, 980100 200000 5, 980100 200100 7, 980000 200000 5)))");
    Geometry metres = PlaneTransform.toPlane(plane.crs(), plane).apply(feet);
    assertEquals("MultiPolygon", metres.getGeometryType());
    assertEquals(feet.getArea() * Math.pow(1200.0 / 3937.0, 2), metres.getArea(), 1e-6);
    assertTrue(Double.isNaN(metres.getCoordinate().getZ()));
  }

  private static void checkOperation(String name, String part) {
    String operation = PlaneTransform.toWgs84(CrsLookup.of(name)).operation();
    assertTrue(operation.contains(part), operation);
  }
}
