package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.site.BadInputException;
import org.yardfall.site.ShotInput;

/** LandXML in the elements of its schema (landxml.org, versions 1.1 and 1.2); places invented. */
class LandXmlTest {

  private static final String FACES =
      """
      <Pnts><P id="1">100 200 50</P><P id="2">100 210 51</P><P id="3">110 200 52</P>\
      <P id="4">110 210 53</P></Pnts>
      <Faces><F>1 2 3</F><F i="1">2 3 4</F></Faces>
      """;

  @TempDir Path folder;

  private Path file(String version, String units, String body) throws IOException {
    return Files.writeString(
        folder.resolve("survey.xml"),
        "<?xml version=\"1.0\"?>\n<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-"
            + version
            + "\" version=\""
            + version
            + "\"><Units>"
            + units
            + "</Units>"
            + body
            + "</LandXML>");
  }

  private static String surface(String name, String definition) {
    return "<Surfaces><Surface name=\""
        + name
        + "\"><Definition surfType=\"TIN\">"
        + definition
        + "</Definition></Surface></Surfaces>";
  }

  private static Shots read(Path file, String surface) {
    return ShotFile.read(
        file,
        null,
        new ShotUnits(OptionalDouble.empty(), OptionalDouble.empty(), 1),
        new ExpectedPlace(null, ""),
        surface);
  }

  private static void checkRefused(Path file, String... words) {
    BadInputException refusal = assertThrows(BadInputException.class, () -> read(file, null));
    for (String word : words) {
      assertTrue(refusal.getMessage().contains(word), refusal.getMessage());
    }
  }

  @Test
  void pointsAreNorthingEastingElevationInTheFilesFoot() throws IOException {
    Shots shots =
        read(
            file(
                "1.1",
                "<Imperial linearUnit=\"foot\"/>",
                "<CgPoints><CgPoint name=\"7\" code=\"FL\" desc=\"gutter\">1000 2000 100</CgPoint>"
                    + "<CgPoint name=\"8\" pntRef=\"7\"/><CgPoint name=\"9\">1010 2000</CgPoint>"
                    + "</CgPoints>"),
            null);
    assertEquals(
        "[Shot[id=7, x=609.6, y=304.8, z=30.48, code=FL gutter]]", shots.shots().toString());
    assertTrue(shots.warnings().get(0).contains("want of an elevation: 9"));
  }

  @Test
  void theUsSurveyFootHasItsOwnName() throws IOException {
    Shots shots =
        read(
            file(
                "1.2",
                "<Imperial linearUnit=\"USSurveyFoot\"/>",
                "<CgPoints><CgPoint name=\"7\">3937 7874 3937</CgPoint></CgPoints>"),
            null);
    assertEquals(1200, shots.shots().get(0).z(), 1e-9);
    assertEquals(2400, shots.shots().get(0).x(), 1e-9);
  }

  @Test
  void aSurfaceIsTakenAsTriangulatedWithoutItsInvisibleFaces() throws IOException {
    Shots shots = read(file("1.2", "<Metric linearUnit=\"meter\"/>", surface("EG", FACES)), null);
    ShotSurface surface = ShotSurface.of(shots, ShotInput.NONE);
    assertEquals(1, surface.tin().triangles());
    ElevationGrid grid = surface.tin().grid(new GridFrame(10, 10, 200, 110, 1));
    // z = 50 + (easting − 200)/10 + 2 (northing − 100)/10 on the one visible face.
    assertEquals(50 + 0.25 + 0.3, grid.at(2, 8), 1e-5);
    assertTrue(Float.isNaN(grid.at(9, 0)));
  }

  @Test
  void surfacesThatCannotBothBeRightAreNotBlended() throws IOException {
    Path file =
        file(
            "1.1",
            "<Metric linearUnit=\"meter\"/>",
            surface("EG", FACES) + surface("FG", FACES.replaceAll(" 5(\\d)<", " 35$1<")));
    checkRefused(file, "several surfaces (EG, FG)", "cannot both be ground", "elevation.surface");
    Shots named = read(file, "fg");
    assertEquals(350, named.tin().orElseThrow().z()[0]);
    assertTrue(named.warnings().get(0).contains("only fg is used"));
  }

