package org.yardfall.layer;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import javax.xml.stream.XMLStreamException;

/** Writes the style of a layer as a Styled Layer Descriptor 1.0 (OGC 02-070). */
final class SldWriter {

  private static final String NAMESPACE = "http://www.opengis.net/sld";
  private static final String FILTER_NAMESPACE = "http://www.opengis.net/ogc";

  private SldWriter() {}

  /** The style of a layer as a document. */
  static String write(Layer layer) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (XmlFile xml = new XmlFile(bytes)) {
      xml.open(
          "StyledLayerDescriptor",
          "version",
          "1.0.0",
          "xmlns",
          NAMESPACE,
          "xmlns:ogc",
          FILTER_NAMESPACE);
      xml.open("NamedLayer").text("Name", layer.name());
      xml.open("UserStyle").text("Title", layer.title()).open("FeatureTypeStyle");
      List<LayerStyle.Rule> rules = LayerStyle.of(layer.name()).rules();
      for (LayerStyle.Rule rule : rules) {
        writeRule(xml, layer.shape(), rule, rules.size() == 1);
      }
      xml.close("FeatureTypeStyle").close("UserStyle").close("NamedLayer");
      xml.close("StyledLayerDescriptor");
    } catch (XMLStreamException e) {
      throw new IllegalStateException("style of layer " + layer.name(), e);
    }
    return bytes.toString(StandardCharsets.UTF_8);
  }

  private static void writeRule(XmlFile xml, Layer.Shape shape, LayerStyle.Rule rule, boolean only)
      throws XMLStreamException {
    xml.open("Rule").text("Title", rule.title());
    Optional<LayerStyle.Test> test = rule.test();
    if (test.isPresent()) {
      xml.open("ogc:Filter").open("ogc:PropertyIsEqualTo");
      xml.text("ogc:PropertyName", test.get().field());
      xml.text("ogc:Literal", test.get().value());
      xml.close("ogc:PropertyIsEqualTo").close("ogc:Filter");
    } else if (!only) {
      xml.empty("ElseFilter");
    }
    Symbol symbol = rule.symbol();
    switch (shape) {
      case AREA -> {
        xml.open("PolygonSymbolizer");
        writeFill(xml, symbol);
        writeStroke(xml, symbol);
        xml.close("PolygonSymbolizer");
      }
      case LINE, LINE_Z -> {
        xml.open("LineSymbolizer");
        writeStroke(xml, symbol);
        xml.close("LineSymbolizer");
      }
      case POINT, POINT_Z -> {
        xml.open("PointSymbolizer").open("Graphic").open("Mark");
        xml.text("WellKnownName", symbol.mark());
        writeFill(xml, symbol);
        writeStroke(xml, symbol);
        xml.close("Mark").text("Size", number(symbol.sizePx()));
        xml.close("Graphic").close("PointSymbolizer");
      }
    }
    xml.close("Rule");
  }

  private static void writeFill(XmlFile xml, Symbol symbol) throws XMLStreamException {
    if (symbol.fill().isPresent()) {
      xml.open("Fill");
      parameter(xml, "fill", symbol.fill().get());
      parameter(xml, "fill-opacity", number(symbol.fillOpacity()));
      xml.close("Fill");
    }
  }

  private static void writeStroke(XmlFile xml, Symbol symbol) throws XMLStreamException {
    xml.open("Stroke");
    parameter(xml, "stroke", symbol.stroke());
    parameter(xml, "stroke-width", number(symbol.widthPx()));
    if (symbol.dashed()) {
      parameter(xml, "stroke-dasharray", "6 4");
    }
    xml.close("Stroke");
  }

  private static void parameter(XmlFile xml, String name, String value) throws XMLStreamException {
    xml.text("CssParameter", value, "name", name);
  }

  private static String number(double value) {
    return Double.toString(value);
  }
}
