package org.yardfall.layer;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import javax.xml.stream.XMLStreamException;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.site.WorkingCrs;

/**
 * Writes all layers as one KML 2.2 document (OGC 07-147r2): a folder a layer, draped on the ground.
 * Layers that would cover the picture are off at first. A viewer shows values as HTML, so angle
 * brackets in text become single guillemets here.
 */
final class KmlWriter {

  private static final String NAMESPACE = "http://www.opengis.net/kml/2.2";
  private static final int DEGREE_DECIMALS = 9;
  private static final Set<String> OFF_AT_FIRST = Set.of("catchments", "reach", "stations");

  private final Placement placement;

  KmlWriter(WorkingCrs crs) {
    this.placement = Placement.inWgs84(crs);
  }

  /** Writes the document; the title is text from outside. */
  void write(String title, LayerSet layers, Path file) throws IOException {
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file));
        XmlFile xml = new XmlFile(out)) {
      xml.open("kml", "xmlns", NAMESPACE).open("Document").text("name", shown(title));
      for (Layer layer : layers.layers()) {
        writeStyles(xml, layer);
      }
      for (Layer layer : layers.layers()) {
        writeSchema(xml, layer);
      }
      for (Layer layer : layers.layers()) {
        writeFolder(xml, layer);
      }
      xml.close("Document").close("kml");
    } catch (XMLStreamException e) {
      throw new IOException(file.getFileName() + ": " + e.getMessage(), e);
    }
  }

  private static void writeStyles(XmlFile xml, Layer layer) throws XMLStreamException {
    LayerStyle style = LayerStyle.of(layer.name());
    for (int i = 0; i < style.rules().size(); i++) {
      Symbol symbol = style.rules().get(i).symbol();
      xml.open("Style", "id", styleId(layer, i));
      if (symbol.sizePx() > 0) {
        xml.open("IconStyle").text("color", color(symbol.fill().orElse(symbol.stroke()), 1));
        xml.text("scale", Double.toString(symbol.sizePx() / 12)).close("IconStyle");
      }
      xml.open("LineStyle").text("color", color(symbol.stroke(), 1));
      xml.text("width", Double.toString(symbol.widthPx())).close("LineStyle");
      xml.open("PolyStyle");
      xml.text("color", color(symbol.fill().orElse("#FFFFFF"), symbol.fillOpacity()));
      xml.text("fill", symbol.fill().isPresent() ? "1" : "0").close("PolyStyle");
      xml.close("Style");
    }
  }

  private static void writeSchema(XmlFile xml, Layer layer) throws XMLStreamException {
    xml.open("Schema", "name", layer.name(), "id", schemaId(layer));
    for (Field field : layer.fields()) {
      String type =
          switch (field.type()) {
            case TEXT -> "string";
            case INTEGER -> "int";
            case REAL -> "double";
          };
      xml.open("SimpleField", "type", type, "name", field.name()).close("SimpleField");
    }
    xml.close("Schema");
  }

  private void writeFolder(XmlFile xml, Layer layer) throws XMLStreamException {
    LayerStyle style = LayerStyle.of(layer.name());
    xml.open("Folder").text("name", layer.name());
    String visibility = OFF_AT_FIRST.contains(layer.name()) ? "0" : "1";
    xml.text("visibility", visibility).text("description", layer.title());
    for (Feature feature : layer.features()) {
      xml.open("Placemark").text("name", shown(feature.values().get(0)));
      xml.text("visibility", visibility);
      xml.text("styleUrl", "#" + styleId(layer, style.ruleFor(layer, feature)));
      xml.open("ExtendedData").open("SchemaData", "schemaUrl", "#" + schemaId(layer));
      for (int i = 0; i < layer.fields().size(); i++) {
        xml.text(
            "SimpleData", shown(feature.values().get(i)), "name", layer.fields().get(i).name());
      }
      xml.close("SchemaData").close("ExtendedData");
      writeGeometry(xml, placement.apply(feature.geometry()));
      xml.close("Placemark");
    }
    xml.close("Folder");
  }

  private static void writeGeometry(XmlFile xml, Geometry geometry) throws XMLStreamException {
    if (geometry instanceof LineString line) {
      xml.open("LineString").text("tessellate", "1");
      xml.text("coordinates", coordinates(line)).close("LineString");
    } else if (geometry.getDimension() == 0) {
      xml.open("Point").text("coordinates", coordinates(geometry)).close("Point");
    } else {
      xml.open("MultiGeometry");
      for (int i = 0; i < geometry.getNumGeometries(); i++) {
        Polygon polygon = (Polygon) geometry.getGeometryN(i);
        xml.open("Polygon").text("tessellate", "1");
        writeRing(xml, "outerBoundaryIs", polygon.getExteriorRing());
        for (int hole = 0; hole < polygon.getNumInteriorRing(); hole++) {
          writeRing(xml, "innerBoundaryIs", polygon.getInteriorRingN(hole));
        }
        xml.close("Polygon");
      }
      xml.close("MultiGeometry");
    }
  }

  private static void writeRing(XmlFile xml, String role, LinearRing ring)
      throws XMLStreamException {
    Geometry counterClockwise =
        Orientation.isCCW(ring.getCoordinateSequence()) ? ring : ring.reverse();
    xml.open(role).open("LinearRing").text("coordinates", coordinates(counterClockwise));
    xml.close("LinearRing").close(role);
  }

  private static String coordinates(Geometry geometry) {
    return Arrays.stream(geometry.getCoordinates())
        .map(KmlWriter::position)
        .collect(Collectors.joining(" "));
  }

  private static String position(Coordinate point) {
    return degrees(point.x) + "," + degrees(point.y);
  }

  private static String degrees(double value) {
    return BigDecimal.valueOf(value)
        .setScale(DEGREE_DECIMALS, RoundingMode.HALF_UP)
        .toPlainString();
  }

  private static String shown(Object value) {
    if (value == null) {
      return null;
    }
    return value instanceof Double number
        ? BigDecimal.valueOf(number).toPlainString()
        : CleanText.withoutMarkup(CleanText.of(value.toString()));
  }

  /** KML's order of a colour's parts: opacity, blue, green, red. */
  private static String color(String rgb, double opacity) {
    return String.format(Locale.ROOT, "%02x", Math.round(opacity * 255))
        + (rgb.substring(5, 7) + rgb.substring(3, 5) + rgb.substring(1, 3))
            .toLowerCase(Locale.ROOT);
  }

  private static String styleId(Layer layer, int rule) {
    return layer.name() + "-" + (rule + 1);
  }

  private static String schemaId(Layer layer) {
    return layer.name() + "-fields";
  }
}
