package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.yardfall.elevation.ElevationGrid;

class FlowRouterTest {

  @Test
  void aTiltedPlaneDrainsDownslope() {
    checkBearing(90, (x, y) -> -0.01 * x);
    checkBearing(0, (x, y) -> -0.01 * y);
    checkBearing(180, (x, y) -> 0.01 * y);
    checkBearing(270, (x, y) -> 0.01 * x);
    checkBearing(45, (x, y) -> -0.01 * (x + y));
    checkBearing(225, (x, y) -> 0.01 * (x + y));
  }

  @Test
  void everyDropLeavesAndNeverClimbsTheFilledSurface() {
    Random random = new Random(3);
    for (int i = 0; i < 2000; i++) {
      ElevationGrid ground =
          Grids.random(
              random,
              1 + random.nextInt(14),
              1 + random.nextInt(14),
              random.nextInt(3) * 2,
              random.nextInt(2) * 0.05);
      checkDrains(ground);
    }
  }

  @Test
  void aFlatDrainsToItsOutletAndKeepsAwayFromHigherGround() {
    // the flat of 7 x 5 cells has one lower neighbour, in the middle of its east side
    ElevationGrid ground =
        Grids.rows(
            "9 9 9 9 9 9 9 9 9", //
            "9 5 5 5 5 5 5 5 9",
            "9 5 5 5 5 5 5 5 9",
            "9 5 5 5 5 5 5 5 4",
            "9 5 5 5 5 5 5 5 9",
            "9 5 5 5 5 5 5 5 9",
            "9 9 9 9 9 9 9 9 9");
    FlowField flow = FlowRouter.of(ground);
    for (int col = 1; col <= 7; col++) {
      assertEquals(90, flow.bearingDeg(3 * 9 + col), "along the middle");
    }
    // beside the wall the water turns to the middle before it runs along
    assertEquals(135, flow.bearingDeg(1 * 9 + 3));
    assertEquals(45, flow.bearingDeg(5 * 9 + 3));
    checkDrains(ground);
  }

  /** A level field of 50 by 50 cells behind a bank with one sill in it. */
  @Test
  void everyCellOfALargeFlatReachesItsSillAndNoElevationChanges() {
    Random random = new Random(47);
    for (int i = 0; i < 20; i++) {
      int sill = 1 + random.nextInt(50);
      ElevationGrid ground = Grids.random(random, 52, 52, 3, 0);
      float[] z = ground.z();
      for (int row = 0; row < 52; row++) {
        for (int col = 0; col < 52; col++) {
          boolean rim = row == 0 || col == 0 || row == 51 || col == 51;
          z[row * 52 + col] = rim ? 8 + z[row * 52 + col] : 7;
        }
      }
      z[sill * 52 + 51] = 6;
      float[] before = z.clone();
      FlowField flow = FlowRouter.of(ground);
      assertArrayEquals(before, z);
      assertArrayEquals(before, Filling.of(ground));
      assertTrue(Accumulation.areaM2(flow)[sill * 52 + 51] >= 50 * 50 + 1);
      for (int row = 1; row < 51; row++) {
        for (int col = 1; col < 51; col++) {
          int c = row * 52 + col;
          int steps = 0;
          while (flow.receiver(c) >= 0) {
            c = flow.receiver(c);
            steps++;
          }
          assertEquals(sill * 52 + 51, c);
          assertTrue(steps <= 2 * 52, "no cell takes a great detour");
        }
      }
    }
  }

  @Test
  void waterInAHollowGoesToWhereItSpills() {
    ElevationGrid ground = Grids.rows("5 5 5 5", "5 1 2 5", "5 2 2 3", "5 5 5 5");
    FlowField flow = FlowRouter.of(ground);
    int c = 5;
    for (int step = 0; step < 3 && flow.receiver(c) >= 0; step++) {
      c = flow.receiver(c);
    }
    assertEquals(11, c);
  }

  private static void checkBearing(double bearing, java.util.function.DoubleBinaryOperator height) {
    FlowField flow = FlowRouter.of(Grids.surface(9, 7, 0.5, height));
    for (int row = 1; row < 6; row++) {
      for (int col = 1; col < 8; col++) {
        assertEquals(bearing, flow.bearingDeg(row * 9 + col));
      }
    }
  }

  private static void checkDrains(ElevationGrid ground) {
    FlowField flow = FlowRouter.of(ground);
    float[] filled = Filling.of(ground);
    for (int start = 0; start < filled.length; start++) {
      if (Float.isNaN(filled[start])) {
        assertEquals(FlowField.UNKNOWN, flow.toward()[start]);
        continue;
      }
      int c = start;
      int steps = 0;
      while (flow.receiver(c) >= 0) {
        assertTrue(filled[flow.receiver(c)] <= filled[c], "climbs");
        c = flow.receiver(c);
        assertTrue(++steps <= filled.length, "goes round in a loop");
      }
      assertEquals(FlowField.LEAVES, flow.toward()[c]);
      assertTrue(Flood.onEdge(ground, c % ground.frame().cols(), c / ground.frame().cols()));
    }
  }
}
