package org.yardfall.site;

import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKBReader;
import org.sqlite.SQLiteConfig;

/**
 * Reads a feature layer of a GeoPackage (OGC 12-128r18, clauses 1.1.2 and 2.1): the tables through
 * SQLite, the geometries through JTS.
 */
final class GeoPackageReader {

  /** Bytes before the envelope: magic, version, flags, CRS number. */
  private static final int FIXED_HEADER = 8;

  private static final int[] ENVELOPE_BYTES = {0, 32, 48, 48, 64};

  private final String file;
  private final Connection connection;

  private GeoPackageReader(String file, Connection connection) {
    this.file = file;
    this.connection = connection;
  }

  private record Table(String name, String geometryColumn, int crsNumber) {}

  /** The named layer, or the only one if the name is null. */
  static VectorLayer read(Path path, String layer) {
    String file = path.getFileName().toString();
    SQLiteConfig config = new SQLiteConfig();
    config.setReadOnly(true);
    try (Connection connection = config.createConnection("jdbc:sqlite:" + uri(path))) {
      return new GeoPackageReader(file, connection).layer(layer);
    } catch (SQLException e) {
      throw new BadInputException(
          file, "the file is not a readable GeoPackage (" + e.getMessage() + ")", "");
    }
  }

  /** Immutable, so that no journal is sought or written beside a file on read-only media. */
  private static String uri(Path path) {
    return path.toUri().toString().replaceFirst("^file:/+", "file:///") + "?immutable=1";
  }

  private VectorLayer layer(String wanted) throws SQLException {
    Map<String, Table> tables = featureTables();
    if (tables.isEmpty()) {
      throw new BadInputException(file, "the GeoPackage has no feature layer", "");
    }
    Table table;
    if (wanted != null) {
      table = tables.get(wanted);
      if (table == null) {
        throw new BadInputException(
            file,
            "there is no layer '" + wanted + "'",
            Nearest.suggestion(wanted, tables.keySet(), "")
                + " its layers are "
                + String.join(", ", tables.keySet()));
      }
    } else if (tables.size() == 1) {
      table = tables.values().iterator().next();
    } else {
      throw new BadInputException(
          file,
          "the GeoPackage has several layers (" + String.join(", ", tables.keySet()) + ")",
          "name one as layer beside the file");
    }
    return features(table);
  }

  private Map<String, Table> featureTables() throws SQLException {
    Map<String, Table> tables = new TreeMap<>();
    String sql =
        "SELECT c.table_name, g.column_name, g.srs_id FROM gpkg_contents c"
            + " JOIN gpkg_geometry_columns g ON g.table_name = c.table_name"
            + " WHERE c.data_type = 'features'";
    try (PreparedStatement statement = connection.prepareStatement(sql);
        ResultSet rows = statement.executeQuery()) {
      while (rows.next()) {
        tables.put(
            rows.getString(1), new Table(rows.getString(1), rows.getString(2), rows.getInt(3)));
      }
    }
    return tables;
  }

  private VectorLayer features(Table table) throws SQLException {
    List<VectorFeature> features = new ArrayList<>();
    List<String> fields = new ArrayList<>();
    String sql =
        "SELECT rowid AS yardfall_rowid, * FROM \""
            + table.name().replace("\"", "\"\"")
            + "\" ORDER BY rowid";
    try (PreparedStatement statement = connection.prepareStatement(sql);
        ResultSet rows = statement.executeQuery()) {
      ResultSetMetaData columns = rows.getMetaData();
      for (int i = 2; i <= columns.getColumnCount(); i++) {
        if (!columns.getColumnName(i).equals(table.geometryColumn())) {
          fields.add(columns.getColumnName(i));
        }
      }
      while (rows.next()) {
        Map<String, String> attributes = new LinkedHashMap<>();
        for (String field : fields) {
          Object value = rows.getObject(field);
          if (value != null && !(value instanceof byte[])) {
            attributes.put(field, text(value));
          }
        }
        features.add(
            new VectorFeature(
                rows.getString(1), geometry(rows.getBytes(table.geometryColumn())), attributes));
      }
    }
    return new VectorLayer(
        file + " layer " + table.name(), crs(table.crsNumber()), fields, features);
  }

  private static String text(Object value) {
    return value instanceof Double || value instanceof Float
        ? Numerals.plain(new BigDecimal(value.toString()))
        : value.toString();
  }

  private Geometry geometry(byte[] blob) {
    if (blob == null) {
      return null;
    }
    int envelope = blob.length < FIXED_HEADER ? 5 : (blob[3] >> 1) & 7;
    if (envelope > 4 || blob[0] != 'G' || blob[1] != 'P') {
      throw new BadInputException(file, "a geometry is damaged", "export the layer anew");
    }
    boolean empty = (blob[3] & 0x10) != 0;
    int start = FIXED_HEADER + ENVELOPE_BYTES[envelope];
    ByteBuffer wkb = ByteBuffer.wrap(blob, start, blob.length - start).order(ByteOrder.BIG_ENDIAN);
    byte[] body = new byte[wkb.remaining()];
    wkb.get(body);
    try {
      return empty ? null : new WKBReader().read(body);
    } catch (ParseException | RuntimeException e) {
      throw new BadInputException(
          file, "a geometry is damaged (" + e.getMessage() + ")", "export the layer anew");
    }
  }

  private Optional<CoordinateReferenceSystem> crs(int number) throws SQLException {
    String sql =
        "SELECT organization, organization_coordsys_id, definition FROM gpkg_spatial_ref_sys"
            + " WHERE srs_id = ?";
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      statement.setInt(1, number);
      try (ResultSet row = statement.executeQuery()) {
        // Numbers -1 and 0 are the standard's undefined CRSs.
        if (number <= 0 || !row.next()) {
          return Optional.empty();
        }
        return Optional.of(
            "EPSG".equalsIgnoreCase(row.getString(1))
                ? CrsLookup.decode("EPSG:" + row.getInt(2), file)
                : CrsLookup.parseWkt(row.getString(3), file));
      }
    }
  }
}
