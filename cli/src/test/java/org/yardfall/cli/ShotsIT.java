package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A yard that is known by survey shots alone, through the real command; it is invented. */
class ShotsIT {

  private static final String SITE =
      """
      site: { crs: EPSG:26915 }
      elevation: { shots: shots.csv%s }
      parcels: { file: lot.geojson, id: LOT, lot: "1" }
      """;

  private static final String CODES =
      ", codes: { CB: catch-basin, BLD: building-corner, FL: breakline }";

  @TempDir private Path yard;

  @BeforeEach
  void lot() throws IOException {
    Files.writeString(
        yard.resolve("lot.geojson"),
        """
        { "type": "FeatureCollection",
          "crs": { "type": "name", "properties": { "name": "EPSG:26915" } },
          "features": [ { "type": "Feature", "properties": { "LOT": "1" },
            "geometry": { "type": "Polygon", "coordinates": [ [ [500005, 4980005],
              [500035, 4980005], [500035, 4980030], [500005, 4980030], [500005, 4980005] ] ] } } ] }
        """);
    site("");
  }

  private void site(String more) throws IOException {
    Files.writeString(yard.resolve("site.yml"), SITE.formatted(more));
  }

  /** Point number, northing, easting, elevation: ground that falls 3 % to the south. */
  private static List<String> ground() {
    List<String> lines = new ArrayList<>();
    for (int i = 0; i < 81; i++) {
      int x = 5 * (i % 9);
      int y = 5 * (i / 9);
      lines.add(
          String.format(
              Locale.ROOT, "%d,%d,%d,%.2f", i + 1, 4_980_000 + y, 500_000 + x, 240 + 0.03 * y));
    }
    return lines;
  }

  @Test
  void codedShotsAreOutletAndHouseOfThePlan() throws IOException {
    List<String> shots = ground();
    shots.add("201,4980018,500015,240.6,BLD");
    shots.add("202,4980018,500025,240.6,BLD");
    shots.add("203,4980025,500025,240.8,BLD");
    shots.add("204,4980025,500015,240.8,BLD");
    shots.add("301,4980002,500020,239.00,CB street basin");
    Files.write(yard.resolve("shots.csv"), shots);
    site(CODES);
    Starter.Run run = Starter.run(yard, "plan", "site.yml", "--out", "out");
    assertEquals("", run.err());
    assertEquals(Yardfall.DONE, run.exit(), run.out());
    JsonNode results = new ObjectMapper().readTree(yard.resolve("out/results.json").toFile());
    assertEquals("301", results.at("/routes/0/outletId").asText());
    assertEquals(239.0, results.at("/outlets/0/invertM").asDouble());
    String assumed = results.get("assumptions").toString();
    assertTrue(assumed.contains("corners 201, 202, 203, 204"), assumed);
    assertTrue(assumed.contains("PNEZ"), assumed);
    // The folder's own site file plans the same again.
    Starter.Run again = Starter.run(yard, "plan", "out/site.yml", "--quiet", "--out", "again");
    assertEquals("", again.err());
    JsonNode second = new ObjectMapper().readTree(yard.resolve("again/results.json").toFile());
    assertEquals(results.get("routes"), second.get("routes"));
  }

  @Test
  void aDrawnLineMayLeadToAnOutletThatIsOnlyShot() throws IOException {
    List<String> shots = ground();
    shots.add("301,4980002,500020,239.00,CB street basin");
    Files.write(yard.resolve("shots.csv"), shots);
    site(CODES);
    drawn("301");
    Starter.Run run =
        Starter.run(yard, "plan", "site.yml", "--pinned", "mine.geojson", "--out", "out");
    assertEquals("", run.err());
    assertEquals(Yardfall.DONE, run.exit(), run.out());
    JsonNode route =
        new ObjectMapper().readTree(yard.resolve("out/results.json").toFile()).at("/routes/0");
    assertEquals("pinned", route.get("kind").asText());
    assertEquals("301", route.get("outletId").asText());
    assertEquals(26, route.get("lengthM").asDouble(), 1e-3);
    drawn("302");
    for (String command : List.of("plan", "check")) {
      List<String> arguments = new ArrayList<>(List.of(command, "site.yml"));
      arguments.addAll(List.of("--pinned", "mine.geojson"));
      arguments.addAll(command.equals("plan") ? List.of("--out", "no") : List.of());
      Starter.Run refused = Starter.run(yard, arguments.toArray());
      assertEquals(Yardfall.BAD_INPUT, refused.exit(), refused.err());
      assertEquals(1, refused.complaints().size(), refused.err());
      assertTrue(refused.err().contains("there is no outlet '302'"), refused.err());
    }
    assertFalse(Files.exists(yard.resolve("no")));
  }

  private void drawn(String outlet) throws IOException {
    Files.writeString(
        yard.resolve("mine.geojson"),
        """
        { "type": "FeatureCollection",
          "crs": { "type": "name", "properties": { "name": "EPSG:26915" } },
          "features": [ { "type": "Feature", "properties": { "id": "mine", "outlet": "%s" },
            "geometry": { "type": "LineString",
              "coordinates": [ [500020, 4980028], [500020, 4980002] ] } } ] }
        """
            .formatted(outlet));
  }

