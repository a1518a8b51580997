package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.yardfall.elevation.ElevationGrid;

/** What must hold on any ground: facts of water and of arithmetic, no source needed. */
class WaterPropertyTest {

  private static final int TRIES = 300;
  private static final String SEED = "20260105";

  /** Heights in whole steps, so that lifting and stretching are exact in floats. */
  @Provide
  Arbitrary<ElevationGrid> grounds() {
    return Combinators.combine(
            Arbitraries.integers().between(1, 24),
            Arbitraries.integers().between(1, 24),
            Arbitraries.of(2, 5, 1000),
            Arbitraries.of(0.0, 0.0, 0.05),
            Arbitraries.longs())
        .as(
            (cols, rows, levels, holes, seed) ->
                Grids.random(new Random(seed), cols, rows, levels, holes));
  }

  @Property(tries = TRIES, seed = SEED)
  void turningTheGroundTurnsItsFilledSurface(@ForAll("grounds") ElevationGrid ground) {
    ElevationGrid filled = new ElevationGrid(ground.frame(), Filling.of(ground));
    assertArrayEquals(Grids.turned(filled).z(), Filling.of(Grids.turned(ground)));
  }

  @Property(tries = TRIES, seed = SEED)
  void liftingTheGroundLiftsItsFilledSurfaceAndTurnsNoDrop(
      @ForAll("grounds") ElevationGrid ground) {
    check(ground, 1, 64);
  }

  @Property(tries = TRIES, seed = SEED)
  void stretchingTheGroundStretchesItsFilledSurfaceAndTurnsNoDrop(
      @ForAll("grounds") ElevationGrid ground) {
    check(ground, 2, 0);
  }

  private static void check(ElevationGrid ground, float times, float plus) {
    ElevationGrid changed = changed(ground, times, plus);
    ElevationGrid filled = new ElevationGrid(ground.frame(), Filling.of(ground));
    assertArrayEquals(changed(filled, times, plus).z(), Filling.of(changed));
    assertArrayEquals(FlowRouter.of(ground).toward(), FlowRouter.of(changed).toward());
  }

  private static ElevationGrid changed(ElevationGrid ground, float times, float plus) {
    float[] z = ground.z().clone();
    for (int c = 0; c < z.length; c++) {
      z[c] = z[c] * times + plus;
    }
    return new ElevationGrid(ground.frame(), z);
  }

  @Property(tries = TRIES, seed = SEED)
  void theFilledSurfaceHoldsNoWaterAndRaisesNothingTwice(@ForAll("grounds") ElevationGrid ground) {
    float[] filled = Filling.of(ground);
    for (int c = 0; c < filled.length; c++) {
      assertTrue(Float.isNaN(ground.z()[c]) || filled[c] >= ground.z()[c]);
    }
    assertArrayEquals(filled, Filling.of(new ElevationGrid(ground.frame(), filled)));
  }

  @Property(tries = TRIES, seed = SEED)
  void everyDropRunsDownTheFilledSurfaceAndLeaves(@ForAll("grounds") ElevationGrid ground) {
    float[] filled = Filling.of(ground);
    FlowField flow = FlowRouter.of(ground);
    double[] areaM2 = Accumulation.areaM2(flow);
    double left = 0;
    int known = 0;
    for (int c = 0; c < filled.length; c++) {
      known += Float.isNaN(filled[c]) ? 0 : 1;
      int next = flow.receiver(c);
      if (next >= 0) {
        assertTrue(filled[next] <= filled[c] && areaM2[next] > areaM2[c]);
      } else {
        left += areaM2[c];
      }
    }
    assertEquals(known * ground.frame().cellAreaM2(), left, 0);
  }

  @Property(tries = TRIES, seed = SEED)
  void whatRainsStandsSoaksInOrLeaves(@ForAll("grounds") ElevationGrid ground) {
    Optional<SurfaceWater> water =
        knows(ground) ? Optional.of(Grids.water(ground)) : Optional.empty();
    water.ifPresent(
        found -> {
          double[] runoffM = new double[ground.z().length];
          Arrays.setAll(runoffM, c -> 0.3 * (1 + c % 3));
          double rainM3 = runoffM.length * ground.frame().cellAreaM2();
          StandingWater after = StandingWaterFinder.after(found, runoffM, rainM3);
          assertEquals(
              rainM3,
              after.infiltratedM3() + after.standingM3() + after.leftM3() + after.inletM3(),
              1e-9 * rainM3);
        });
  }

  @Property(tries = TRIES, seed = SEED)
  void theSameGroundGivesTheSameWaterAgain(@ForAll("grounds") ElevationGrid ground) {
    if (knows(ground)) {
      SurfaceWater once = Grids.water(ground);
      SurfaceWater again = Grids.water(ground);
      assertArrayEquals(once.areaM2(), again.areaM2());
      assertEquals(once.lowSpots(), again.lowSpots());
      assertEquals(once.flowPaths(), again.flowPaths());
      assertEquals(once.catchments(), again.catchments());
    }
  }

  private static boolean knows(ElevationGrid ground) {
    for (float z : ground.z()) {
      if (!Float.isNaN(z)) {
        return true;
      }
    }
    return false;
  }
}
