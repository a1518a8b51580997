package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.linuxense.javadbf.DBFReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.geotools.api.referencing.FactoryException;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.crs.ProjectedCRS;
import org.geotools.referencing.CRS;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;

/**
 * The files are read back by other means than they were written with: the table with javadbf, the
 * shapes by their published layout (ESRI Shapefile Technical Description, July 1998).
 */
class ShapefileLayerWriterTest {

  private static final int POLYLINE_Z = 13;
  private static final int POLYGON = 5;
  private static final int HEADER = 100;

  @TempDir Path folder;

  @Test
  void everyLayersTableHoldsItsFieldsAndValues() throws IOException {
    Result result = ResultFixture.metric();
    for (Layer layer : LayerSet.of(result).layers()) {
      new ShapefileLayerWriter(result.site().crs()).write(layer, folder);
      checkTable(layer);
    }
  }

  @Test
  void anEmptyLayerKeepsItsFields() throws IOException {
    Result result = ResultFixture.empty();
    for (Layer layer : LayerSet.of(result).layers()) {
      new ShapefileLayerWriter(result.site().crs()).write(layer, folder);
      checkTable(layer);
      assertEquals(HEADER, Files.size(folder.resolve(layer.name() + ".shp")));
    }
  }

  @Test
  void aDrainLiesAtItsInvertsInTheWorkingCrss() throws IOException {
    ByteBuffer shp = write(ResultFixture.usFeet(), "drains");
    assertEquals(POLYLINE_Z, shp.getInt(32));
    assertEquals(shp.capacity(), 2 * shp.order(ByteOrder.BIG_ENDIAN).getInt(24));
    shp.order(ByteOrder.LITTLE_ENDIAN);
    assertEquals(241.9, shp.getDouble(76), 1e-9, "greatest elevation");
    int record = HEADER + 8;
    assertEquals(POLYLINE_Z, shp.getInt(record));
    assertEquals(1, shp.getInt(record + 36), "parts");
    assertEquals(5, shp.getInt(record + 40), "points");
    int points = record + 48;
    // 5 m and 45 m in US survey feet of 1200/3937 m
    assertEquals(1500000 + 5 * 3937 / 1200.0, shp.getDouble(points), 1e-6);
    assertEquals(1490000 + 45 * 3937 / 1200.0, shp.getDouble(points + 8), 1e-6);
    int elevations = points + 5 * 16 + 16;
    assertEquals(241.9, shp.getDouble(elevations), 1e-9);
    assertEquals(240.97, shp.getDouble(elevations + 4 * 8), 1e-9);
  }

  @Test
  void outerRingsRunClockwiseAndHolesCounterClockwise() throws IOException {
    ByteBuffer shp = write(ResultFixture.metric(), "catchments");
    int second = HEADER + 8 + 2 * shp.order(ByteOrder.BIG_ENDIAN).getInt(HEADER + 4);
    shp.order(ByteOrder.LITTLE_ENDIAN);
    int record = second + 8;
    assertEquals(POLYGON, shp.getInt(record));
    assertEquals(2, shp.getInt(record + 36), "a shell and a hole");
    int points = shp.getInt(record + 40);
    int hole = shp.getInt(record + 48);
    int xy = record + 52;
    assertTrue(!Orientation.isCCW(ring(shp, xy, 0, hole)), "shell");
    assertTrue(Orientation.isCCW(ring(shp, xy, hole, points)), "hole");
  }

  @Test
  void theProjectionFileMeansTheWorkingCrs() throws FactoryException {
    checkProjection("EPSG:26915", 500055, 4983002);
    checkProjection("EPSG:2903", 1500016, 1490147);
    checkProjection("EPSG:2226", 6650000, 2000000);
    checkProjection("EPSG:2056", 2600100, 1200200);
    checkProjection("EPSG:2193", 1600100, 5400200);
  }

