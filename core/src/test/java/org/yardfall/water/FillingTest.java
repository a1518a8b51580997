package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.yardfall.elevation.ElevationGrid;

class FillingTest {

  @Test
  void aBowlFillsToItsLowestRim() {
    check(
        Grids.rows(
            "5 5 5 5 5", //
            "5 1 2 3 5",
            "5 2 1 1 4",
            "5 5 5 5 5"),
        "5 5 5 5 5",
        "5 4 4 4 5",
        "5 4 4 4 4",
        "5 5 5 5 5");
  }

  @Test
  void waterSlipsBetweenCorners() {
    check(Grids.rows("9 9 9 1", "9 0 2 9", "9 9 9 9"), "9 9 9 1", "9 2 2 9", "9 9 9 9");
  }

  @Test
  void unknownGroundIsAnEdge() {
    check(
        Grids.rows("9 9 9 9 9", "9 3 9 1 9", "9 9 . 9 9"),
        "9 9 9 9 9", //
        "9 3 9 1 9",
        "9 9 . 9 9");
  }

  @Test
  void aSingleCellARowAndAColumnStayAsTheyAre() {
    check(Grids.rows("3"), "3");
    check(Grids.rows("3 1 2"), "3 1 2");
    check(Grids.rows("3", "1", "2"), "3", "1", "2");
    check(Grids.rows("3 1", "0 2"), "3 1", "0 2");
    check(Grids.rows(". ."), ". .");
  }

  @Test
  void randomGroundFillsAsByPlainPriorityFlood() {
    Random random = new Random(1);
    for (int i = 0; i < 2000; i++) {
      ElevationGrid ground =
          Grids.random(
              random,
              1 + random.nextInt(12),
              1 + random.nextInt(12),
              random.nextInt(3) * 3,
              random.nextInt(3) * 0.05);
      assertArrayEquals(Flood.fill(ground), Filling.of(ground));
    }
  }

  @Test
  void aGroundLargeEnoughForStripesFillsAsByPlainPriorityFlood() {
    ElevationGrid ground = Grids.random(new Random(2), 500, 700, 40, 0.001);
    assertArrayEquals(Flood.fill(ground), Filling.of(ground));
    ElevationGrid smooth =
        Grids.surface(
            500, 700, 1, (x, y) -> 3 * Math.sin(x / 17) * Math.cos(y / 23) + 0.01 * (x + y));
    assertArrayEquals(Flood.fill(smooth), Filling.of(smooth));
  }

  private static void check(ElevationGrid ground, String... expected) {
    assertArrayEquals(Grids.rows(expected).z(), Filling.of(ground));
  }
}
