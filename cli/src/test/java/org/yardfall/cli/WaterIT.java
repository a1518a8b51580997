package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.DoubleBinaryOperator;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command {@code water} on small invented grounds of 1 m cells. */
class WaterIT {

  private static final int WEST = 500_000;
  private static final int SOUTH = 5_000_000;
  private static final String CRS =
      "\"crs\":{\"type\":\"name\",\"properties\":{\"name\":\"EPSG:32615\"}},";

  @TempDir private Path yard;

  /** A valley that falls to the east, with a bank of 1 m across it from x = 30 to 35. */
  @BeforeEach
  void valley() throws IOException {
    raster("valley", 0, 60, WaterIT::valley);
  }

  private static double valley(double x, double y) {
    return 100 - 0.02 * x + 0.05 * Math.abs(y - 15.5) + (x > 30 && x < 35 ? 1 : 0);
  }

  @Test
  void aWholeRasterOfTwoTilesAndItsRasters() throws IOException {
    raster("west", 0, 32, WaterIT::valley);
    raster("east", 28, 60, WaterIT::valley);
    run("whole", "--elevation", "valley.asc", "--rasters");
    run("tiles", "--elevation", "west.asc", "--elevation", "east.asc", "--rasters");
    for (String name : new String[] {"fill_depth.tif", "contributing_area.tif"}) {
      Path whole = yard.resolve("whole/rasters").resolve(name);
      assertTrue(Files.size(whole) > 1000);
      assertEquals(-1, Files.mismatch(whole, yard.resolve("tiles/rasters").resolve(name)), name);
    }
    JsonNode results = results("whole");
    assertEquals(60, results.at("/terrain/cols").asInt());
    assertEquals(results.get("lowSpots"), results("tiles").get("lowSpots"));
    assertTrue(results.at("/lowSpots/0/depthM").asDouble() > 0.5, "the bank holds water");
    assertFalse(Files.exists(yard.resolve("whole/review.html")), "there is no lot to review");
  }

  @Test
  void everyCellThatACulvertLowersIsListedInTheResultsAndTheLayer() throws IOException {
    Files.writeString(
        yard.resolve("culverts.geojson"),
        "{\"type\":\"FeatureCollection\","
            + CRS
            + "\"features\":[{\"type\":\"Feature\",\"properties\":{\"id\":\"K1\",\"kind\":\"culvert\"},"
            + "\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[500029.5,5000015.5],[500035.5,5000015.5]]}}]}");
    Files.writeString(
        yard.resolve("site.yml"),
        "elevation: { files: [valley.asc], accuracy: 0.05 m }\nopenings: { file: culverts.geojson }\n");
    run("out", "site.yml");
    JsonNode results = results("out");
    assertEquals(0, results.get("lowSpots").size(), "the water runs through");
    JsonNode cells = results.at("/terrain/alteredCells");
    JsonNode layer = json(yard.resolve("out/layers/altered.geojson")).get("features");
    assertEquals(5, cells.size());
    assertEquals(5, layer.size());
    for (int i = 0; i < 5; i++) {
      JsonNode cell = cells.get(i);
      // From 30.5 on, a cell each; the bed falls evenly from 99.41 to 99.29 over six metres.
      assertEquals("K1", cell.get("by").asText());
      assertEquals(WEST + 30.5 + i, cell.get("x").asDouble(), 1e-6);
      assertEquals(SOUTH + 15.5, cell.get("y").asDouble(), 1e-6);
      assertEquals(valley(30.5 + i, 15.5), cell.get("beforeM").asDouble(), 1e-3);
      assertEquals(99.41 - 0.02 * (i + 1), cell.get("afterM").asDouble(), 0.011);
      assertEquals("K1", layer.get(i).at("/properties/by").asText());
      assertEquals(
          cell.get("afterM").asDouble(), layer.get(i).at("/properties/after_m").asDouble(), 6e-4);
    }
  }

