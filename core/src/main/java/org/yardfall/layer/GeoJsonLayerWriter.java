package org.yardfall.layer;

import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.MultiPolygon;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.site.WorkingCrs;

/**
 * Writes a layer as GeoJSON (RFC 7946): longitude and latitude of WGS 84 with 9 decimals (0.1 mm),
 * exterior rings counter-clockwise, no {@code crs} member, one feature a line. A third coordinate
 * is an elevation in metres of the site's vertical datum.
 */
final class GeoJsonLayerWriter {

  private static final int DEGREE_DECIMALS = 9;
  private static final int ELEVATION_DECIMALS = 3;

  private final Placement placement;

  GeoJsonLayerWriter(WorkingCrs crs) {
    this.placement = Placement.inWgs84(crs);
  }

  void write(Layer layer, Path file) throws IOException {
    try (OutputStream out = Files.newOutputStream(file);
        JsonGenerator json = new JsonFactory().createGenerator(out, JsonEncoding.UTF8)) {
      json.enable(JsonGenerator.Feature.WRITE_BIGDECIMAL_AS_PLAIN);
      json.writeStartObject();
      json.writeStringField("type", "FeatureCollection");
      json.writeStringField("name", layer.name());
      json.writeArrayFieldStart("features");
      for (Feature feature : layer.features()) {
        json.writeRaw('\n');
        writeFeature(json, layer, feature);
      }
      json.writeRaw('\n');
      json.writeEndArray();
      json.writeEndObject();
      json.writeRaw('\n');
    }
  }

  private void writeFeature(JsonGenerator json, Layer layer, Feature feature) throws IOException {
    json.writeStartObject();
    json.writeStringField("type", "Feature");
    json.writeObjectFieldStart("properties");
    for (int i = 0; i < layer.fields().size(); i++) {
      json.writeFieldName(layer.fields().get(i).name());
      writeValue(json, feature.values().get(i));
    }
    json.writeEndObject();
    json.writeFieldName("geometry");
    writeGeometry(json, placement.apply(feature.geometry()));
    json.writeEndObject();
  }

  private static void writeValue(JsonGenerator json, Object value) throws IOException {
    if (value == null) {
      json.writeNull();
    } else if (value instanceof Double number) {
      json.writeNumber(BigDecimal.valueOf(number));
    } else if (value instanceof Integer number) {
      json.writeNumber(number);
    } else {
      json.writeString((String) value);
    }
  }

  private static void writeGeometry(JsonGenerator json, Geometry geometry) throws IOException {
    json.writeStartObject();
    json.writeStringField("type", geometry.getGeometryType());
    json.writeFieldName("coordinates");
    if (geometry instanceof Point point) {
      writePosition(json, point.getCoordinate());
    } else if (geometry instanceof LineString line) {
      writePositions(json, line.getCoordinates());
    } else {
      json.writeStartArray();
      MultiPolygon areas = (MultiPolygon) geometry;
      for (int i = 0; i < areas.getNumGeometries(); i++) {
        writePolygon(json, (Polygon) areas.getGeometryN(i));
      }
      json.writeEndArray();
    }
    json.writeEndObject();
  }

  private static void writePolygon(JsonGenerator json, Polygon polygon) throws IOException {
    json.writeStartArray();
    writeRing(json, polygon.getExteriorRing(), true);
    for (int i = 0; i < polygon.getNumInteriorRing(); i++) {
      writeRing(json, polygon.getInteriorRingN(i), false);
    }
    json.writeEndArray();
  }

  private static void writeRing(JsonGenerator json, LinearRing ring, boolean counterClockwise)
      throws IOException {
    boolean turn = Orientation.isCCW(ring.getCoordinateSequence()) != counterClockwise;
    writePositions(json, (turn ? ring.reverse() : ring).getCoordinates());
  }

  private static void writePositions(JsonGenerator json, Coordinate[] points) throws IOException {
    json.writeStartArray();
    for (Coordinate point : points) {
      writePosition(json, point);
    }
    json.writeEndArray();
  }

  private static void writePosition(JsonGenerator json, Coordinate point) throws IOException {
    json.writeStartArray();
    for (double part : List.of(point.x, point.y)) {
      json.writeNumber(rounded(part, DEGREE_DECIMALS));
    }
    if (!Double.isNaN(point.getZ())) {
      json.writeNumber(rounded(point.getZ(), ELEVATION_DECIMALS));
    }
    json.writeEndArray();
  }

  private static BigDecimal rounded(double value, int decimals) {
    return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
  }
}
