package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Building;
import org.yardfall.water.StandingWater.Pond;

class StandingWaterFinderTest {

  /** A basin 6 cells wide and 2 high in a wall of 9 with a way out at 7; two pits of depth. */
  private static final ElevationGrid TWO_PITS =
      Grids.rows(
          "9 9 9 9 9 9 9 9", //
          "9 1 1 4 2 2 2 9",
          "9 1 1 4 2 2 2 7",
          "9 9 9 9 9 9 9 9");

  @Test
  void aLittleRainStandsInEachPit() {
    // 0.1 m on 32 cells; the watershed of the left pit and of the right one share it
    StandingWater after = rain(TWO_PITS, 0.1);
    assertEquals(3.2, after.rainM3(), 1e-12);
    assertEquals(after.rainM3(), after.standingM3() + after.leftM3(), 1e-9 * after.rainM3());
    assertTrue(after.standingM3() > 1.2);
  }

  @Test
  void aFullPitSpillsIntoTheOtherThenBothMergeAndSpillOut() {
    double[] depth = new double[32];
    depth[9] = 15; // 15 m3 on the left pit, which holds 4 cells of 3 m
    StandingWater spilled = StandingWaterFinder.after(Grids.water(TWO_PITS), depth, 15);
    assertEquals(15, spilled.standingM3(), 1e-12);
    assertEquals(2, spilled.ponds().size());
    Pond left = spilled.ponds().stream().filter(p -> p.volumeM3() == 12).findFirst().orElseThrow();
    Pond right = spilled.ponds().stream().filter(p -> p.volumeM3() < 12).findFirst().orElseThrow();
    assertEquals(4, left.levelM(), 1e-6);
    assertEquals(3, left.overflowM3(), 1e-9);
    assertEquals(right.lowSpotId(), left.overflowTo());
    assertEquals(3, right.volumeM3(), 1e-9);
    assertEquals(2.5, right.levelM(), 1e-6);
    assertEquals(0.5, right.depthM(), 1e-6);

    depth[9] = 12 + 12 + 24; // both full to 4 m, and 2 m on 12 cells above
    StandingWater merged = StandingWaterFinder.after(Grids.water(TWO_PITS), depth, 48);
    assertEquals(1, merged.ponds().size());
    assertEquals(6, merged.ponds().get(0).levelM(), 1e-6);
    assertEquals(12, merged.ponds().get(0).areaM2(), 1e-9);

    depth[9] = 100;
    StandingWater over = StandingWaterFinder.after(Grids.water(TWO_PITS), depth, 100);
    assertEquals(60, over.standingM3(), 1e-9);
    assertEquals(40, over.leftM3(), 1e-9);
    assertEquals(40, over.ponds().get(0).overflowM3(), 1e-9);
    assertEquals("", over.ponds().get(0).overflowTo());
    assertEquals(7, over.ponds().get(0).levelM(), 1e-6);
  }

  @Test
  void whatDoesNotRunOffHasSoakedIn() {
    SurfaceWater water = Grids.water(TWO_PITS);
    double[] depth = new double[32];
    Arrays.fill(depth, 0.02);
    StandingWater after = StandingWaterFinder.after(water, depth, 32 * 0.05);
    assertEquals(32 * 0.03, after.infiltratedM3(), 1e-12);
    assertThrows(
        IllegalArgumentException.class, () -> StandingWaterFinder.after(water, depth, 0.1));
    assertThrows(
        IllegalArgumentException.class,
        () -> StandingWaterFinder.after(water, new double[] {1}, 0.1));
    depth[3] = -1;
    assertThrows(
        IllegalArgumentException.class, () -> StandingWaterFinder.after(water, depth, 100));
  }

  /**
   * A house of 10 by 10 m on a flat ridge between two hollows, to the west and to the east. 20 mm
   * on its roof are 2 m3: one downspout takes them all to the east; without any, the drip line
   * parts them evenly.
   */
  @Test
  void roofWaterStandsWhereItsDownspoutLetsItOut() {
    ElevationGrid ground =
        Grids.surface(50, 30, 1, (x, y) -> 10 + 0.2 * (Math.abs(Math.abs(x - 25) - 15) - 15));
    ElevationGrid walled =
        Grids.surface(
            50,
            30,
            1,
            (x, y) ->
                x < 1 || x > 49 || y < 1 || y > 29
                    ? 20
                    : ground.z()[((int) (30 - y)) * 50 + (int) x]);
    Building house = Grids.house(20, 10, 30, 20);
    double[] runoff = new double[50 * 30];
    for (int c : CellsWithin.of(walled.frame(), house.outline())) {
      runoff[c] = 0.02;
    }
    checkSides(walled, house, runoff, 1, 1);
    checkSides(walled, house.withDownspouts(List.of(new Coordinate(30.5, 15))), runoff, 0, 2);
  }

  private static void checkSides(
      ElevationGrid ground, Building house, double[] runoff, double westM3, double eastM3) {
    SurfaceWater water = Grids.water(ground, 0.001, List.of(house), List.of(), Optional.empty());
    StandingWater after = StandingWaterFinder.after(water, runoff, 2);
    double west = 0;
    double east = 0;
    for (Pond pond : after.ponds()) {
      boolean inWest = pond.outline().getCentroid().getX() < 25;
      west += inWest ? pond.volumeM3() : 0;
      east += inWest ? 0 : pond.volumeM3();
    }
    assertEquals(westM3, west, 1e-9);
    assertEquals(eastM3, east, 1e-9);
    assertEquals(2, after.standingM3() + after.leftM3(), 2e-9);
    assertEquals(0, after.leftM3(), 1e-12);
  }

