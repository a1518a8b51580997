package org.yardfall.layer;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import javax.xml.stream.XMLStreamException;

/**
 * Writes the style of a layer as the XML in which the desktop GIS QGIS keeps styles: it applies one
 * at once that it finds marked as the default beside a layer in a GeoPackage, which it does not do
 * with SLD.
 */
final class QmlWriter {

  private QmlWriter() {}

  /** The style of a layer as a document. */
  static String write(Layer layer) {
    List<LayerStyle.Rule> rules = LayerStyle.of(layer.name()).rules();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (XmlFile xml = new XmlFile(bytes)) {
      xml.open("qgis", "version", "3.22.0", "styleCategories", "Symbology");
      xml.open("renderer-v2", "type", "RuleRenderer");
      xml.open("rules", "key", "all");
      for (int i = 0; i < rules.size(); i++) {
        writeRule(xml, rules.get(i), i, rules.size() == 1);
      }
      xml.close("rules").open("symbols");
      for (int i = 0; i < rules.size(); i++) {
        writeSymbol(xml, layer.shape(), rules.get(i).symbol(), i);
      }
      xml.close("symbols").close("renderer-v2").close("qgis");
    } catch (XMLStreamException e) {
      throw new IllegalStateException("style of layer " + layer.name(), e);
    }
    return bytes.toString(StandardCharsets.UTF_8);
  }

  private static void writeRule(XmlFile xml, LayerStyle.Rule rule, int index, boolean only)
      throws XMLStreamException {
    String filter =
        rule.test()
            .map(test -> "\"%s\" = '%s'".formatted(test.field(), test.value()))
            .orElse(only ? "" : "ELSE");
    xml.empty(
        "rule",
        "key",
        "rule" + index,
        "symbol",
        String.valueOf(index),
        "label",
        rule.title(),
        "filter",
        filter);
  }

  private static void writeSymbol(XmlFile xml, Layer.Shape shape, Symbol symbol, int index)
      throws XMLStreamException {
    String[] kind =
        switch (shape) {
          case AREA -> new String[] {"fill", "SimpleFill"};
          case LINE, LINE_Z -> new String[] {"line", "SimpleLine"};
          case POINT, POINT_Z -> new String[] {"marker", "SimpleMarker"};
        };
    xml.open("symbol", "type", kind[0], "name", String.valueOf(index));
    xml.open("layer", "class", kind[1], "enabled", "1", "pass", "0");
    xml.open("Option", "type", "Map");
    String line = kind[0].equals("line") ? "line" : "outline";
    option(xml, line + "_color", colour(symbol.stroke(), 1));
    option(xml, line + "_style", symbol.dashed() ? "dash" : "solid");
    option(xml, line + "_width", String.valueOf(symbol.widthPx()));
    option(xml, line + "_width_unit", "Pixel");
    option(xml, "color", colour(symbol.fill().orElse(symbol.stroke()), symbol.fillOpacity()));
    option(xml, "style", symbol.fill().isPresent() ? "solid" : "no");
    if (kind[0].equals("marker")) {
      option(xml, "name", symbol.mark());
      option(xml, "size", String.valueOf(symbol.sizePx()));
      option(xml, "size_unit", "Pixel");
    }
    xml.close("Option").close("layer").close("symbol");
  }

  private static void option(XmlFile xml, String name, String value) throws XMLStreamException {
    xml.empty("Option", "type", "QString", "name", name, "value", value);
  }

  /** Red, green, blue and opacity, each of 255. */
  private static String colour(String rgb, double opacity) {
    int value = Integer.parseInt(rgb.substring(1), 16);
    return String.format(
        Locale.ROOT,
        "%d,%d,%d,%d",
        value >> 16,
        value >> 8 & 0xFF,
        value & 0xFF,
        Math.round(opacity * 255));
  }
}
