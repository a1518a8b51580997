package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import javax.xml.transform.stream.StreamSource;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/** What is written against OGC 02-070 (Styled Layer Descriptor 1.0.0). */
class SldWriterTest {

  private static final String SLD = "http://www.opengis.net/sld";
  private static final String OGC = "http://www.opengis.net/ogc";

  @Test
  void everyLayersStyleHoldsItsRules() throws Exception {
    for (Layer layer : LayerSet.of(ResultFixture.metric()).layers()) {
      Document sld = read(SldWriter.write(layer));
      assertEquals("1.0.0", sld.getDocumentElement().getAttribute("version"));
      assertEquals(layer.name(), sld.getElementsByTagNameNS(SLD, "Name").item(0).getTextContent());
      NodeList rules = sld.getElementsByTagNameNS(SLD, "Rule");
      List<LayerStyle.Rule> expected = LayerStyle.of(layer.name()).rules();
      assertEquals(expected.size(), rules.getLength());
      for (int i = 0; i < expected.size(); i++) {
        checkRule(layer, expected.get(i), (Element) rules.item(i), expected.size() == 1);
      }
    }
  }

  /** The schema of OGC 02-070. */
  @Test
  void theStandardsSchemaHasNothingAgainstIt() throws Exception {
    OgcSchema schema = new OgcSchema(OgcSchema.SLD_1_0);
    for (Layer layer : LayerSet.of(ResultFixture.metric()).layers()) {
      String sld = SldWriter.write(layer);
      assertEquals(List.of(), schema.faults(new StreamSource(new StringReader(sld))), layer.name());
    }
  }

  private static void checkRule(Layer layer, LayerStyle.Rule expected, Element rule, boolean only) {
    assertEquals(1, rule.getElementsByTagNameNS(SLD, symbolizer(layer.shape())).getLength());
    if (expected.test().isPresent()) {
      String field = text(rule, OGC, "PropertyName");
      assertEquals(expected.test().get().field(), field);
      assertTrue(layer.indexOf(field) >= 0);
      assertEquals(expected.test().get().value(), text(rule, OGC, "Literal"));
    } else {
      assertEquals(only ? 0 : 1, rule.getElementsByTagNameNS(SLD, "ElseFilter").getLength());
    }
  }

  private static String symbolizer(Layer.Shape shape) {
    return switch (shape) {
      case POINT, POINT_Z -> "PointSymbolizer";
      case LINE, LINE_Z -> "LineSymbolizer";
      case AREA -> "PolygonSymbolizer";
    };
  }

  private static String text(Element parent, String namespace, String name) {
    return parent.getElementsByTagNameNS(namespace, name).item(0).getTextContent();
  }

  private static Document read(String xml)
      throws IOException, ParserConfigurationException, SAXException {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
    factory.setNamespaceAware(true);
    return factory.newDocumentBuilder().parse(new InputSource(new StringReader(xml)));
  }
}