  @Test
  void aRealSurveysFeetAreTheInternationalOnes() throws Exception {
    // Its control points carry their elevations in metres in their descriptions, BAR[245.538].
    Shots shots = read(survey("creek.xml"), null);
    int proved = 0;
    for (Shot shot : shots.shots()) {
      Matcher metres = Pattern.compile("BAR\\[([0-9.]+)\\]").matcher(shot.code());
      if (metres.find()) {
        double tail = Math.abs(shot.z() - Double.parseDouble(metres.group(1)));
        proved += tail < 1e-9 ? 1 : 0;
        // The US survey foot would be off by 2 parts in a million, half a millimetre here.
        assertTrue(tail < 0.001, shot.toString());
      }
    }
    assertTrue(proved >= 10, "proved by " + proved);
    Shot culvert =
        shots.shots().stream().filter(s -> s.id().equals("1029")).findFirst().orElseThrow();
    assertEquals("BINV S", culvert.code());
    assertEquals(802.524953807 * 0.3048, culvert.z(), 1e-9);
    assertEquals(52, shots.shots().size());
  }

  @Test
  void aRealFilesTwoSurfacesAreNotBlended() throws Exception {
    checkRefused(
        survey("two-surfaces.xml"), "several surfaces (EG, FG)", "cannot both be ground of one");
    Shots ground = read(survey("two-surfaces.xml"), "EG");
    assertEquals(40, ground.tin().orElseThrow().triangles());
    assertTrue(ground.warnings().get(0).contains("only EG is used"), ground.warnings().toString());
  }

  private static Path survey(String name) throws Exception {
    return Path.of(LandXmlTest.class.getResource("survey/" + name).toURI());
  }

  @Test
  void breaklinesOfASurfaceWithoutFacesAreKept() throws IOException {
    Shots shots =
        read(
            file(
                "1.2",
                "<Metric linearUnit=\"meter\"/>",
                "<Surfaces><Surface name=\"S\"><SourceData><DataPoints><PntList3D>"
                    + "0 0 1 0 9 1 9 0 1 9 9 1</PntList3D></DataPoints><Breaklines><Breakline"
                    + " brkType=\"standard\"><PntList3D>2 2 1 7 7 2</PntList3D></Breakline>"
                    + "</Breaklines></SourceData></Surface></Surfaces>"),
            null);
    assertEquals(6, shots.shots().size());
    assertEquals("LINESTRING (2 2, 7 7)", shots.breaklines().get(0).toText());
  }

  @Test
  void eastingFirstOnALotIsRefused() throws IOException {
    Path file =
        file(
            "1.2",
            "<Metric linearUnit=\"meter\"/>",
            "<CgPoints><CgPoint name=\"7\">500000 4980000 100</CgPoint></CgPoints>");
    BadInputException refusal =
        assertThrows(
            BadInputException.class,
            () ->
                ShotFile.read(
                    file,
                    null,
                    ShotUnits.METRES,
                    new GeometryFactory()
                        .toGeometry(new Envelope(500_000, 500_040, 4_980_000, 4_980_030))));
    assertTrue(refusal.getMessage().contains("elevation.columns: ENZ"), refusal.getMessage());
  }

  @Test
  void externalEntitiesAreNotFollowed() throws IOException {
    Path secret = Files.writeString(folder.resolve("secret.txt"), "1 2 3");
    Path file =
        Files.writeString(
            folder.resolve("entity.xml"),
            "<!DOCTYPE LandXML [<!ENTITY e SYSTEM \""
                + secret.toUri()
                + "\">]><LandXML><CgPoints><CgPoint name=\"1\">&e;</CgPoint></CgPoints></LandXML>");
    assertThrows(BadInputException.class, () -> read(file, null));
  }

  @Test
  void otherXmlAndBrokenXmlAreRefused() throws IOException {
    Path gpx = Files.writeString(folder.resolve("a.xml"), "<gpx></gpx>");
    checkRefused(gpx, "not LandXML");
    Path cut = Files.writeString(folder.resolve("b.xml"), "<LandXML><CgPoints>");
    checkRefused(cut, "not well-formed");
  }

  @Test
  void aFaceWithoutItsPointIsRefused() throws IOException {
    checkRefused(
        file(
            "1.2",
            "<Metric linearUnit=\"meter\"/>",
            surface("EG", FACES.replace("1 2 3<", "1 2 9<"))),
        "names points that it does not hold");
  }
}
