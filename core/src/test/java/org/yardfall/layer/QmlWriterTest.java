package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.StringReader;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** What QGIS 3.22 reads of a style; that it draws so was seen there, not here. */
class QmlWriterTest {

  @Test
  void everyRuleHasItsSymbol() throws Exception {
    for (Layer layer : LayerSet.of(ResultFixture.metric()).layers()) {
      Document style = read(QmlWriter.write(layer));
      List<LayerStyle.Rule> expected = LayerStyle.of(layer.name()).rules();
      NodeList rules = style.getElementsByTagName("rule");
      NodeList symbols = style.getElementsByTagName("symbol");
      assertEquals(expected.size(), rules.getLength());
      assertEquals(expected.size(), symbols.getLength());
      for (int i = 0; i < expected.size(); i++) {
        Element rule = (Element) rules.item(i);
        assertEquals(expected.get(i).title(), rule.getAttribute("label"));
        assertEquals(((Element) symbols.item(i)).getAttribute("name"), rule.getAttribute("symbol"));
      }
    }
  }

  @Test
  void filtersColoursAndDashesAreSaid() throws Exception {
    Document style = read(QmlWriter.write(LayerSet.of(ResultFixture.metric()).layer("inflow")));
    Element out = (Element) style.getElementsByTagName("rule").item(1);
    assertEquals("\"direction\" = 'out'", out.getAttribute("filter"));
    Element symbol = (Element) style.getElementsByTagName("symbol").item(1);
    assertEquals("line", symbol.getAttribute("type"));
    assertEquals("0,114,178,255", option(symbol, "line_color")); // #0072B2
    assertEquals("dash", option(symbol, "line_style"));
  }

  @Test
  void theRuleForAllOthersComesWithoutAFilterOfItsOwn() throws Exception {
    Document style = read(QmlWriter.write(LayerSet.of(ResultFixture.metric()).layer("obstacles")));
    NodeList rules = style.getElementsByTagName("rule");
    assertEquals("ELSE", ((Element) rules.item(rules.getLength() - 1)).getAttribute("filter"));
  }

  private static String option(Element symbol, String name) {
    NodeList options = symbol.getElementsByTagName("Option");
    for (int i = 0; i < options.getLength(); i++) {
      if (((Element) options.item(i)).getAttribute("name").equals(name)) {
        return ((Element) options.item(i)).getAttribute("value");
      }
    }
    return "";
  }

  private static Document read(String xml) throws Exception {
    return DocumentBuilderFactory.newDefaultInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(xml)));
  }
}
