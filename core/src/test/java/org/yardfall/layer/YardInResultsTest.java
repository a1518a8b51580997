package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the ground round a house and a low spot is told of, in {@code results.json}. */
class YardInResultsTest {

  @TempDir private Path folder;

  /**
   * Ground that falls 6 % to the south: 10 ft less the first 0.3 m give 0.165 m, of which 5 % or
   * 0.137 m are asked (International Residential Code R401.3). The south wall passes; the north
   * wall has the fall toward it, east and west none.
   */
  @Test
  void eachPlaceRoundTheHouseHasItsOwnVerdict() throws IOException {
    JsonNode json =
        results(
            new PlannedYard(folder, 40, 40, (x, y) -> 10 + 0.06 * y)
                .lot(2, 2, 38, 38)
                .house(15, 15, 25, 25));
    JsonNode places = json.at("/terrain/foundation");
    assertEquals(28, places.size()); // 7 to a wall of 10 m
    for (JsonNode place : places) {
      double away = Math.toRadians(place.path("bearingDeg").asDouble());
      double over = 3.048 - 0.3;
      assertEquals("house", place.path("building").asText());
      assertEquals(over, place.path("overM").asDouble(), 1e-3);
      assertEquals(0.05 * over, place.path("neededM").asDouble(), 1e-3);
      assertEquals(-0.06 * over * Math.cos(away), place.path("fallM").asDouble(), 1e-3);
      boolean south = place.path("y").asDouble() - PlannedYard.NORTH < 15.1;
      assertEquals(south, Math.abs(Math.toDegrees(away) - 180) < 1);
      assertEquals(south, place.path("passes").asBoolean());
    }
    String said = json.path("warnings").toString();
    assertTrue(said.contains("at 21 of 28 places round building house"), said);
  }

  /** A cone sunk into ground that falls 2 % to the south-west spills where its rim is lowest. */
  @Test
  void aLowSpotTellsWhichWayItSpills() throws IOException {
    double fall = 0.02 / Math.sqrt(2);
    Result result =
        new PlannedYard(
                folder,
                40,
                40,
                (x, y) ->
                    10 + fall * (x + y) - 0.3 * Math.max(0, 1 - Math.hypot(x - 20, y - 20) / 5))
            .lot(2, 2, 38, 38)
            .plan();
    JsonNode spot = json(result).at("/lowSpots/0");
    assertEquals(225, spot.path("spillBearingDeg").asDouble(), 12);
    assertEquals(
        5,
        Math.hypot(
            spot.path("spillX").asDouble() - PlannedYard.EAST - 20,
            spot.path("spillY").asDouble() - PlannedYard.NORTH - 20),
        0.8);
    Layer layer = LayerSet.of(result).layer("low_spots");
    Feature feature = layer.features().get(0);
    assertEquals(
        spot.path("spillBearingDeg").asDouble(),
        ((Number) feature.values().get(layer.indexOf("spill_deg"))).doubleValue(),
        0.06);
  }

  private static JsonNode results(PlannedYard yard) throws IOException {
    return json(yard.plan());
  }

  private static JsonNode json(Result result) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    ResultsWriter.write(result, List.of(), bytes);
    return new ObjectMapper().readTree(bytes.toByteArray());
  }
}
