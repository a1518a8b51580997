package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Geometry;

/** Rules met in towns: an outlet 10 ft from the house and 5 ft from the property line. */
class DaylightLayerTest {

  private static final double FOOT = 0.3048;

  @TempDir private Path folder;

  /** A lot of 30 by 36 m with a house of 10 by 8 m: the rest by plane geometry. */
  @Test
  void theGroundWhereAPipeMayEndIsDrawn() throws IOException {
    Layer layer = layer(5, 2, 35, 38, 15, 20, 25, 28);
    assertEquals(1, layer.features().size());
    Geometry zone = layer.features().get(0).geometry();
    double line = 5 * FOOT;
    double house = 10 * FOOT;
    double round = 10 * 8 + 2 * (10 + 8) * house + Math.PI * house * house;
    double expected = (30 - 2 * line) * (36 - 2 * line) - round;
    assertEquals(expected, zone.getArea(), 0.01 * round);
  }

  /** No place on a lot of 5 m by 30 m is 10 ft from the house along it. */
  @Test
  void whereThereIsNoneTheLayerIsEmpty() throws IOException {
    assertTrue(layer(5, 5, 10, 35, 6, 6, 9, 34).features().isEmpty());
  }

  private Layer layer(
      double west,
      double south,
      double east,
      double north,
      double houseWest,
      double houseSouth,
      double houseEast,
      double houseNorth)
      throws IOException {
    Result result =
        new PlannedYard(folder, 40, 40, (x, y) -> 10 + 0.02 * y)
            .lot(west, south, east, north)
            .house(houseWest, houseSouth, houseEast, houseNorth)
            .plan();
    return LayerSet.of(result).layer("daylight");
  }
}