  @Test
  void aLongTextIsCutBetweenCharacters() throws IOException {
    Result result = ResultFixture.withIds(HostileText.ID);
    LayerSet layers = LayerSet.of(result);
    new ShapefileLayerWriter(result.site().crs()).write(layers.layer("lot"), folder);
    String read = (String) rows("lot")[0][0];
    int bytes = read.getBytes(StandardCharsets.UTF_8).length;
    assertTrue(bytes >= 253 && bytes <= 254, bytes + " bytes");
    assertTrue(HostileText.ID.startsWith(read));
    assertEquals(3, layers.warnings().size(), layers.warnings().toString());
  }

  @Test
  void theSameResultGivesTheSameBytes() throws IOException {
    write(ResultFixture.metric(), "inflow");
    byte[] first = Files.readAllBytes(folder.resolve("inflow.dbf"));
    deleteAll();
    write(ResultFixture.metric(), "inflow");
    assertArrayEquals(first, Files.readAllBytes(folder.resolve("inflow.dbf")));
    assertEquals(100, first[1], "the year 2000, not today");
  }

  private void deleteAll() throws IOException {
    try (var files = Files.list(folder)) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
  }

  private ByteBuffer write(Result result, String layer) throws IOException {
    new ShapefileLayerWriter(result.site().crs()).write(LayerSet.of(result).layer(layer), folder);
    return ByteBuffer.wrap(Files.readAllBytes(folder.resolve(layer + ".shp")))
        .order(ByteOrder.LITTLE_ENDIAN);
  }

  private static Coordinate[] ring(ByteBuffer shp, int from, int first, int end) {
    Coordinate[] ring = new Coordinate[end - first];
    for (int i = 0; i < ring.length; i++) {
      int at = from + (first + i) * 16;
      ring[i] = new Coordinate(shp.getDouble(at), shp.getDouble(at + 8));
    }
    return ring;
  }

  /** A point carried by the CRS of the .prj text and by the working CRS arrives at one place. */
  private static void checkProjection(String name, double easting, double northing)
      throws FactoryException {
    WorkingCrs crs = CrsLookup.of(name);
    WorkingCrs read = CrsLookup.of(CRS.parseWKT(PrjText.of(crs.crs())));
    assertEquals(crs.metresPerUnit(), read.metresPerUnit(), 1e-12);
    double[] there = {crs.toMetres(easting), crs.toMetres(northing)};
    double[] again = there.clone();
    PlaneTransform.fromPlane(crs, baseOf(crs)).apply(there);
    PlaneTransform.fromPlane(read, baseOf(read)).apply(again);
    assertArrayEquals(there, again, 1e-9, name);
  }

  private static CoordinateReferenceSystem baseOf(WorkingCrs crs) {
    return ((ProjectedCRS) crs.crs()).getBaseCRS();
  }

  private void checkTable(Layer layer) throws IOException {
    try (InputStream in = Files.newInputStream(folder.resolve(layer.name() + ".dbf"));
        DBFReader reader = new DBFReader(in, StandardCharsets.UTF_8)) {
      assertEquals(layer.fields().size(), reader.getFieldCount());
      assertEquals(layer.features().size(), reader.getRecordCount());
      for (int i = 0; i < layer.fields().size(); i++) {
        assertEquals(layer.fields().get(i).name(), reader.getField(i).getName());
      }
    }
    Object[][] rows = rows(layer.name());
    for (int row = 0; row < rows.length; row++) {
      for (int i = 0; i < rows[row].length; i++) {
        checkValue(layer.features().get(row).values().get(i), rows[row][i]);
      }
    }
  }

  private static void checkValue(Object expected, Object actual) {
    if (expected instanceof Number number) {
      assertEquals(number.doubleValue(), ((Number) actual).doubleValue(), 1e-9);
    } else if (expected == null) {
      assertTrue(actual == null || actual.equals(""), "[" + actual + "]");
    } else {
      assertEquals(expected, actual);
    }
  }

  private Object[][] rows(String layer) throws IOException {
    try (InputStream in = Files.newInputStream(folder.resolve(layer + ".dbf"));
        DBFReader reader = new DBFReader(in, StandardCharsets.UTF_8)) {
      Object[][] rows = new Object[reader.getRecordCount()][];
      for (int i = 0; i < rows.length; i++) {
        rows[i] = reader.nextRecord();
      }
      return rows;
    }
  }
}
