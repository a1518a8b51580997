package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.ForkJoinPool;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Building;

/**
 * What is worked on by stripes on all cores must be, to the bit, what one thread finds (a fact of
 * arithmetic, no source needed): on ground with flats, holes and houses, with cells whose area no
 * float holds exactly.
 */
class OneThreadTest {

  private static final int COLS = 420;
  private static final int ROWS = 460;

  @Property(tries = 12, seed = "20260105")
  void oneThreadAndManyGiveTheSame(@ForAll long seed) throws Exception {
    assertTrue(Stripes.count(COLS, ROWS) > 1);
    ElevationGrid ground = ground(new Random(seed));
    List<Building> houses = List.of(Grids.house(30, 30, 41.3, 38), Grids.house(70, 60, 78, 71.9));
    double[] runoffM = new double[ground.z().length];
    Arrays.setAll(runoffM, c -> 0.01 * (1 + c % 7));
    double rainM3 = runoffM.length * 0.1 * ground.frame().cellAreaM2();

    SurfaceWater many = water(ground, houses);
    StandingWater standing = StandingWaterFinder.after(many, runoffM, rainM3);
    double[] spread = DInfinity.of(many.filled(), many.flow()).accumulate(runoffM);
    ForkJoinPool one = new ForkJoinPool(1);
    SurfaceWater alone = one.submit(() -> water(ground, houses)).get();
    assertEquals(
        standing, one.submit(() -> StandingWaterFinder.after(alone, runoffM, rainM3)).get());
    assertArrayEquals(
        spread,
        one.submit(() -> DInfinity.of(alone.filled(), alone.flow()).accumulate(runoffM)).get());
    one.shutdown();

    assertArrayEquals(many.filled(), alone.filled());
    assertArrayEquals(many.flow().toward(), alone.flow().toward());
    assertArrayEquals(many.areaM2(), alone.areaM2());
    assertEquals(many.edge(), alone.edge());
    assertEquals(many.undetermined(), alone.undetermined());
    assertEquals(many.lowSpots(), alone.lowSpots());
    assertEquals(many.flowPaths(), alone.flowPaths());
    assertEquals(many.catchments(), alone.catchments());
  }

  private static SurfaceWater water(ElevationGrid ground, List<Building> houses) {
    return Grids.water(ground, 0.05, houses, List.of(), Optional.of(Grids.box(20, 20, 90, 80)));
  }

  /** Waves and noise, rounded on every second ground so that much of it is flat, with holes. */
  private static ElevationGrid ground(Random random) {
    double stepM = random.nextBoolean() ? 0.5 : 0.001;
    double wave = 6 + random.nextInt(30);
    double holes = random.nextBoolean() ? 0.001 : 0;
    float[] z = new float[COLS * ROWS];
    for (int c = 0; c < z.length; c++) {
      int row = c / COLS;
      int col = c % COLS;
      double height = Math.sin(col / wave) + Math.cos(row / (wave + 3)) + 0.3 * random.nextDouble();
      z[c] = random.nextDouble() < holes ? Float.NaN : (float) (Math.rint(height / stepM) * stepM);
    }
    return new ElevationGrid(new GridFrame(COLS, ROWS, 0, ROWS * 0.3, 0.3), z);
  }
}
