package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.constraints.LongRange;

/** The search against every simple path there is, on grids small enough to try them all. */
class BruteForceTest {

  private static int trunks;
  private static int shortfalls;

  @net.jqwik.api.lifecycle.AfterContainer
  static void enoughCasesWereTried() {
    assertTrue(trunks == 0 || trunks >= 10_000, trunks + " trunks");
    assertTrue(shortfalls == 0 || shortfalls >= 10_000, shortfalls + " shortfalls");
  }

  private static GravityReach reach(BruteForce all, Bounds b) {
    return GravityReachFinder.find(all.ground, List.of(all.outlet), b);
  }

  @Property(tries = 10_000, seed = "11", shrinking = ShrinkingMode.OFF)
  void gravityReachIsTheLowestInvertOfAllPaths(
      @ForAll @LongRange(min = 0, max = 1_000_000_000) long seed) {
    BruteForce all = new BruteForce(seed);
    double[] expected = all.lowestInverts(all.bounds);
    double[] found = reach(all, all.bounds).invertM();
    for (int n = 0; n < expected.length; n++) {
      assertEquals(Double.isNaN(expected[n]), Double.isNaN(found[n]), "cell " + n);
      if (!Double.isNaN(expected[n])) {
        assertEquals(expected[n], found[n], 1e-9, "cell " + n);
      }
    }
  }

  @Property(tries = 12_000, seed = "12", shrinking = ShrinkingMode.OFF)
  void theTrunkIsTheCheapestOfAllPaths(@ForAll @LongRange(min = 0, max = 1_000_000_000) long seed) {
    BruteForce all = new BruteForce(seed);
    int start = (int) (seed % (BruteForce.COLS * BruteForce.ROWS));
    if (!all.ground.open(start)) {
      return;
    }
    double top = all.ground.ground().z()[start] - all.bounds.minCoverM() - all.bounds.outsideM();
    trunks++;
    double expected = all.leastCost(start, top);
    Optional<TrunkFinder.Trunk> found =
        TrunkFinder.find(
            all.ground,
            List.of(new TrunkFinder.Start(all.centre(start), top, 0)),
            List.of(all.outlet),
            all.bounds,
            new StepCost(all.ground, BruteForce.COST),
            reach(all, all.bounds));
    assertEquals(expected < Double.POSITIVE_INFINITY, found.isPresent());
    found.ifPresent(trunk -> assertEquals(expected, trunk.cost(), 1e-6));
  }

  @Property(tries = 33_500, seed = "13", shrinking = ShrinkingMode.OFF)
  void eachRelaxationIsTheLeastThatMakesItWork(
      @ForAll @LongRange(min = 0, max = 1_000_000_000) long seed) {
    BruteForce all = new BruteForce(seed);
    int cell = (int) (seed % (BruteForce.COLS * BruteForce.ROWS));
    if (!all.ground.open(cell) || !Double.isNaN(all.lowestInverts(all.bounds)[cell])) {
      return;
    }
    shortfalls++;
    List<Rejection.Relaxation> found =
        RelaxationFinder.find(all.bounds, b -> reach(all, b).reaches(cell));
    for (Rejection.Relaxation r : found) {
      assertTrue(works(all, cell, r, 0), r + " does not work");
      assertFalse(works(all, cell, r, -1), r + " is more than it takes");
    }
    for (String limit : List.of("outlet", "max-depth")) {
      boolean none = found.stream().noneMatch(r -> r.limit().equals(limit));
      Rejection.Relaxation most = new Rejection.Relaxation(limit, RelaxationFinder.MOST_M, "m");
      assertEquals(none, !works(all, cell, most, 0), limit);
    }
  }

  /** Whether it works with the change granted, or with two millimetres (0.002 %) less. */
  private static boolean works(BruteForce all, int cell, Rejection.Relaxation r, int less) {
    Bounds b = all.bounds;
    double by = r.by() + less * 0.002;
    Bounds relaxed =
        switch (r.limit()) {
          case "outlet" -> b.withOutletLowered(by);
          case "max-depth" -> b.withMaxDepth(b.maxDepthM() + by);
          case "min-cover" -> b.withMinCover(b.minCoverM() - by);
          default -> b.withMinGrade(r.by() - less * 0.00002);
        };
    return !Double.isNaN(all.lowestInverts(relaxed)[cell]);
  }
}
