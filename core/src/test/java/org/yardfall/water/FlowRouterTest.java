package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.function.IntPredicate;
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
      assertEquals(90, bearingDeg(flow, 3 * 9 + col), "along the middle");
    }
    // beside the wall the water turns to the middle before it runs along
    assertEquals(135, bearingDeg(flow, 1 * 9 + 3));
    assertEquals(45, bearingDeg(flow, 5 * 9 + 3));
    checkDrains(ground);
  }

  /**
   * Every cell of a flat drains to a neighbour with the least of the sum that Barnes, Lehman &amp;
   * Mulla 2014 (Computers &amp; Geosciences 62, section 2) define: twice the distance from the
   * lower edge, and the farthest distance from the higher edge less the cell's own. The distances
   * are found here by letting them grow until nothing changes.
   */
  @Test
  void aFlatDrainsDownThePublishedSumOfItsTwoDistances() {
    Random random = new Random(62);
    for (int i = 0; i < 1000; i++) {
      int cols = 5 + random.nextInt(12);
      int rows = 5 + random.nextInt(12);
      ElevationGrid ground = levelField(random, cols, rows);
      float[] z = ground.z();
      FlowField flow = FlowRouter.of(ground);
      int[] low = distances(z, cols, rows, c -> lowest(z, cols, c) < z[c]);
      int[] high = distances(z, cols, rows, c -> highest(z, cols, c) > z[c]);
      int farthest = 0;
      for (int c = 0; c < z.length; c++) {
        boolean undirected = inside(c, cols, rows) && z[c] == 5 && lowest(z, cols, c) == 5;
        farthest = undirected ? Math.max(farthest, high[c]) : farthest;
      }
      for (int c = 0; c < z.length; c++) {
        if (inside(c, cols, rows) && z[c] == 5 && lowest(z, cols, c) == 5) {
          int least = Integer.MAX_VALUE;
          for (int n : around(cols, c)) {
            least = z[n] == 5 ? Math.min(least, sum(z, cols, n, low, high, farthest)) : least;
          }
          assertEquals(least, sum(z, cols, flow.receiver(c), low, high, farthest));
          assertTrue(least < sum(z, cols, c, low, high, farthest));
        }
      }
    }
  }

  /** A level field within a wall, with rocks on it and one gap in the wall. */
  private static ElevationGrid levelField(Random random, int cols, int rows) {
    ElevationGrid ground = Grids.random(random, cols, rows, 1, 0);
    float[] z = ground.z();
    for (int c = 0; c < z.length; c++) {
      z[c] = !inside(c, cols, rows) ? 9 : 5;
    }
    for (int rock = random.nextInt(4); rock > 0; rock--) {
      z[(2 + random.nextInt(rows - 4)) * cols + 2 + random.nextInt(cols - 4)] = 7;
    }
    z[(1 + random.nextInt(rows - 2)) * cols + cols - 1] = 4;
    return ground;
  }

  /** Cells that already fall to lower ground count as 0, as there the water knows its way. */
  private static int sum(float[] z, int cols, int c, int[] low, int[] high, int farthest) {
    return lowest(z, cols, c) < z[c] ? 0 : 2 * (low[c] - 1) + farthest - high[c];
  }

  /** Steps within the level from the cells chosen, which count 1. */
  private static int[] distances(float[] z, int cols, int rows, IntPredicate chosen) {
    int[] distance = new int[z.length];
    Arrays.fill(distance, 1_000_000);
    boolean changed = true;
    while (changed) {
      changed = false;
      for (int c = 0; c < z.length; c++) {
        if (inside(c, cols, rows) && z[c] == 5) {
          int best = chosen.test(c) ? 1 : distance[c];
          for (int n : around(cols, c)) {
            best = z[n] == 5 ? Math.min(best, distance[n] + 1) : best;
          }
          changed |= best != distance[c];
          distance[c] = best;
        }
      }
    }
    return distance;
  }

  private static boolean inside(int c, int cols, int rows) {
    return c % cols > 0 && c % cols < cols - 1 && c / cols > 0 && c / cols < rows - 1;
  }

  private static int[] around(int cols, int c) {
    return new int[] {
      c - cols - 1, c - cols, c - cols + 1, c - 1, c + 1, c + cols - 1, c + cols, c + cols + 1
    };
  }

  private static float lowest(float[] z, int cols, int c) {
    return (float) Arrays.stream(around(cols, c)).mapToDouble(n -> z[n]).min().orElseThrow();
  }

  private static float highest(float[] z, int cols, int c) {
    return (float) Arrays.stream(around(cols, c)).mapToDouble(n -> z[n]).max().orElseThrow();
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

  /** Bearing in degrees clockwise from grid north of the way from a cell to its receiver. */
  private static double bearingDeg(FlowField flow, int cell) {
    int cols = flow.frame().cols();
    int to = flow.receiver(cell);
    double east = to % cols - cell % cols;
    double north = cell / cols - to / cols;
    return (Math.toDegrees(Math.atan2(east, north)) + 360) % 360;
  }

  private static void checkBearing(double bearing, java.util.function.DoubleBinaryOperator height) {
    FlowField flow = FlowRouter.of(Grids.surface(9, 7, 0.5, height));
    for (int row = 1; row < 6; row++) {
      for (int col = 1; col < 8; col++) {
        assertEquals(bearing, bearingDeg(flow, row * 9 + col));
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
