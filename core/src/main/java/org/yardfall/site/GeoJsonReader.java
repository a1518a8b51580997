package org.yardfall.site;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateXY;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;

/**
 * Reads GeoJSON (RFC 7946): a feature collection, one feature or a bare geometry. Coordinates are
 * WGS 84 longitude and latitude unless the {@code crs} member of the 2008 specification says
 * otherwise. Heights are dropped; rings left open are refused.
 */
final class GeoJsonReader {

  private static final ObjectMapper JSON =
      JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private final String file;

  private GeoJsonReader(String file) {
    this.file = file;
  }

  /** Loads what parsing needs. */
  static void prepare() {
    try {
      JSON.readTree("{\"type\": [0.5]}");
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  static VectorLayer read(Path path) {
    String file = path.getFileName().toString();
    try {
      JsonNode root = JSON.readTree(text(path));
      return new GeoJsonReader(file).layer(root);
    } catch (JsonProcessingException e) {
      throw new BadInputException(
          file,
          "the file is not well-formed JSON (line "
              + (e.getLocation() == null ? 1 : e.getLocation().getLineNr())
              + ")",
          "");
    } catch (IOException e) {
      throw new BadInputException(file, "the file cannot be read (" + e.getMessage() + ")", "");
    }
  }

  private static String text(Path path) throws IOException {
    byte[] bytes = Files.readAllBytes(path);
    Charset charset = StandardCharsets.UTF_8;
    if (bytes.length > 1 && (bytes[0] & 0xff) == 0xff && (bytes[1] & 0xff) == 0xfe) {
      charset = StandardCharsets.UTF_16;
    } else if (bytes.length > 1 && (bytes[0] & 0xff) == 0xfe && (bytes[1] & 0xff) == 0xff) {
      charset = StandardCharsets.UTF_16;
    }
    String text = new String(bytes, charset);
    return text.startsWith("\uFEFF") ? text.substring(1) : text;
  }

  private VectorLayer layer(JsonNode root) {
    List<JsonNode> members = new ArrayList<>();
    String type = root.path("type").asText("");
    if (type.equals("FeatureCollection")) {
      if (!root.path("features").isArray()) {
        throw problem("the feature collection has no list of features");
      }
      root.get("features").forEach(members::add);
    } else if (type.isEmpty()) {
      throw problem("the file is not GeoJSON (it has no type)");
    } else {
      members.add(root);
    }
    List<VectorFeature> features = new ArrayList<>();
    Set<String> fields = new LinkedHashSet<>();
    for (JsonNode member : members) {
      VectorFeature feature = feature(member, features.size() + 1);
      fields.addAll(feature.attributes().keySet());
      member.path("properties").fieldNames().forEachRemaining(fields::add);
      features.add(feature);
    }
    return new VectorLayer(file, Optional.of(crs(root)), List.copyOf(fields), features);
  }

  private CoordinateReferenceSystem crs(JsonNode root) {
    JsonNode crs = root.path("crs");
    if (crs.isMissingNode() || crs.isNull()) {
      return DefaultGeographicCRS.WGS84;
    }
    String name = crs.path("properties").path("name").asText("");
    if (!crs.path("type").asText("").equals("name") || name.isEmpty()) {
      throw new BadInputException(
          file,
          "its crs member does not name a CRS",
          "give the CRS as crs beside the file, such as crs: EPSG:26915");
    }
    return CrsLookup.decode(name, file);
  }

  private VectorFeature feature(JsonNode member, int number) {
    boolean isFeature = member.path("type").asText("").equals("Feature");
    Map<String, String> attributes = new LinkedHashMap<>();
    if (isFeature) {
      member
          .path("properties")
          .properties()
          .forEach(
              e -> {
                if (!e.getValue().isNull()) {
                  attributes.put(e.getKey(), scalar(e.getValue()));
                }
              });
    }
    JsonNode id = member.path("id");
    String fid = id.isMissingNode() || id.isNull() ? Integer.toString(number) : scalar(id);
    JsonNode geometry = isFeature ? member.path("geometry") : member;
    try {
      return new VectorFeature(
          fid,
          geometry.isNull() || geometry.isMissingNode() ? null : geometry(geometry),
          attributes);
    } catch (IllegalArgumentException e) {
      throw problem("feature " + number + " is damaged: " + e.getMessage());
    }
  }

  private static String scalar(JsonNode value) {
    if (value.isBigDecimal()) {
      return Numerals.plain(value.decimalValue());
    }
    return value.isValueNode() ? value.asText() : value.toString();
  }

  private Geometry geometry(JsonNode node) {
    JsonNode c = node.path("coordinates");
    return switch (node.path("type").asText("")) {
      case "Point" -> point(c);
      case "LineString" -> line(c);
      case "Polygon" -> polygon(c);
      case "MultiPoint" -> GEOMETRIES.createMultiPoint(each(c, this::point).toArray(Point[]::new));
      case "MultiLineString" ->
          GEOMETRIES.createMultiLineString(each(c, this::line).toArray(LineString[]::new));
      case "MultiPolygon" ->
          GEOMETRIES.createMultiPolygon(each(c, this::polygon).toArray(Polygon[]::new));
      case "GeometryCollection" ->
          GEOMETRIES.createGeometryCollection(
              each(node.path("geometries"), this::geometry).toArray(Geometry[]::new));
      default ->
          throw new IllegalArgumentException(
              "'" + node.path("type").asText("") + "' is no kind of geometry");
    };
  }

  private Point point(JsonNode c) {
    return c.isEmpty() ? GEOMETRIES.createPoint() : GEOMETRIES.createPoint(coordinate(c));
  }

  private LineString line(JsonNode c) {
    return GEOMETRIES.createLineString(coordinates(c));
  }

  private Polygon polygon(JsonNode c) {
    List<LinearRing> rings = each(c, ring -> GEOMETRIES.createLinearRing(coordinates(ring)));
    if (rings.isEmpty()) {
      return GEOMETRIES.createPolygon();
    }
    return GEOMETRIES.createPolygon(
        rings.get(0), rings.subList(1, rings.size()).toArray(LinearRing[]::new));
  }

  private static <T> List<T> each(JsonNode list, java.util.function.Function<JsonNode, T> maker) {
    List<T> made = new ArrayList<>();
    list.forEach(item -> made.add(maker.apply(item)));
    return made;
  }

  private static Coordinate[] coordinates(JsonNode list) {
    return each(list, GeoJsonReader::coordinate).toArray(Coordinate[]::new);
  }

  private static Coordinate coordinate(JsonNode position) {
    if (position.size() < 2 || !position.get(0).isNumber() || !position.get(1).isNumber()) {
      throw new IllegalArgumentException("a position is not two numbers");
    }
    return new CoordinateXY(position.get(0).doubleValue(), position.get(1).doubleValue());
  }

  private BadInputException problem(String what) {
    return new BadInputException(file, what, "");
  }
}
