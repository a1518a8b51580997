package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Yards for which no route can be planned, and lines that the user drew, through the real command:
 * what cannot be meant is refused in one line; what merely has no answer says why.
 */
class RouteInputIT {

  private static final String HOUSE =
      SmallYard.feature(
          "\"id\":\"H\"",
          "Polygon",
          "[[[500012,5000014],[500022,5000014],[500022,5000022],[500012,5000022],"
              + "[500012,5000014]]]");

  @TempDir private Path folder;

  private SmallYard yard;

  @BeforeEach
  void yard() throws IOException {
    yard = SmallYard.in(folder);
  }

  @Test
  void anOutletInsideTheHouse() throws IOException {
    outlet("at: [500017, 5000018], invert: 98.9 m");
    house();
    yard.refused("outlet CB1", "inside building H", "move it outside");
  }

  @Test
  void anOutletBehindAClosedFence() throws IOException {
    house();
    yard.write(
        "fence.geojson",
        SmallYard.layer(
            SmallYard.feature(
                "\"id\":\"F\",\"kind\":\"keep-out\",\"clearance\":\"0.5 m\"",
                "LineString",
                "[[500004,5000004],[500031,5000004],[500031,5000031],[500004,5000031],"
                    + "[500004,5000004]]")));
    yard.append("obstacles: { file: fence.geojson }\n");
    Starter.Run run = yard.plan();
    assertEquals("", run.err());
    assertEquals(Yardfall.NO_ANSWER, run.exit());
    JsonNode results = results();
    assertEquals(0, results.get("routes").size());
    for (JsonNode rejected : results.get("rejected")) {
      if (!rejected.get("outletId").asText().isEmpty()) {
        assertEquals("blocked", rejected.at("/reason/code").asText());
        assertTrue(rejected.at("/reason/sentence").asText().contains("keep-out F"));
      }
    }
    assertTrue(run.out().contains("none can be proposed"), run.out());
    assertTrue(Files.size(folder.resolve("out/plan.pdf")) > 1000);
    yard.nothingHalfWritten();
  }

  @Test
  void twoOutletsAtOnePoint() throws IOException {
    yard.append("  - { id: CB2, kind: catch-basin, at: [500017, 5000001], invert: 98.8 m }\n");
    yard.refused("CB1 and CB2", "same point", "keep one");
  }

  @Test
  void twoOutletsAHairApart() throws IOException {
    yard.append("  - { id: CB2, kind: catch-basin, at: [500017.004, 5000001] }\n");
    yard.refused("CB2", "same point", "CB1");
  }

  @Test
  void aLotWithoutABuildingHasNoCurtain() throws IOException {
    Starter.Run run = yard.plan();
    assertEquals(Yardfall.DONE, run.exit(), run.err());
    assertTrue(run.out().contains("No curtain drain: there is no building on the lot"), run.out());
    for (JsonNode route : results().get("routes")) {
      assertEquals("perimeter", route.get("kind").asText());
    }
  }

  @Test
  void aDrawnLineThatLeavesTheRaster() throws IOException {
    drawn("", "[[500017,5000025],[500060,5000020],[500017,5000001]]");
    yard.refused("pinned line mine", "leaves the known ground", "draw it inside");
  }

  @Test
  void aDrawnLineToAnOutletThatIsNotThere() throws IOException {
    drawn(",\"outlet\":\"CB7\"", "[[500028,5000027],[500017,5000001]]");
    yard.refused("pinned line mine", "no outlet 'CB7'", "name one of the outlets");
  }

  @Test
  void aDrawnLineThatJoinsALineThatIsNotThere() throws IOException {
    drawn(",\"joins\":\"B7\"", "[[500028,5000027],[500017,5000001]]");
    yard.refused("pinned line mine", "no line of it is part 'B7'", "name one of its parts");
  }

  @Test
  void aDrawnAreaIsNoDrain() throws IOException {
    yard.write("mine.geojson", SmallYard.layer(HOUSE));
    yard.append("pinned: { file: mine.geojson }\n");
    yard.refused("mine.geojson", "one line from its upper end to its outlet");
  }