  @Test
  void anOpenInletTakesWhatABlockedOneLeavesStanding() {
    SurfaceWater water = Grids.water(TWO_PITS);
    double[] depth = new double[32];
    depth[9] = 15;
    List<Coordinate> inlet = List.of(new Coordinate(5.5, 2.5));
    StandingWater open = StandingWaterFinder.after(water, depth, 15, inlet);
    assertEquals(3, open.inletM3(), 1e-9);
    assertEquals(12, open.standingM3(), 1e-9);
    assertEquals(1, open.ponds().size());
    assertEquals(3, open.ponds().get(0).overflowM3(), 1e-9);
    StandingWater blocked = StandingWaterFinder.after(water, depth, 15, List.of());
    assertEquals(0, blocked.inletM3());
    assertEquals(15, blocked.standingM3(), 1e-9);
  }

  /** Many sills of one level, and beside them, beyond unknown ground, an inlet of its own. */
  @Test
  void anInletThatNoneOfTheWaterReachesChangesNothing() {
    Random random = new Random(11);
    int spilled = 0;
    for (int i = 0; i < 500; i++) {
      int side = 6 + random.nextInt(6);
      float[] z = new float[side * (side + 2)];
      double[] depth = new double[z.length];
      for (int c = 0; c < z.length; c++) {
        int col = c % (side + 2);
        z[c] = col == side ? Float.NaN : random.nextInt(6);
        depth[c] = col < side ? random.nextDouble() * 2 : 0;
      }
      ElevationGrid ground = new ElevationGrid(new GridFrame(side + 2, side, 0, side, 1), z);
      SurfaceWater water = Grids.water(ground);
      List<Coordinate> inlet = List.of(new Coordinate(side + 1.5, Math.floorDiv(side, 2) + 0.5));
      List<Pond> open = StandingWaterFinder.after(water, depth, 1e3, inlet).ponds();
      List<Pond> blocked = StandingWaterFinder.after(water, depth, 1e3).ponds();
      assertEquals(blocked.size(), open.size());
      for (int p = 0; p < open.size(); p++) {
        assertEquals(blocked.get(p).lowSpotId(), open.get(p).lowSpotId());
        assertEquals(blocked.get(p).levelM(), open.get(p).levelM(), 1e-9);
        assertEquals(blocked.get(p).overflowM3(), open.get(p).overflowM3(), 1e-9);
        assertEquals(blocked.get(p).overflowTo(), open.get(p).overflowTo());
        spilled += blocked.get(p).overflowM3() > 0 ? 1 : 0;
      }
    }
    assertTrue(spilled > 100, spilled + " spilled");
  }

  @Test
  void theBalanceClosesAndTheLevelsAreThoseOfPouringDropByDrop() {
    Random random = new Random(5);
    int compared = 0;
    for (int i = 0; i < 10_000; i++) {
      ElevationGrid ground =
          Grids.random(
              random, 3 + random.nextInt(6), 3 + random.nextInt(6), 0, random.nextInt(2) * 0.03);
      SurfaceWater water = Grids.water(ground);
      double[] depth = new double[ground.z().length];
      double amount = Math.exp(random.nextGaussian() * 2);
      for (int c = 0; c < depth.length; c++) {
        depth[c] = Float.isNaN(ground.z()[c]) ? 0 : amount * random.nextDouble();
      }
      double rain = Arrays.stream(depth).sum();
      StandingWater after = StandingWaterFinder.after(water, depth, rain);
      assertEquals(rain, after.standingM3() + after.leftM3(), 1e-9 * rain);
      for (Pond pond : after.ponds()) {
        assertTrue(pond.outline().isValid());
      }
      if (hasForks(ground, water.depressions())) {
        continue;
      }
      compared++;
      double[] surface = new DropByDrop(ground, depth).surface();
      double expected = 0;
      for (int c = 0; c < depth.length; c++) {
        expected += Float.isNaN(ground.z()[c]) ? 0 : surface[c] - ground.z()[c];
      }
      assertEquals(expected, after.standingM3(), 1e-6 * (1 + rain));
    }
    assertTrue(compared > 2000, compared + " compared");
  }

  /** Whether water over some cell has more than one way on, so that there is no one answer. */
  private static boolean hasForks(ElevationGrid ground, DepressionHierarchy depressions) {
    GridFrame frame = ground.frame();
    for (int row = 0; row < frame.rows(); row++) {
      for (int col = 0; col < frame.cols(); col++) {
        int c = row * frame.cols() + col;
        Set<Integer> ways = new HashSet<>();
        if (!Float.isNaN(ground.z()[c])) {
          ways.add(depressions.pitOf(c));
          if (Flood.onEdge(ground, col, row)) {
            ways.add(Basins.OUTSIDE);
          }
          for (int k = 0; k < 8; k++) {
            int col2 = col + Neighbours.DCOL[k];
            int row2 = row + Neighbours.DROW[k];
            if (frame.has(col2, row2) && ground.at(col2, row2) < ground.at(col, row)) {
              ways.add(depressions.pitOf(row2 * frame.cols() + col2));
            }
          }
        }
        if (ways.size() > 2) {
          return true;
        }
      }
    }
    return false;
  }

  private static StandingWater rain(ElevationGrid ground, double depthM) {
    double[] depth = new double[ground.z().length];
    Arrays.fill(depth, depthM);
    return StandingWaterFinder.after(
        Grids.water(ground), depth, depthM * depth.length * ground.frame().cellAreaM2());
  }
}
