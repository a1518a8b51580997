package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.elevation.Contours;
import org.yardfall.fieldwork.FieldUnits;
import org.yardfall.site.UnitSystem;

class ContourWriterTest {

  @TempDir private Path folder;

  @Test
  void linesCarryTheirElevationAndALabelInTheCrewsFeet() throws IOException {
    Result result = ResultFixture.usFeet();
    FieldUnits feet = FieldUnits.of(UnitSystem.US, result.site().crs());
    double step = feet.metres("interval", "0.5");
    assertEquals(0.5 * 1200 / 3937, step, 1e-12);
    ContourWriter.write(result, step, feet, folder);
    JsonNode lines =
        new ObjectMapper()
            .readTree(folder.resolve("layers/contours.geojson").toFile())
            .get("features");
    assertEquals(Contours.of(result.terrain().ground(), step).size(), lines.size());
    assertTrue(lines.size() > 0);
    for (JsonNode line : lines) {
      double elevation = line.at("/properties/elev_m").asDouble();
      double halves = elevation / step;
      assertEquals(Math.rint(halves), halves, 0.01);
      assertTrue(
          line.at("/properties/label").asText().matches("\\d+\\.[05]0 ftUS"), line.toString());
      assertEquals("LineString", line.at("/geometry/type").asText());
    }
    assertTrue(Files.size(folder.resolve("layers/contours.shp")) > 100);
  }
}
