package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Wet patches and swales to be levelled, through the site file and the packaged command. */
class GroundWorkIT {

  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir private Path folder;

  @BeforeEach
  void sample() throws IOException {
    Starter.copySample("fernhill", folder);
  }

  /** Across lot 2 a swale runs behind the house; a drain takes its place. */
  @Test
  void aSwaleThatIsLevelledGetsADrainInItsPlace() throws IOException {
    feature(
        "swale.geojson",
        "{\"id\":\"W1\",\"width\":\"3 m\"}",
        "{\"type\":\"LineString\",\"coordinates\":[[500146,4999994],[500166,4999994]]}");
    JsonNode results = plan("levelled: { file: swale.geojson, crs: EPSG:26915 }");
    assertEquals("swale", results.at("/routes/0/kind").asText());
    JsonNode levelled = results.at("/terrain/levelled");
    assertEquals("W1", levelled.at("/swales/0/id").asText());
    assertFalse(levelled.get("cells").isEmpty());
    for (JsonNode cell : levelled.get("cells")) {
      assertTrue(cell.get("afterM").asDouble() > cell.get("beforeM").asDouble());
      assertEquals(4999994, cell.get("y").asDouble(), 1.5 + 0.25);
    }
    // The drain takes at least what the swale carries now, and says where it goes if blocked.
    assertTrue(
        results.at("/routes/0/design/catchment/areaM2").asDouble()
            > 0.9 * levelled.at("/swales/0/areaM2").asDouble());
    assertTrue(results.at("/routes/0/design/overland/sentence").asText().startsWith("while it is"));
    assertEquals(1, features("levelled"));
    assertEquals(results.get("routes").size(), features("overland"));
    assertTrue(Files.readString(folder.resolve("out/site.yml")).contains("levelled:"));
  }

  /** The yard of lot 2 is all but level: which side the water comes from it does not tell. */
  @Test
  void aWetPatchOnLevelGroundIsAskedAboutAndNotForgotten() throws IOException {
    feature(
        "wet.geojson",
        "{\"id\":\"S1\",\"water-depth\":\"18 in\"}",
        "{\"type\":\"Point\",\"coordinates\":[500153,4999986]}");
    JsonNode results = plan("seeps: { file: wet.geojson, crs: EPSG:26915 }");
    assertEquals(0.4572, results.at("/site/seeps/0/waterDepthM").asDouble(), 1e-9);
    String warnings = results.get("warnings").toString();
    assertTrue(warnings.contains("surface or groundwater?"), warnings);
    assertTrue(warnings.contains("asked for, but not to be had: an interceptor drain"), warnings);
  }

  private JsonNode plan(String key) throws IOException {
    Files.writeString(folder.resolve("site.yml"), "\n" + key + "\n", StandardOpenOption.APPEND);
    Starter.Run run = Starter.run(folder, "plan", "site.yml", "--out", "out");
    assertEquals("", run.err());
    assertEquals(0, run.exit(), run.out());
    return JSON.readTree(folder.resolve("out/results.json").toFile());
  }

  private int features(String layer) throws IOException {
    Path file = folder.resolve("out/layers/" + layer + ".geojson");
    return JSON.readTree(file.toFile()).get("features").size();
  }

  private void feature(String file, String properties, String geometry) throws IOException {
    Files.writeString(
        folder.resolve(file),
        "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":"
            + properties
            + ",\"geometry\":"
            + geometry
            + "}]}");
  }
}
