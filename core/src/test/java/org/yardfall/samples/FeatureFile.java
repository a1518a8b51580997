package org.yardfall.samples;

import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.site.PlaneTransform;

/** A sample's features as a GeoJSON file (RFC 7946), one feature a line. */
final class FeatureFile {

  private FeatureFile() {}

  static byte[] geoJson(List<Feature> features, PlaneTransform toWgs84) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (JsonGenerator json = new JsonFactory().createGenerator(bytes, JsonEncoding.UTF8)) {
      json.writeStartObject();
      json.writeStringField("type", "FeatureCollection");
      json.writeArrayFieldStart("features");
      for (Feature feature : features) {
        json.writeRaw('\n');
        json.writeStartObject();
        json.writeStringField("type", "Feature");
        json.writeObjectFieldStart("properties");
        for (Map.Entry<String, Object> field : feature.fields().entrySet()) {
          json.writeFieldName(field.getKey());
          if (field.getValue() instanceof Number number) {
            json.writeNumber(number.doubleValue());
          } else {
            json.writeString(field.getValue().toString());
          }
        }
        json.writeEndObject();
        geometry(json, toWgs84.apply(feature.shape()));
        json.writeEndObject();
      }
      json.writeRaw('\n');
      json.writeEndArray();
      json.writeEndObject();
      json.writeRaw('\n');
    }
    return bytes.toByteArray();
  }

  private static void geometry(JsonGenerator json, Geometry shape) throws IOException {
    json.writeObjectFieldStart("geometry");
    json.writeStringField("type", shape.getGeometryType());
    json.writeFieldName("coordinates");
    if (shape instanceof Polygon polygon) {
      json.writeStartArray();
      line(json, polygon.getExteriorRing().getCoordinates());
      json.writeEndArray();
    } else if (shape.getNumPoints() == 1) {
      position(json, shape.getCoordinate());
    } else {
      line(json, shape.getCoordinates());
    }
    json.writeEndObject();
  }

  private static void line(JsonGenerator json, Coordinate[] line) throws IOException {
    json.writeStartArray();
    for (Coordinate coordinate : line) {
      position(json, coordinate);
    }
    json.writeEndArray();
  }

  private static void position(JsonGenerator json, Coordinate at) throws IOException {
    json.writeStartArray();
    json.writeNumber(Math.round(at.x * 1e8) / 1e8);
    json.writeNumber(Math.round(at.y * 1e8) / 1e8);
    json.writeEndArray();
  }
}
