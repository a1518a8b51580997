package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;

/** The whole job on the samples, through the packaged command. */
class PlanIT {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Path FERNHILL = Starter.SAMPLES.resolve("fernhill/site.yml");
  private static final Path ALDER_ROW = Starter.SAMPLES.resolve("alder-row/site.yml");
  private static final List<String> LAYERS =
      List.of(
          "altered",
          "low_spots",
          "flow_paths",
          "catchments",
          "inflow",
          "overland",
          "levelled",
          "daylight",
          "standing",
          "reach",
          "reach_lines",
          "drains",
          "stations",
          "outlets",
          "lot",
          "obstacles");

  @TempDir private Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"2", "5", "9"})
  void theBestRouteOfALotPassesTheAudit(String lot) throws IOException {
    Starter.Run run = Starter.run(folder, "plan", FERNHILL, "--lot", lot, "--out", "out");
    assertEquals("", run.err());
    assertEquals(Yardfall.DONE, run.exit());
    JsonNode results = JSON.readTree(folder.resolve("out/results.json").toFile());
    JsonNode best = results.get("routes").get(0);
    assertTrue(best.at("/audit/passed").asBoolean());
    assertTrue(best.at("/audit/checks").size() >= 6);
    fallsAllTheWay(best, results.at("/site/drain"));
    theDrainEndsAtWaterOrABasin(results, best);
  }

  /** Read afresh from the written numbers, in no code that the search uses. */
  private static void fallsAllTheWay(JsonNode route, JsonNode limits) {
    JsonNode stations = route.get("stations");
    double minGrade = limits.get("minGrade").asDouble();
    for (int i = 1; i < stations.size(); i++) {
      JsonNode up = stations.get(i - 1);
      JsonNode down = stations.get(i);
      double run = down.get("stationM").asDouble() - up.get("stationM").asDouble();
      double fall = up.get("invertM").asDouble() - down.get("invertM").asDouble();
      assertTrue(run >= 0, "stations go back at " + i);
      // Written to the millimetre, so a fall may be off by one.
      assertTrue(fall >= minGrade * run - 0.0011, "no fall after station " + i + " of " + route);
    }
    for (JsonNode station : stations) {
      double depth = station.get("groundM").asDouble() - station.get("invertM").asDouble();
      assertEquals(station.get("depthM").asDouble(), depth, 0.0015);
      assertTrue(depth <= limits.get("maxDepthM").asDouble() + 0.0015);
    }
  }

  /** Common practice, no source: a drain ends at a waterway or a storm-drain catch basin. */
  private static void theDrainEndsAtWaterOrABasin(JsonNode results, JsonNode route) {
    String outlet = route.get("outletId").asText();
    for (JsonNode each : results.get("outlets")) {
      if (each.get("id").asText().equals(outlet)) {
        assertTrue(List.of("catch-basin", "ditch", "waterway").contains(each.get("kind").asText()));
        JsonNode stations = route.get("stations");
        JsonNode last = stations.get(stations.size() - 1);
        assertTrue(
            last.get("invertM").asDouble() >= each.get("invertM").asDouble() - 0.0011,
            "the drain would have to lift its water");
        return;
      }
    }
    throw new AssertionError("no outlet " + outlet);
  }

  /** The street's catch basins lie in its low spots, which fill to their spills without them. */
  @Test
  void blockedInletsLeaveDeeperWaterInTheStreet() throws IOException {
    Starter.Run run = Starter.run(folder, "water", FERNHILL, "--out", "out");
    assertEquals(Yardfall.DONE, run.exit());
    assertTrue(run.out().replaceAll("\\s+", " ").contains("With the inlets blocked"), run.out());
    JsonNode results = JSON.readTree(folder.resolve("out/results.json").toFile());
    int deeper = 0;
    for (JsonNode spot : results.get("lowSpots")) {
      double open = spot.at("/standing/depthM").asDouble();
      double blocked = spot.at("/standingBlocked/depthM").asDouble();
      assertTrue(blocked >= open, spot.toString());
      if (blocked > open + 0.05) {
        deeper++;
        assertEquals(spot.get("spillM"), spot.at("/standingBlocked/levelM"));
        assertTrue(spot.at("/standingBlocked/overflowM3").asDouble() > 0);
      }
    }
    assertEquals(2, deeper);
    String layer = Files.readString(folder.resolve("out/layers/standing.geojson"));
    assertTrue(layer.contains("\"inlets\":\"blocked\"") && layer.contains("\"inlets\":\"either\""));
  }

  @Test
  void aLotBelowItsOutletsGetsNoRouteButTheShortfall() throws IOException {
    Starter.Run run = Starter.run(folder, "plan", FERNHILL, "--lot", "12", "--out", "out");
    assertEquals(Yardfall.NO_ANSWER, run.exit());
    assertTrue(
        run.out().replaceAll("\\s+", " ").contains("above the drain's lowest ground"), run.out());
    JsonNode results = JSON.readTree(folder.resolve("out/results.json").toFile());
    assertEquals(0, results.get("routes").size());
    boolean shortfall = false;
    for (JsonNode rejected : results.get("rejected")) {
      assertFalse(rejected.at("/reason/sentence").asText().isEmpty(), rejected.toString());
      shortfall |= rejected.path("shortfallM").asDouble(0) > 0;
    }
    assertTrue(shortfall);
    layersAreThere();
  }

  @Test
  void aSiteInUsSurveyFeet() throws IOException {
    Starter.Run run = Starter.run(folder, "plan", ALDER_ROW, "--units", "us", "--out", "out");
    assertEquals("", run.err());
    assertEquals(Yardfall.DONE, run.exit());
    assertTrue(run.out().contains(" ft"), run.out());
    JsonNode results = JSON.readTree(folder.resolve("out/results.json").toFile());
    JsonNode first = results.at("/routes/0/vertices/0");
    // Vertices are in the working CRS's own unit, lengths in metres.
    assertTrue(first.get(0).asDouble() > 1_500_000 && first.get(0).asDouble() < 1_500_400);
    assertTrue(results.at("/routes/0/lengthM").asDouble() < 120);
    layersAreThere();
  }

  @Test
  void theSameInputGivesTheSameBytes() throws IOException {
    for (String out : List.of("one", "two")) {
      Starter.run(folder, "plan", ALDER_ROW, "--quiet", "--rasters", "--out", out);
    }
    for (String raster : List.of("reach_invert.tif", "reach_room.tif")) {
      assertTrue(Files.exists(folder.resolve("one/rasters").resolve(raster)), raster);
    }
    List<Path> files;
    try (Stream<Path> walk = Files.walk(folder.resolve("one"))) {
      files = walk.filter(Files::isRegularFile).sorted().toList();
    }
    assertTrue(files.size() > 50, files.toString());
    for (Path file : files) {
      Path twin = folder.resolve("two").resolve(folder.resolve("one").relativize(file));
      assertArrayEquals(Files.readAllBytes(file), Files.readAllBytes(twin), file.toString());
    }
  }

  @Test
  void theShortFormWritesASiteFileThatDoesTheSame() throws IOException {
    Path sample = Starter.SAMPLES.resolve("fernhill");
    Starter.Run first =
        Starter.run(
            folder,
            "plan",
            "--elevation",
            sample.resolve("dem.tif"),
            "--parcels",
            sample.resolve("parcels.geojson"),
            "--id",
            "LOT",
            "--lot",
            "9",
            "--outlet",
            "500183.0,4999890.4,238.50",
            "--out",
            "short");
    assertEquals("", first.err());
    Starter.Run second = Starter.run(folder, "plan", "short/site.yml", "--out", "again");
    assertEquals("", second.err());
    assertEquals(first.exit(), second.exit());
    JsonNode one = JSON.readTree(folder.resolve("short/results.json").toFile());
    JsonNode two = JSON.readTree(folder.resolve("again/results.json").toFile());
    assertEquals(one.get("routes"), two.get("routes"));
    assertEquals(one.get("lowSpots"), two.get("lowSpots"));
  }

  @Test
  void jsonGoesToStdoutAlone() throws IOException {
    Starter.Run run = Starter.run(folder, "water", ALDER_ROW, "--json", "--out", "out");
    assertEquals("", run.err());
    assertEquals(
        JSON.readTree(folder.resolve("out/results.json").toFile()), JSON.readTree(run.out()));
    assertTrue(Files.size(folder.resolve("out/map.png")) > 10_000, "the water is drawn too");
    assertTrue(Files.size(folder.resolve("out/review.html")) > 10_000);
  }

  @Test
  void aReadOnlyHomeAndAnotherWorkingDirectoryDoNotMatter() throws IOException {
    Starter.Run run =
        Starter.start(
            Path.of("/"),
            List.of(
                Starter.YARDFALL.toString(),
                "water",
                ALDER_ROW.toString(),
                "--quiet",
                "--out",
                folder.resolve("out").toString()),
            Map.of("HOME", "/proc/nowhere", "YARDFALL_JAVA_OPTS", "-Duser.home=/proc/nowhere"));
    assertEquals("", run.err());
    assertEquals(Yardfall.DONE, run.exit());
  }

  @Test
  void checkSaysWhatEachFileHolds() throws IOException {
    Starter.Run run = Starter.run(folder, "check", FERNHILL);
    assertEquals(Yardfall.DONE, run.exit());
    for (String word : List.of("EPSG:26915", "800 x 640", "lot 2 found", "CB1", "NoData")) {
      assertTrue(run.out().contains(word), "no '" + word + "' in: " + run.out());
    }
  }

  /** RFC 7946: WGS 84 degrees, no crs member, exterior rings counter-clockwise. */
  private void layersAreThere() throws IOException {
    for (String layer : LAYERS) {
      JsonNode geoJson = JSON.readTree(folder.resolve("out/layers/" + layer + ".geojson").toFile());
      assertFalse(geoJson.has("crs"));
      for (JsonNode feature : geoJson.get("features")) {
        JsonNode geometry = feature.get("geometry");
        if (geometry.get("type").asText().equals("Polygon")) {
          counterClockwise(geometry.get("coordinates").get(0));
        } else if (geometry.get("type").asText().equals("MultiPolygon")) {
          geometry.get("coordinates").forEach(polygon -> counterClockwise(polygon.get(0)));
        }
      }
      for (String part : List.of("shp", "shx", "dbf", "prj", "cpg")) {
        assertTrue(Files.exists(folder.resolve("out/layers/" + layer + "." + part)), layer);
      }
    }
  }

  private static void counterClockwise(JsonNode ring) {
    Coordinate[] line = new Coordinate[ring.size()];
    for (int i = 0; i < line.length; i++) {
      line[i] = new Coordinate(ring.get(i).get(0).asDouble(), ring.get(i).get(1).asDouble());
      assertTrue(Math.abs(line[i].x) <= 180 && Math.abs(line[i].y) <= 90, line[i].toString());
    }
    assertTrue(Orientation.isCCW(line), ring.toString());
  }
}
