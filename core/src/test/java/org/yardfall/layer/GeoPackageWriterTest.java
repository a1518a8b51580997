package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import mil.nga.geopackage.GeoPackage;
import mil.nga.geopackage.GeoPackageManager;
import mil.nga.geopackage.features.user.FeatureDao;
import mil.nga.geopackage.features.user.FeatureResultSet;
import mil.nga.geopackage.features.user.FeatureRow;
import mil.nga.sf.LineString;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The file is read back with the library of the agency that helped to write the standard (OGC
 * 12-128r18), and its required parts by plain SQL; clause numbers are the standard's.
 */
class GeoPackageWriterTest {

  @TempDir Path folder;

  @Test
  void theFileCallsItselfAGeoPackage() throws IOException, SQLException {
    Path file = write(ResultFixture.metric());
    byte[] bytes = Files.readAllBytes(file);
    assertEquals("SQLite format 3", new String(bytes, 0, 15, StandardCharsets.US_ASCII)); // 1.1.1.1
    assertEquals(0x47504B47, number(file, "PRAGMA application_id")); // 1.1.1.1.1
    assertEquals(10300, number(file, "PRAGMA user_version"));
    assertEquals(List.of("ok"), texts(file, "PRAGMA integrity_check")); // 1.1.1.1.4
    assertEquals(List.of(), texts(file, "PRAGMA foreign_key_check")); // 1.1.1.1.5
  }

  @Test
  void theRequiredReferenceSystemsAreThere() throws IOException, SQLException {
    Path file = write(ResultFixture.usFeet()); // 1.1.2.1.2
    assertEquals(
        List.of("-1 NONE", "0 NONE", "2903 EPSG", "4326 EPSG"),
        texts(
            file,
            "SELECT srs_id || ' ' || organization FROM gpkg_spatial_ref_sys ORDER BY srs_id"));
  }

  @Test
  void anotherLibraryReadsEveryLayer() throws IOException {
    checkRead(ResultFixture.metric(), 26915);
    checkRead(ResultFixture.usFeet(), 2903);
    checkRead(ResultFixture.empty(), 26915);
  }

  @Test
  void aDrainLiesAtItsInverts() throws IOException {
    try (GeoPackage read = GeoPackageManager.open(write(ResultFixture.usFeet()).toFile())) {
      FeatureResultSet rows = read.getFeatureDao("drains").queryForAll();
      assertTrue(rows.moveToNext());
      LineString line = (LineString) rows.getRow().getGeometry().getGeometry();
      assertEquals(5, line.numPoints());
      assertEquals(1500000 + 5 * 3937 / 1200.0, line.getPoint(0).getX(), 1e-6);
      assertEquals(240.97, line.getPoint(4).getZ(), 1e-9);
    }
  }

  @Test
  void everyLayerHasADefaultStyle() throws IOException, SQLException {
    List<String> styled =
        texts(
            write(ResultFixture.metric()),
            "SELECT f_table_name FROM layer_styles WHERE useAsDefault AND styleSLD LIKE '%Rule%'"
                + " AND styleQML LIKE '%<rule %'");
    assertEquals(
        LayerSet.of(ResultFixture.metric()).layers().stream().map(Layer::name).toList(), styled);
  }

  @Test
  void hostileTextStaysText() throws IOException, SQLException {
    Path file = write(ResultFixture.withIds(HostileText.ID));
    assertEquals(List.of(HostileText.ID), texts(file, "SELECT id FROM lot"));
  }

  @Test
  void theSameResultGivesTheSameBytes() throws IOException {
    byte[] first = Files.readAllBytes(write(ResultFixture.metric()));
    assertArrayEquals(first, Files.readAllBytes(write(ResultFixture.metric())));
  }

  private void checkRead(Result result, int srs) throws IOException {
    try (GeoPackage read = GeoPackageManager.open(write(result).toFile())) {
      List<Layer> layers = LayerSet.of(result).layers();
      assertEquals(
          layers.stream().map(Layer::name).sorted().toList(),
          read.getFeatureTables().stream().sorted().toList());
      for (Layer layer : layers) {
        FeatureDao table = read.getFeatureDao(layer.name());
        assertEquals(srs, table.getSrs().getOrganizationCoordsysId());
        assertEquals(layer.features().size(), table.count());
        List<String> columns = new ArrayList<>(List.of("fid", "geom"));
        layer.fields().forEach(field -> columns.add(field.name()));
        assertEquals(columns, Arrays.asList(table.getColumnNames()));
        checkRows(layer, table);
      }
    }
  }

  private static void checkRows(Layer layer, FeatureDao table) {
    FeatureResultSet rows = table.queryForAll();
    try {
      int i = 0;
      while (rows.moveToNext()) {
        FeatureRow row = rows.getRow();
        Feature feature = layer.features().get(i++);
        for (int field = 0; field < layer.fields().size(); field++) {
          Object expected = feature.values().get(field);
          Object actual = row.getValue(layer.fields().get(field).name());
          if (expected instanceof Number number) {
            assertEquals(number.doubleValue(), ((Number) actual).doubleValue());
          } else {
            assertEquals(expected, actual);
          }
        }
        assertEquals(
            feature.geometry().getNumPoints(),
            Points.count(row.getGeometry().getGeometry()),
            layer.name());
      }
    } finally {
      rows.close();
    }
  }

  /** Counts the vertices of a geometry of the other library. */
  private static final class Points {
    static int count(mil.nga.sf.Geometry geometry) {
      if (geometry instanceof LineString line) {
        return line.numPoints();
      }
      if (geometry instanceof mil.nga.sf.MultiPolygon areas) {
        return areas.getPolygons().stream()
            .flatMap(polygon -> polygon.getRings().stream())
            .mapToInt(LineString::numPoints)
            .sum();
      }
      return 1;
    }
  }

  private Path write(Result result) throws IOException {
    Path file = folder.resolve("site.gpkg");
    new GeoPackageWriter(result.site().crs()).write(LayerSet.of(result), file);
    return file;
  }

  private static int number(Path file, String sql) throws SQLException {
    return Integer.parseInt(texts(file, sql).get(0));
  }

  private static List<String> texts(Path file, String sql) throws SQLException {
    List<String> texts = new ArrayList<>();
    try (Connection database = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = database.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      while (rows.next()) {
        texts.add(rows.getString(1));
      }
    }
    return texts;
  }
}
