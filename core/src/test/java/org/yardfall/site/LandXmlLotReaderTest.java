package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;

/** Outlines of LandXML: a real subdivision's (NOTICE beside it), and small ones of our own. */
class LandXmlLotReaderTest {

  private static final String CRS = "EPSG:26915";

  @TempDir private Path folder;

  private static VectorLayer read(Path file, String crs) {
    return VectorReader.read(new LayerSource(file, null, crs, null, null));
  }

  private VectorLayer read(String units, String body) throws IOException {
    Path file =
        Files.writeString(
            folder.resolve("lots.xml"),
            "<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\"><Units>"
                + units
                + "</Units>"
                + body
                + "</LandXML>");
    return read(file, CRS);
  }

  @Test
  void aRealSubdivisionsLotsHaveTheAreasThatTheFileGives() throws IOException, URISyntaxException {
    Path file = Path.of(getClass().getResource("/org/yardfall/elevation/survey/lots.xml").toURI());
    VectorLayer layer = read(file, CRS);
    assertEquals(12, layer.features().size());
    Matcher given =
        Pattern.compile("<Parcel name=\"([^\"]+)\" area=\"([0-9.]+)\"")
            .matcher(Files.readString(file));
    for (VectorFeature lot : layer.features()) {
      assertTrue(given.find());
      assertEquals(given.group(1), lot.attribute("name").orElseThrow());
      Geometry outline = lot.geometry();
      assertTrue(outline.isValid(), given.group(1));
      double squareFeet = Double.parseDouble(given.group(2));
      // An arc's chords lie up to 5 mm off it: at most that over the outline's length.
      double off = 0.005 * outline.getLength();
      assertEquals(squareFeet * 0.3048 * 0.3048, outline.getArea(), off);
    }
  }

  @Test
  void anArcTurnsTheWayItSays() throws IOException {
    // A square of 10 m whose north side is a half circle outward (ccw, walked from east to west).
    String lot =
        """
        <Parcels><Parcel name="A"><CoordGeom>
        <Line><Start>0 0</Start><End>0 10</End></Line>
        <Line><Start>0 10</Start><End>10 10</End></Line>
        <Curve rot="%s"><Start>10 10</Start><Center>10 5</Center><End>10 0</End></Curve>
        <Line><Start>10 0</Start><End>0 0</End></Line>
        </CoordGeom></Parcel></Parcels>
        """;
    double half = Math.PI * 25 / 2;
    String metric = "<Metric linearUnit=\"meter\"/>";
    assertEquals(100 + half, area(read(metric, lot.formatted("ccw"))), 0.005 * 16);
    assertEquals(100 - half, area(read(metric, lot.formatted("cw"))), 0.005 * 16);
  }

  @Test
  void feetBecomeTheUnitOfTheCrsAndEndsMayBePoints() throws IOException {
    VectorLayer layer =
        read(
            "<Imperial linearUnit=\"USSurveyFoot\"/>",
            """
            <CgPoints><CgPoint name="p">3937 0 5</CgPoint></CgPoints>
            <PlanFeatures><PlanFeature name="fence"><CoordGeom>
            <Line><Start>0 0</Start><End pntRef="p"/></Line>
            </CoordGeom></PlanFeature></PlanFeatures>
            """);
    Geometry fence = layer.features().get(0).geometry();
    assertEquals("LineString", fence.getGeometryType());
    assertEquals(0, fence.getCoordinates()[1].distance(new Coordinate(0, 1200)), 1e-9);
  }

  private static double area(VectorLayer layer) {
    return layer.features().get(0).geometry().getArea();
  }

  @Test
  void whatCannotBeFollowedIsRefused() throws IOException {
    String metric = "<Metric linearUnit=\"meter\"/>";
    checkRefused("", "", "does not name its unit");
    checkRefused("<Metric linearUnit=\"cubit\"/>", "", "'cubit' is unknown");
    checkRefused(metric, "", "no features");
    checkRefused(metric, lot("<Spiral/>"), "has a Spiral");
    checkRefused(metric, lot("<Line><Start>0 x</Start><End>0 1</End></Line>"), "'x' in a Start");
    checkRefused(metric, lot("<Line><Start>0 0</Start></Line>"), "lacks its End");
    Path other = Files.writeString(folder.resolve("other.xml"), "<gpx/>");
    assertThrows(BadInputException.class, () -> read(other, CRS));
    Path unplaced =
        Files.writeString(
            folder.resolve("unplaced.xml"), "<LandXML><Units>" + metric + "</Units></LandXML>");
    BadInputException refusal = assertThrows(BadInputException.class, () -> read(unplaced, null));
    assertTrue(refusal.getMessage().contains("no projected CRS"), refusal.getMessage());
  }

  private static String lot(String pieces) {
    return "<Parcels><Parcel name=\"A\"><CoordGeom>" + pieces + "</CoordGeom></Parcel></Parcels>";
  }

  private void checkRefused(String units, String body, String words) {
    BadInputException refusal = assertThrows(BadInputException.class, () -> read(units, body));
    assertTrue(refusal.getMessage().contains(words), refusal.getMessage());
  }
}
