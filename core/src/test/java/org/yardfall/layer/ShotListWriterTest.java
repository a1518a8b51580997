package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.yardfall.fieldwork.FieldUnits;
import org.yardfall.fieldwork.ShotList;
import org.yardfall.fieldwork.ShotPlace;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;

/** Where to shoot, read back by means that know nothing of the writer. */
class ShotListWriterTest {

  private static final WorkingCrs CRS = CrsLookup.of("EPSG:26915");

  @TempDir Path folder;

  /** GPX 1.1: wptType's children come in the schema's order ele, name, desc, type. */
  @Test
  void wayPointsAreGpxAsItsSchemaOrdersThem() throws Exception {
    ShotListWriter.write(list(), FieldUnits.METRES, folder);
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setNamespaceAware(true);
    Element root =
        factory
            .newDocumentBuilder()
            .parse(folder.resolve("shot-list.gpx").toFile())
            .getDocumentElement();
    assertEquals("gpx", root.getLocalName());
    assertEquals("http://www.topografix.com/GPX/1/1", root.getNamespaceURI());
    assertEquals("1.1", root.getAttribute("version"));
    assertFalse(root.getAttribute("creator").isEmpty());
    NodeList points = root.getElementsByTagName("wpt");
    assertEquals(2, points.getLength());
    Element first = (Element) points.item(0);
    assertEquals("-93.1", first.getAttribute("lon").substring(0, 5));
    assertEquals(44.9, Double.parseDouble(first.getAttribute("lat")), 0.1);
    assertEquals(List.of("ele", "name", "desc", "type"), children(first));
    assertEquals("241.300", first.getElementsByTagName("ele").item(0).getTextContent());
    assertEquals(
        "invert of outlet <CB> & co: all falls to it",
        first.getElementsByTagName("desc").item(0).getTextContent());
  }

  /** RFC 7946: longitude before latitude, elevation third; missing bounds are null. */
  @Test
  void theMapLayerIsGeoJson() throws Exception {
    ShotListWriter.write(list(), FieldUnits.METRES, folder);
    JsonNode root = new ObjectMapper().readTree(folder.resolve("shot-list.geojson").toFile());
    assertEquals(2, root.path("features").size());
    JsonNode first = root.path("features").get(0);
    assertEquals(241.3, first.at("/geometry/coordinates/2").asDouble(), 1e-9);
    assertTrue(first.at("/geometry/coordinates/0").asDouble() < -93);
    assertTrue(first.at("/properties/from_m").isNull());
    assertEquals(241.55, first.at("/properties/to_m").asDouble(), 1e-9);
    assertEquals("outlet-invert", first.at("/properties/what").asText());
  }

  @Test
  void theTableHasOneLineAPlaceAndGuardsFormulas() throws Exception {
    ShotListWriter.write(list(), FieldUnits.FEET, folder);
    List<String> lines = Files.readAllLines(folder.resolve("shot-list.csv"));
    assertEquals(3, lines.size());
    assertTrue(lines.get(2).contains("'=cmd"), lines.get(2));
  }

  private static ShotList list() {
    PlaneTransform wgs84 = PlaneTransform.toWgs84(CRS);
    Coordinate outlet = new Coordinate(490_000, 4_970_000);
    Coordinate top = new Coordinate(490_030, 4_970_010);
    return new ShotList(
        CRS,
        0.1,
        List.of(
            new ShotPlace(
                "P1",
                ShotPlace.What.OUTLET_INVERT,
                outlet,
                wgs84.apply(outlet),
                241.3,
                Double.NaN,
                241.55,
                List.of("invert of outlet <CB> & co: all falls to it"),
                List.of("R1", "R2")),
            new ShotPlace(
                "P2",
                ShotPlace.What.GROUND,
                top,
                wgs84.apply(top),
                242.1,
                241.9,
                Double.NaN,
                List.of("=cmd|' /C calc'!A0"),
                List.of("R1"))));
  }

  private static List<String> children(Element element) {
    List<String> names = new ArrayList<>();
    for (Node node = element.getFirstChild(); node != null; node = node.getNextSibling()) {
      if (node instanceof Element child) {
        names.add(child.getLocalName());
      }
    }
    return names;
  }
}
