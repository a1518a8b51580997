package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;

/** What is written against RFC 7946, section by section. */
class GeoJsonLayerWriterTest {

  /** Where 500055, 4983002 of EPSG:26915 lies, by {@code cs2cs -f %.10f EPSG:26915 EPSG:4326}. */
  private static final double LONGITUDE = -92.9993021603;

  private static final double LATITUDE = 45.0004644963;

  @TempDir Path folder;

  @Test
  void positionsAreLongitudeThenLatitudeOfWgs84() throws IOException {
    JsonNode at = write(ResultFixture.metric(), "outlets").at("/features/0/geometry/coordinates");
    assertEquals(LONGITUDE, at.path(0).asDouble(), 1e-8);
    assertEquals(LATITUDE, at.path(1).asDouble(), 1e-8);
  }

  @Test
  void positionsCarryEnoughDecimals() throws IOException {
    write(ResultFixture.metric(), "outlets");
    String text = Files.readString(folder.resolve("outlets.geojson"));
    assertTrue(text.matches("(?s).*\\[-\\d+\\.\\d{9},\\d+\\.\\d{9}\\].*"), text);
  }

  @Test
  void ringsFollowTheRightHandRule() throws IOException {
    for (JsonNode feature : write(ResultFixture.metric(), "catchments").path("features")) {
      for (JsonNode polygon : feature.at("/geometry/coordinates")) {
        for (int i = 0; i < polygon.size(); i++) {
          Coordinate[] ring = ring(polygon.path(i));
          assertEquals(i == 0, Orientation.isCCW(ring), "ring " + i);
          assertEquals(ring[0], ring[ring.length - 1], "closed");
        }
      }
    }
  }

  @Test
  void thereIsNoCrsMember() throws IOException {
    for (Layer layer : LayerSet.of(ResultFixture.metric()).layers()) {
      JsonNode root = write(ResultFixture.metric(), layer.name());
      assertEquals("FeatureCollection", root.path("type").asText());
      assertFalse(root.has("crs"));
      assertEquals(layer.features().size(), root.path("features").size());
    }
  }

  @Test
  void everyFeatureHasEveryFieldInOrder() throws IOException {
    for (Layer layer : LayerSet.of(ResultFixture.usFeet()).layers()) {
      for (JsonNode feature : write(ResultFixture.usFeet(), layer.name()).path("features")) {
        List<String> names = new ArrayList<>();
        feature.path("properties").fieldNames().forEachRemaining(names::add);
        assertEquals(layer.fields().stream().map(Field::name).toList(), names);
      }
    }
  }

  @Test
  void aDrainsThirdCoordinateIsItsInvert() throws IOException {
    JsonNode first =
        write(ResultFixture.metric(), "drains").at("/features/0/geometry/coordinates/0");
    assertEquals(241.9, first.path(2).asDouble(), 1e-9);
  }

  @Test
  void hostileTextStaysText() throws IOException {
    JsonNode lot = write(ResultFixture.withIds(HostileText.ID), "lot");
    assertEquals(HostileText.ID, lot.at("/features/0/properties/id").asText());
  }

  @Test
  void anEmptyLayerIsAnEmptyCollection() throws IOException {
    assertEquals(0, write(ResultFixture.empty(), "drains").path("features").size());
  }

  private JsonNode write(Result result, String layer) throws IOException {
    Path file = folder.resolve(layer + ".geojson");
    new GeoJsonLayerWriter(result.site().crs()).write(LayerSet.of(result).layer(layer), file);
    return new ObjectMapper().readTree(file.toFile());
  }

  private static Coordinate[] ring(JsonNode positions) {
    List<Coordinate> ring = new ArrayList<>();
    positions.forEach(p -> ring.add(new Coordinate(p.path(0).asDouble(), p.path(1).asDouble())));
    return ring.toArray(new Coordinate[0]);
  }
}
