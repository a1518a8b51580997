package org.yardfall.layer;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Collections;
import java.util.stream.Collectors;
import org.geotools.referencing.wkt.Formattable;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.ByteOrderValues;
import org.locationtech.jts.io.WKBWriter;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteDataSource;
import org.yardfall.site.WorkingCrs;

/**
 * Writes all layers as one GeoPackage (OGC 12-128r18, version 1.3) in the working CRS, with their
 * styles.
 *
 * <p>The database is made in memory and written to the file at once, so that nothing half-written
 * can be left and no name of a folder can be taken for an option of the database.
 */
final class GeoPackageWriter {

  /** The letters {@code GPKG} and version 1.3, as the standard's clause 1.1.1.1.1 asks. */
  private static final String IDENTITY =
      "PRAGMA application_id = 0x47504B47; PRAGMA user_version = 10300";

  /** Definitions of the standard's Annex C. */
  private static final String TABLES =
      """
      CREATE TABLE gpkg_spatial_ref_sys (
        srs_name TEXT NOT NULL, srs_id INTEGER PRIMARY KEY, organization TEXT NOT NULL,
        organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
      CREATE TABLE gpkg_contents (
        table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE,
        description TEXT DEFAULT '',
        last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
        min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
        CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
      CREATE TABLE gpkg_geometry_columns (
        table_name TEXT NOT NULL, column_name TEXT NOT NULL, geometry_type_name TEXT NOT NULL,
        srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m TINYINT NOT NULL,
        CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
        CONSTRAINT uk_gc_table_name UNIQUE (table_name),
        CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
        CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id));
      CREATE TABLE layer_styles (
        id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, f_table_catalog TEXT, f_table_schema TEXT,
        f_table_name TEXT, f_geometry_column TEXT, styleName TEXT, styleQML TEXT, styleSLD TEXT,
        useAsDefault BOOLEAN, description TEXT, owner TEXT, ui TEXT, update_time DATETIME);
      """;

  /** The date of every row, so that the same input gives the same bytes. */
  private static final String FIXED_TIME = "2000-01-01T00:00:00.000Z";

  private static final String WGS84 =
      "GEOGCS[\"WGS 84\",DATUM[\"World Geodetic System 1984\",SPHEROID[\"WGS 84\",6378137,"
          + "298.257223563,AUTHORITY[\"EPSG\",\"7030\"]],AUTHORITY[\"EPSG\",\"6326\"]],"
          + "PRIMEM[\"Greenwich\",0,AUTHORITY[\"EPSG\",\"8901\"]],UNIT[\"degree\","
          + "0.0174532925199433,AUTHORITY[\"EPSG\",\"9122\"]],AUTHORITY[\"EPSG\",\"4326\"]]";

  /** Id of a CRS that has no code of its own. */
  private static final int OWN_SRS = 100_000;

  private static final String EPSG = "EPSG:";

  private final WorkingCrs crs;
  private final Placement placement;
  private final int srs;

  GeoPackageWriter(WorkingCrs crs) {
    this.crs = crs;
    this.placement = Placement.inWorkingCrs(crs);
    this.srs =
        crs.name().startsWith(EPSG)
            ? Integer.parseInt(crs.name().substring(EPSG.length()))
            : OWN_SRS;
  }

  static void loadLibrary() throws IOException {
    try (Connection database = inMemory()) {
      database.setAutoCommit(false);
    } catch (SQLException e) {
      throw new IOException(e.getMessage(), e);
    }
  }

  private static Connection inMemory() throws SQLException {
    SQLiteDataSource memory = new SQLiteDataSource();
    memory.setUrl("jdbc:sqlite::memory:");
    return memory.getConnection();
  }

  void write(LayerSet layers, Path file) throws IOException {
    try (Connection database = inMemory()) {
      try (Statement statement = database.createStatement()) {
        statement.executeUpdate(IDENTITY);
        statement.executeUpdate(TABLES);
      }
      database.setAutoCommit(false);
      writeReferenceSystems(database);
      for (Layer layer : layers.layers()) {
        writeLayer(database, layer);
      }
      writeStyles(database, layers);
      database.commit();
      Files.write(file, database.unwrap(SQLiteConnection.class).serialize("main"));
    } catch (SQLException e) {
      throw new IOException(file.getFileName() + ": " + e.getMessage(), e);
    }
  }

  private void writeReferenceSystems(Connection database) throws SQLException {
    String sql = "INSERT INTO gpkg_spatial_ref_sys VALUES (?, ?, ?, ?, ?, ?)";
    try (PreparedStatement row = database.prepareStatement(sql)) {
      insert(row, "Undefined Cartesian SRS", -1, "NONE", -1, "undefined", null);
      insert(row, "Undefined geographic SRS", 0, "NONE", 0, "undefined", null);
      insert(row, "WGS 84 geodetic", 4326, "EPSG", 4326, WGS84, null);
      insert(
          row,
          crs.crs().getName().getCode(),
          srs,
          srs == OWN_SRS ? "NONE" : "EPSG",
          srs,
          ((Formattable) crs.crs()).toWKT(0),
          null);
    }
  }

