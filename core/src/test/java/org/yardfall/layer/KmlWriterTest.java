package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import javax.xml.transform.dom.DOMSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.SAXException;

/** What is written against OGC 07-147r2 (KML 2.2). */
class KmlWriterTest {

  private static final String KML = "http://www.opengis.net/kml/2.2";

  @TempDir Path folder;

  @Test
  void thereIsAFolderForEachLayerWithItsFeatures() throws Exception {
    Result result = ResultFixture.metric();
    NodeList folders = write(result).getElementsByTagNameNS(KML, "Folder");
    List<Layer> layers = LayerSet.of(result).layers();
    assertEquals(layers.size(), folders.getLength());
    for (int i = 0; i < layers.size(); i++) {
      Element folderOfLayer = (Element) folders.item(i);
      assertEquals(layers.get(i).name(), text(folderOfLayer, "name"));
      assertEquals(
          layers.get(i).features().size(),
          folderOfLayer.getElementsByTagNameNS(KML, "Placemark").getLength());
    }
  }

  /** The schema of OGC 07-147r2. */
  @Test
  void theStandardsSchemaHasNothingAgainstIt() throws Exception {
    OgcSchema schema = new OgcSchema(OgcSchema.KML_2_2);
    for (Result result :
        List.of(
            ResultFixture.metric(),
            ResultFixture.usFeet(),
            ResultFixture.empty(),
            ResultFixture.withIds(HostileText.ID))) {
      assertEquals(List.of(), schema.faults(new DOMSource(write(result))));
    }
    Document kml = write(ResultFixture.metric());
    all(kml, "Placemark").get(0).appendChild(kml.createElementNS(KML, "visibility"));
    assertFalse(schema.faults(new DOMSource(kml)).isEmpty());
  }

  @Test
  void anOutletLiesOnTheRightSpot() throws Exception {
    // 500055, 4983002 of EPSG:26915 by cs2cs -f %.10f EPSG:26915 EPSG:4326
    Document kml = write(ResultFixture.metric());
    NodeList points = kml.getElementsByTagNameNS(KML, "Point");
    String[] at = text((Element) points.item(points.getLength() - 3), "coordinates").split(",", 2);
    assertEquals(-92.9993021603, Double.parseDouble(at[0]), 1e-8);
    assertEquals(45.0004644963, Double.parseDouble(at[1]), 1e-8);
  }

  @Test
  void childrenStandInTheOrderTheStandardAsks() throws Exception {
    Document kml = write(ResultFixture.metric());
    checkOrder(kml, "Document", "name", "Style", "Schema", "Folder");
    checkOrder(kml, "Folder", "name", "visibility", "description", "Placemark");
    checkOrder(
        kml,
        "Placemark",
        "name",
        "visibility",
        "styleUrl",
        "ExtendedData",
        "Point",
        "LineString",
        "MultiGeometry");
    checkOrder(kml, "Style", "IconStyle", "LineStyle", "PolyStyle");
    checkOrder(kml, "Polygon", "tessellate", "outerBoundaryIs", "innerBoundaryIs");
    checkOrder(kml, "LineString", "tessellate", "coordinates");
  }

  @Test
  void everyStyleAndSchemaThatIsNamedIsThere() throws Exception {
    Document kml = write(ResultFixture.metric());
    Set<String> ids = new HashSet<>();
    for (String element : List.of("Style", "Schema")) {
      for (Element e : all(kml, element)) {
        assertTrue(ids.add("#" + e.getAttribute("id")), "twice: " + e.getAttribute("id"));
      }
    }
    all(kml, "styleUrl").forEach(e -> assertTrue(ids.contains(e.getTextContent())));
    all(kml, "SchemaData").forEach(e -> assertTrue(ids.contains(e.getAttribute("schemaUrl"))));
  }

  @Test
  void noMarkupIsLeftInTextThatAViewerShowsAsHtml() throws Exception {
    Document kml = write(ResultFixture.withIds(HostileText.ID + "\0\uD800"));
    assertFalse(kml.getDocumentElement().getTextContent().contains("<"));
    assertTrue(kml.getDocumentElement().getTextContent().contains("\u2039script\u203A"));
  }

  private static void checkOrder(Document kml, String parent, String... order) {
    List<String> known = List.of(order);
    for (Element element : all(kml, parent)) {
      int last = 0;
      for (Node child = element.getFirstChild(); child != null; child = child.getNextSibling()) {
        if (child instanceof Element) {
          int at = known.indexOf(child.getLocalName());
          assertTrue(at >= last, parent + " has " + child.getLocalName() + " out of order");
          last = at;
        }
      }
    }
  }

  private static List<Element> all(Document kml, String name) {
    NodeList nodes = kml.getElementsByTagNameNS(KML, name);
    List<Element> elements = new ArrayList<>();
    for (int i = 0; i < nodes.getLength(); i++) {
      elements.add((Element) nodes.item(i));
    }
    return elements;
  }

  private static String text(Element parent, String name) {
    return parent.getElementsByTagNameNS(KML, name).item(0).getTextContent();
  }

  private Document write(Result result)
      throws IOException, ParserConfigurationException, SAXException {
    Path file = folder.resolve("site.kml");
    new KmlWriter(result.site().crs()).write("A <b>site</b>", LayerSet.of(result), file);
    DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
    factory.setNamespaceAware(true);
    return factory.newDocumentBuilder().parse(Files.newInputStream(file));
  }
}