  /** Everything about a drawn drain that can be built is written and reads back as drawn. */
  @Test
  void aDrawnLineThatWorksIsTheFirstRoute() throws IOException {
    house();
    drawn(",\"outlet\":\"CB1\"", "[[500028,5000027],[500028,5000008],[500017,5000001]]");
    Starter.Run run = yard.plan();
    assertEquals("", run.err());
    assertEquals(Yardfall.DONE, run.exit());
    assertTrue(
        run.out().replaceAll("\\s+", " ").contains("Graded as you drew it (line mine)."),
        run.out());
    JsonNode route = results().at("/routes/0");
    assertEquals("pinned", route.get("kind").asText());
    assertTrue(route.at("/audit/passed").asBoolean());
    double[][] drawn = {{500028, 5000027}, {500028, 5000008}, {500017, 5000001}};
    assertEquals(drawn.length, route.get("vertices").size());
    for (int i = 0; i < drawn.length; i++) {
      assertEquals(drawn[i][0], route.at("/vertices/" + i + "/0").asDouble(), 1e-3);
      assertEquals(drawn[i][1], route.at("/vertices/" + i + "/1").asDouble(), 1e-3);
    }
    double length = 19 + Math.hypot(11, 7);
    assertEquals(length, route.get("lengthM").asDouble(), 1e-3);
    for (int i = 1; i < route.get("stations").size(); i++) {
      double fall =
          route.at("/stations/" + (i - 1) + "/invertM").asDouble()
              - route.at("/stations/" + i + "/invertM").asDouble();
      double run1 =
          route.at("/stations/" + i + "/stationM").asDouble()
              - route.at("/stations/" + (i - 1) + "/stationM").asDouble();
      assertTrue(fall >= 0.01 * run1 - 1e-3, "station " + i);
    }
    for (String paper : List.of("plan.pdf", "profile-R1.svg", "profile-R1.png", "review.html")) {
      assertTrue(Files.size(folder.resolve("out").resolve(paper)) > 1000, paper);
    }
    drainInGeoJson(length);
  }

  /** RFC 7946: longitude and latitude; degrees by the ellipsoid's radii at 45.15 degrees north. */
  private void drainInGeoJson(double length) throws IOException {
    JsonNode drains = read("layers/drains.geojson").get("features");
    List<JsonNode> mine = new ArrayList<>();
    drains.forEach(d -> mine.add(d));
    mine.removeIf(d -> !d.at("/properties/kind").asText().equals("pinned"));
    assertEquals(1, mine.size());
    assertEquals("CB1", mine.get(0).at("/properties/outlet").asText());
    assertEquals(length, mine.get(0).at("/properties/length_m").asDouble(), 1e-3);
    JsonNode line = mine.get(0).at("/geometry/coordinates");
    double metres = 0;
    for (int i = 1; i < line.size(); i++) {
      double east = line.at("/" + i + "/0").asDouble() - line.at("/" + (i - 1) + "/0").asDouble();
      double north = line.at("/" + i + "/1").asDouble() - line.at("/" + (i - 1) + "/1").asDouble();
      metres += Math.hypot(east * 78_620, north * 111_144);
    }
    assertEquals(length, metres, 0.002 * length);
  }

  /**
   * The shapefile of a plan is itself a line that can be drawn: read back, it is the same drain.
   */
  @Test
  void aProposedDrainReadsBackAsADrawnOne() throws IOException {
    house();
    drawn("", "[[500028,5000027],[500028,5000008],[500017,5000001]]");
    assertEquals(Yardfall.DONE, yard.plan().exit());
    JsonNode first = results().at("/routes/0");
    for (String format : List.of("shp", "geojson")) {
      Starter.Run again =
          Starter.run(
              folder,
              "plan",
              "site.yml",
              "--pinned",
              "out/layers/drains." + format,
              "--out",
              "again-" + format);
      assertEquals("", again.err());
      JsonNode second =
          new ObjectMapper()
              .readTree(folder.resolve("again-" + format + "/results.json").toFile())
              .at("/routes/0");
      assertEquals("pinned", second.get("kind").asText());
      assertEquals(first.get("lengthM").asDouble(), second.get("lengthM").asDouble(), 1e-3, format);
      assertEquals(
          first.at("/stations/0/invertM").asDouble(),
          second.at("/stations/0/invertM").asDouble(),
          1e-3,
          format);
    }
  }

  /** What a plan writes of outlets and lot serves as input again, in every format and unit. */
  @Test
  void theOutletsThatAPlanWroteReadBackWhole() throws IOException {
    outlet(
        "at: [500017, 5000001], invert: 98.9 m, water-level: 98.95 m, lid: 99.6 m,"
            + " permit: by the street department");
    yard.append(
        """
          - { id: D2, kind: ditch, at: [500033, 5000002], invert: 99.2 m, usual-level: 98.8 m }
          - { id: S3, kind: street, at: [500008, 5000001] }
        """);
    assertEquals(Yardfall.DONE, yard.plan().exit());
    JsonNode first = results().get("outlets");
    assertEquals(3, first.size());
    for (String source :
        List.of(
            "layers/outlets.geojson",
            "layers/outlets.shp",
            "site.gpkg, layer: outlets",
            "site.kml, layer: outlets")) {
      yard.write(
          "site.yml",
          """
          site: { crs: EPSG:32615 }
          elevation: { files: [dem.asc] }
          parcels: { file: out/layers/lot.geojson, id: id, lot: "1" }
          outlets: { file: out/%s, unit: ft }
          """
              .formatted(source));
      Starter.Run again = Starter.run(folder, "plan", "site.yml", "--json", "--out", "again");
      assertEquals("", again.err(), source);
      JsonNode second = new ObjectMapper().readTree(again.out()).get("outlets");
      assertEquals(first.size(), second.size(), source);
      for (int i = 0; i < first.size(); i++) {
        same(first.get(i), second.get(i), source);
      }
    }
  }