  private void writeLayer(Connection database, Layer layer) throws SQLException {
    String columns =
        layer.fields().stream()
            .map(field -> ", \"" + field.name() + "\" " + sqlType(field))
            .collect(Collectors.joining());
    try (Statement statement = database.createStatement()) {
      statement.executeUpdate(
          "CREATE TABLE \"%s\" (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom %s%s)"
              .formatted(layer.name(), geometryType(layer), columns));
    }
    Envelope extent = new Envelope();
    for (Feature feature : layer.features()) {
      extent.expandToInclude(placement.apply(feature.geometry()).getEnvelopeInternal());
    }
    boolean none = extent.isNull();
    try (PreparedStatement row =
        database.prepareStatement(
            "INSERT INTO gpkg_contents VALUES (?, 'features', ?, ?, ?, ?, ?, ?, ?, ?)")) {
      insert(
          row,
          layer.name(),
          layer.name(),
          layer.title(),
          FIXED_TIME,
          none ? null : extent.getMinX(),
          none ? null : extent.getMinY(),
          none ? null : extent.getMaxX(),
          none ? null : extent.getMaxY(),
          srs);
    }
    try (PreparedStatement row =
        database.prepareStatement(
            "INSERT INTO gpkg_geometry_columns VALUES (?, 'geom', ?, ?, ?, 0)")) {
      insert(row, layer.name(), geometryType(layer), srs, layer.shape().hasZ() ? 1 : 0);
    }
    writeFeatures(database, layer);
  }

  private void writeFeatures(Connection database, Layer layer) throws SQLException {
    String marks = String.join(", ", Collections.nCopies(layer.fields().size() + 1, "?"));
    try (PreparedStatement row =
        database.prepareStatement(
            "INSERT INTO \"%s\" VALUES (NULL, %s)".formatted(layer.name(), marks))) {
      for (Feature feature : layer.features()) {
        row.setBytes(1, blob(placement.apply(feature.geometry()), layer.shape().hasZ()));
        for (int i = 0; i < layer.fields().size(); i++) {
          row.setObject(i + 2, feature.values().get(i));
        }
        row.executeUpdate();
      }
    }
  }

  private void writeStyles(Connection database, LayerSet layers) throws SQLException {
    try (PreparedStatement row =
        database.prepareStatement(
            "INSERT INTO gpkg_contents VALUES"
                + " ('layer_styles', 'attributes', 'layer_styles', ?, ?,"
                + " NULL, NULL, NULL, NULL, NULL)")) {
      insert(row, "Styles of the layers", FIXED_TIME);
    }
    try (PreparedStatement row =
        database.prepareStatement(
            "INSERT INTO layer_styles VALUES"
                + " (NULL, '', '', ?, 'geom', ?, ?, ?, 1, ?, '', NULL, ?)")) {
      for (Layer layer : layers.layers()) {
        insert(
            row,
            layer.name(),
            layer.name(),
            QmlWriter.write(layer),
            SldWriter.write(layer),
            layer.title(),
            FIXED_TIME);
      }
    }
  }

  private static void insert(PreparedStatement row, Object... values) throws SQLException {
    for (int i = 0; i < values.length; i++) {
      row.setObject(i + 1, values[i]);
    }
    row.executeUpdate();
  }

  private static String sqlType(Field field) {
    return switch (field.type()) {
      case TEXT -> "TEXT";
      case INTEGER -> "MEDIUMINT";
      case REAL -> "DOUBLE";
    };
  }

  private static String geometryType(Layer layer) {
    return switch (layer.shape()) {
      case POINT, POINT_Z -> "POINT";
      case LINE, LINE_Z -> "LINESTRING";
      case AREA -> "MULTIPOLYGON";
    };
  }

  /** A geometry as the standard's clause 2.1.3 asks: a head with the extent, then ISO WKB. */
  private byte[] blob(Geometry geometry, boolean z) {
    byte[] wkb = new WKBWriter(z ? 3 : 2, ByteOrderValues.LITTLE_ENDIAN).write(geometry);
    if (z) {
      // JTS marks elevations by a high bit, the ISO form by a thousand; such geometries are simple
      // ones here, with one code at their start.
      ByteBuffer code = ByteBuffer.wrap(wkb, 1, Integer.BYTES).order(ByteOrder.LITTLE_ENDIAN);
      int type = code.getInt(1) & 0xFF;
      code.putInt(1, type + 1000);
    }
    boolean extent = geometry.getDimension() > 0;
    ByteBuffer blob =
        ByteBuffer.allocate(8 + (extent ? 4 * Double.BYTES : 0) + wkb.length)
            .order(ByteOrder.LITTLE_ENDIAN);
    blob.put((byte) 'G').put((byte) 'P').put((byte) 0).put((byte) (extent ? 0b11 : 0b01));
    blob.putInt(srs);
    if (extent) {
      Envelope box = geometry.getEnvelopeInternal();
      blob.putDouble(box.getMinX()).putDouble(box.getMaxX());
      blob.putDouble(box.getMinY()).putDouble(box.getMaxY());
    }
    return blob.put(wkb).array();
  }
}