  /** A house on a ridge between two hollows; its downspout is on the east side. */
  @Test
  void roofWaterStandsWhereTheDownspoutLetsItOut() throws IOException {
    raster(
        "ridge",
        0,
        50,
        (x, y) ->
            x < 1 || x > 49 || y < 1 || y > 30
                ? 120
                : 100 + 0.2 * (Math.abs(Math.abs(x - 25) - 15) - 15));
    Files.writeString(
        yard.resolve("house.geojson"),
        "{\"type\":\"FeatureCollection\","
            + CRS
            + "\"features\":[{\"type\":\"Feature\",\"properties\":{\"id\":\"H\"},\"geometry\":{\"type\":"
            + "\"Polygon\",\"coordinates\":[[[500020,5000010],[500030,5000010],[500030,5000020],"
            + "[500020,5000020],[500020,5000010]]]}}]}");
    Files.writeString(yard.resolve("spouts.geojson"), spout(500_030.4));
    String site =
        """
        elevation: { files: [ridge.asc], accuracy: 0.05 m }
        buildings: { file: house.geojson }
        storm: { depth: 50 mm, duration: 24 h }
        """;
    Files.writeString(yard.resolve("drip.yml"), site);
    Files.writeString(yard.resolve("spout.yml"), site + "downspouts: { file: spouts.geojson }\n");
    run("drip", "drip.yml");
    run("spout", "spout.yml");
    double[] drip = sides(results("drip"));
    double[] spout = sides(results("spout"));
    assertEquals(drip[0], drip[1], 1e-6);
    assertEquals(drip[0] + drip[1], spout[0] + spout[1], 1e-6);
    // Half of the roof's 100 m2 changes sides, less what of 50 mm a roof keeps (5 mm at the most).
    double moved = spout[1] - drip[1];
    assertTrue(moved > 50 * 0.040 && moved <= 50 * 0.050, "moved " + moved);
    assertTrue(
        results("spout").get("assumptions").findValuesAsText("value").stream()
            .anyMatch(value -> value.contains("in equal shares to their downspouts")));
  }

  @Test
  void aDownspoutFarFromEveryHouseIsRefused() throws IOException {
    Files.writeString(yard.resolve("spouts.geojson"), spout(500_050));
    Files.writeString(
        yard.resolve("site.yml"),
        "elevation: { files: [valley.asc] }\ndownspouts: { file: spouts.geojson }\n");
    Starter.Run run = Starter.run(yard, "water", "site.yml", "--out", "out", "--quiet");
    assertEquals(Yardfall.BAD_INPUT, run.exit());
    assertEquals(1, run.complaints().size(), run.err());
    assertTrue(run.err().contains("downspout S1"), run.err());
  }

  private static String spout(double east) {
    return String.format(
        Locale.ROOT,
        "{\"type\":\"FeatureCollection\",%s\"features\":[{\"type\":\"Feature\",\"properties\":{\"id\":"
            + "\"S1\"},\"geometry\":{\"type\":\"Point\",\"coordinates\":[%.1f,5000015.5]}}]}",
        CRS,
        east);
  }

  /** Water standing west and east of the ridge's line, m³. */
  private static double[] sides(JsonNode results) {
    double[] sides = new double[2];
    for (JsonNode spot : results.get("lowSpots")) {
      if (spot.has("standing")) {
        sides[spot.get("x").asDouble() < WEST + 25 ? 0 : 1] +=
            spot.at("/standing/volumeM3").asDouble();
      }
    }
    return sides;
  }

  private void run(String out, String... arguments) throws IOException {
    Object[] all = new Object[arguments.length + 4];
    all[0] = "water";
    System.arraycopy(arguments, 0, all, 1, arguments.length);
    all[arguments.length + 1] = "--out";
    all[arguments.length + 2] = out;
    all[arguments.length + 3] = "--quiet";
    Starter.Run run = Starter.run(yard, all);
    assertEquals("", run.err());
    assertEquals(Yardfall.DONE, run.exit());
  }

  private JsonNode results(String out) throws IOException {
    return json(yard.resolve(out).resolve("results.json"));
  }

  private static JsonNode json(Path file) throws IOException {
    return new ObjectMapper().readTree(file.toFile());
  }

  /** An ASCII grid of 31 rows, columns from one to another, with its CRS beside it. */
  private void raster(String name, int from, int to, DoubleBinaryOperator height)
      throws IOException {
    StringBuilder text = new StringBuilder();
    text.append(
        String.format(
            Locale.ROOT,
            "ncols %d%nnrows 31%nxllcorner %d%nyllcorner %d%ncellsize 1%n",
            to - from,
            WEST + from,
            SOUTH));
    for (int row = 0; row < 31; row++) {
      for (int col = from; col < to; col++) {
        text.append(
            String.format(Locale.ROOT, "%.4f ", height.applyAsDouble(col + 0.5, 30.5 - row)));
      }
      text.append('\n');
    }
    Files.writeString(yard.resolve(name + ".asc"), text);
    Files.writeString(yard.resolve(name + ".prj"), SmallYard.PRJ);
  }
}