  /** Numbers to the millimetre, all else alike. */
  private static void same(JsonNode a, JsonNode b, String source) {
    List<String> keys = new ArrayList<>();
    a.fieldNames().forEachRemaining(keys::add);
    for (String key : keys) {
      if (a.get(key).isNumber()) {
        assertEquals(a.get(key).asDouble(), b.get(key).asDouble(), 1.5e-3, source + " " + key);
      } else {
        assertEquals(a.get(key), b.get(key), source + " " + key);
      }
    }
    assertEquals(a.size(), b.size(), source);
  }

  /** Straight through the house: 5 m from its nearer side, the setback of 0.9 m with it. */
  @Test
  void aDrawnLineThroughTheHouseIsToldHowFarToMove() throws IOException {
    house();
    drawn(",\"outlet\":\"CB1\"", "[[500017,5000027],[500017,5000001]]");
    Starter.Run run = yard.plan();
    assertEquals("", run.err());
    assertEquals(Yardfall.DONE, run.exit(), "other drains are proposed");
    assertTrue(
        run.out()
            .replaceAll("\\s+", " ")
            .contains("line mine as drawn: it meets building H: move it"),
        run.out());
    JsonNode rejected = results().at("/rejected/0");
    assertEquals("pinned", rejected.get("kind").asText());
    assertEquals("as-drawn", rejected.at("/reason/code").asText());
    assertEquals(500017, rejected.at("/vertices/0/0").asDouble(), 1e-3);
    assertEquals(500017, rejected.at("/vertices/1/0").asDouble(), 1e-3);
    String sentence = rejected.at("/reason/sentence").asText();
    double move = Double.parseDouble(sentence.replaceAll("(?s).*move it (\\d+\\.\\d+) m.*", "$1"));
    assertEquals(5 + 3 * 0.3048, move, 0.06);
  }

  /** Level ground to a basin too high: what the outlet must come down is told, and no route. */
  @Test
  void aDrawnLineWithoutFallIsToldWhatIsLacking() throws IOException {
    yard.write("dem.asc", SmallYard.raster((x, y) -> 100));
    outlet("at: [500017, 5000001], invert: 99.7 m");
    drawn(",\"outlet\":\"CB1\"", "[[500017,5000027],[500017,5000001]]");
    Starter.Run run = yard.plan();
    assertEquals("", run.err());
    assertEquals(Yardfall.NO_ANSWER, run.exit());
    JsonNode mine = null;
    for (JsonNode each : results().get("rejected")) {
      mine = each.get("kind").asText().equals("pinned") ? each : mine;
    }
    // Cover 6 in and a pipe of 4 in, by its outside diameter, from 100 m down; 26 m at 1 %.
    double outside = results().at("/site/drain/pipeOutsideM").asDouble();
    double lacking = 99.7 - (100 - 0.1524 - outside - 0.26);
    assertEquals(lacking, mine.get("shortfallM").asDouble(), 2e-3);
    assertEquals("outlet", mine.at("/relax/0/limit").asText());
    assertEquals(lacking, mine.at("/relax/0/by").asDouble(), 2e-3);
    assertTrue(
        run.out()
            .replaceAll("\\s+", " ")
            .contains("line mine as drawn: the highest pipe that falls"),
        run.out());
  }

  private void house() throws IOException {
    yard.write("house.geojson", SmallYard.layer(HOUSE));
    yard.append("buildings: { file: house.geojson }\n");
  }

  private void outlet(String where) throws IOException {
    yard.write("site.yml", SmallYard.site("dem.asc", "lots.geojson", "1", where));
  }

  private void drawn(String more, String coordinates) throws IOException {
    yard.write(
        "mine.geojson",
        SmallYard.layer(SmallYard.feature("\"id\":\"mine\"" + more, "LineString", coordinates)));
    yard.append("pinned: { file: mine.geojson }\n");
  }

  private JsonNode results() throws IOException {
    return read("results.json");
  }

  private JsonNode read(String file) throws IOException {
    return new ObjectMapper().readTree(folder.resolve("out").resolve(file).toFile());
  }
}