  @Test
  void checkRecognisesTheOrderAgainstTheLotAsPlanDoes() throws IOException {
    Files.write(yard.resolve("shots.csv"), ground());
    Starter.Run run = Starter.run(yard, "check", "site.yml");
    assertEquals(Yardfall.DONE, run.exit(), run.err());
    assertTrue(run.out().contains("columns PNEZ recognised against where the lot lies"));
  }

  @Test
  void contoursAreWrittenAtAnIntervalAndABadOneIsRefused() throws IOException {
    Files.write(yard.resolve("shots.csv"), ground());
    Starter.Run run =
        Starter.run(yard, "water", "site.yml", "--contours", "0.25 m", "--out", "out");
    assertEquals("", run.err());
    JsonNode lines =
        new ObjectMapper().readTree(yard.resolve("out/layers/contours.geojson").toFile());
    // 40 m at 3 % rise from 240.00 to 241.20 m; at the hull's edge cells are not known.
    assertEquals("[240.25, 240.5, 240.75, 241.0]", elevations(lines).toString());
    for (String bad : List.of("0", "wide")) {
      Starter.Run no = Starter.run(yard, "water", "site.yml", "--contours", bad, "--out", "no");
      assertEquals(Yardfall.BAD_INPUT, no.exit(), no.err());
      assertEquals(1, no.complaints().size(), no.err());
      assertFalse(Files.exists(yard.resolve("no")));
    }
  }

  private static Set<Double> elevations(JsonNode lines) {
    Set<Double> found = new TreeSet<>();
    lines.get("features").forEach(line -> found.add(line.at("/properties/elev_m").asDouble()));
    return found;
  }

  @Test
  void aFileOfAnotherEncodingIsReadAndSaid() throws IOException {
    String text = "\uFEFF" + String.join("\r\n", ground());
    Files.write(yard.resolve("shots.csv"), text.getBytes(StandardCharsets.UTF_16LE));
    Starter.Run run = Starter.run(yard, "check", "site.yml");
    assertEquals(Yardfall.DONE, run.exit(), run.err());
    assertTrue(run.out().contains("UTF-16LE"), run.out());
  }

  @Test
  void shotsThatMakeNoGroundAreRefused() throws IOException {
    refused(ground().subList(0, 1), "a single shot makes no surface");
    refused(ground().subList(0, 2), "2 shots on the ground make no surface");
    refused(ground().subList(0, 9), "all its shots lie on one line");
    refused(edited("(.*),[0-9.]+$", "$1,-9999"), "no shot with an elevation");
    refused(edited("(.*),[0-9.]+$", "$1,0"), "every elevation in it is 0");
  }

  @Test
  void northingAndEastingInTheWrongOrderAreNamed() throws IOException {
    site(", columns: PENZ");
    refused(ground(), "northing and easting look swapped", "elevation.columns: PNEZ");
  }

  @Test
  void aFileHalfInFeetIsNamedByItsPoints() throws IOException {
    List<String> shots = ground();
    for (int i = 0; i < 40; i++) {
      String[] cells = shots.get(i).split(",", -1);
      shots.set(
          i,
          String.format(
              Locale.ROOT,
              "%s,%.2f,%.2f,%.2f",
              cells[0],
              Double.parseDouble(cells[1]) / 0.3048,
              Double.parseDouble(cells[2]) / 0.3048,
              Double.parseDouble(cells[3]) / 0.3048));
    }
    refused(shots, "partly in feet, partly in metres", "40 of 81");
  }

  @Test
  void whatIsNoFileOfShotsIsRefused() throws IOException {
    byte[] noise = new byte[1 << 20];
    new Random(5).nextBytes(noise);
    Files.write(yard.resolve("shots.csv"), noise);
    refused("it is not text");
    System.arraycopy("LASF".getBytes(StandardCharsets.US_ASCII), 0, noise, 0, 4);
    Files.write(yard.resolve("shots.csv"), noise);
    refused("its header is damaged");
    Files.writeString(yard.resolve("shots.csv"), "<?xml version=\"1.0\"?><gpx/>");
    refused("not LandXML");
  }

  private List<String> edited(String pattern, String with) {
    return ground().stream().map(line -> line.replaceFirst(pattern, with)).toList();
  }

  private void refused(List<String> shots, String... words) throws IOException {
    Files.write(yard.resolve("shots.csv"), shots);
    refused(words);
  }

  private void refused(String... words) throws IOException {
    Starter.Run run = Starter.run(yard, "plan", "site.yml", "--out", "out");
    assertEquals(Yardfall.BAD_INPUT, run.exit(), run.err());
    assertEquals(1, run.complaints().size(), run.err());
    for (String word : words) {
      assertTrue(run.err().contains(word), run.err());
    }
    assertFalse(Files.exists(yard.resolve("out")));
  }
}
