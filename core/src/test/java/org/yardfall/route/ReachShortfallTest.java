package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.yardfall.route.RouteFixtures.LIMITS;
import static org.yardfall.route.RouteFixtures.box;
import static org.yardfall.route.RouteFixtures.ground;
import static org.yardfall.route.RouteFixtures.outlet;
import static org.yardfall.route.RouteFixtures.site;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.yardfall.route.ReachShortfall.Limit;
import org.yardfall.site.Outlet;

class ReachShortfallTest {

  private static int beyond;

  /**
   * Level ground at 10.0, the outlet at 9.7, the pipe 0.266 m deep at least: 0.034 m of fall to
   * use, so 3.4 m at 1 %. A place d away needs the outlet 0.01 d - 0.034 lower, as much less cover
   * while there is any (0.15 m), a grade of 0.034/d, and never gains by depth, since nothing lies
   * too deep.
   */
  @Test
  void onLevelGroundEachLimitLacksWhatTheDistanceCosts() {
    RouteGround yard =
        site()
            .lot(box(1, 1, 39, 9))
            .outlet(outlet("CB", Outlet.Kind.CATCH_BASIN, 2.25, 5.25, 9.7))
            .on(ground(80, 20, 0.5, (x, y) -> 10));
    ReachShortfall lack = shortfall(yard);
    check(yard, lack, 9.25, 0.1, 0.1, 0.25); // 7 m: 0.036 m; grade to 0.49 %
    check(yard, lack, 18.25, 0.2, 0.15, 0.1); // 16 m: 0.126 m; grade to 0.21 %
    check(yard, lack, 30.25, 0.4, Double.NaN, 0.1); // 28 m: 0.246 m; grade to 0.12 %
    assertFalse(lack.lacks(yard.frame().index(4.25, 5.25)));
  }

  private static void check(
      RouteGround yard, ReachShortfall lack, double x, double outlet, double cover, double share) {
    int cell = yard.frame().index(x, 5.25);
    assertTrue(lack.lacks(cell));
    assertEquals(outlet, lack.relax(Limit.OUTLET, cell).orElse(Double.NaN), 1e-9, "outlet at " + x);
    assertTrue(lack.relax(Limit.MAX_DEPTH, cell).isEmpty(), "depth at " + x);
    assertEquals(cover, lack.relax(Limit.MIN_COVER, cell).orElse(Double.NaN), 1e-9);
    assertEquals(
        share * LIMITS.minGrade(), lack.relax(Limit.MIN_GRADE, cell).orElse(Double.NaN), 1e-9);
    assertEquals(
        Math.min(outlet, Double.isNaN(cover) ? outlet : cover),
        lack.shortfallM(cell).orElseThrow(),
        1e-9);
  }

  /** Every cell's rung lies just above the least change found by halving for that cell alone. */
  @Property(tries = 1000, seed = "31", shrinking = ShrinkingMode.OFF)
  void theRungIsTheFirstAboveTheLeastChange(
      @ForAll @LongRange(min = 0, max = 1_000_000_000) long seed) {
    BruteForce all = new BruteForce(seed);
    GravityReach reach = GravityReachFinder.find(all.ground, List.of(all.outlet), all.bounds);
    ReachShortfall lack =
        ReachShortfallFinder.find(all.ground, List.of(all.outlet), all.bounds, reach);
    for (int cell = 0; cell < reach.frame().size(); cell++) {
      int here = cell;
      assertEquals(all.ground.open(cell) && !reach.reaches(cell), lack.lacks(cell));
      if (!lack.lacks(cell)) {
        continue;
      }
      List<Rejection.Relaxation> exact =
          RelaxationFinder.find(
              all.bounds,
              b -> GravityReachFinder.find(all.ground, List.of(all.outlet), b).reaches(here));
      for (Limit limit : List.of(Limit.OUTLET, Limit.MAX_DEPTH, Limit.MIN_COVER)) {
        String name = limit.name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
        double least =
            exact.stream()
                .filter(r -> r.limit().equals(name))
                .mapToDouble(Rejection.Relaxation::by)
                .findFirst()
                .orElse(Double.NaN);
        double rung = lack.relax(limit, cell).orElse(Double.NaN);
        assertEquals(Double.isNaN(least), Double.isNaN(rung), name + " at " + cell);
        if (!Double.isNaN(least)) {
          beyond++;
          assertTrue(least <= rung + 0.001, name + ": " + least + " but rung " + rung);
          double before = before(lack, limit, rung);
          assertTrue(least > before - 1e-9, name + ": " + least + " but rung before " + before);
        }
      }
    }
  }

  @net.jqwik.api.lifecycle.AfterContainer
  static void shortfallsWereSeen() {
    assertTrue(beyond == 0 || beyond > 1000, "only " + beyond + " shortfalls compared");
  }

  private static double before(ReachShortfall lack, Limit limit, double rung) {
    double before = 0;
    for (double each : lack.rungs()[lack.limits().indexOf(limit)]) {
      if (each < rung - 1e-12) {
        before = each;
      }
    }
    return before;
  }

  private static ReachShortfall shortfall(RouteGround yard) {
    List<OutletTarget> outlets = List.of(OutletTarget.of(yard.site().outlets().get(0), yard));
    Bounds b = Bounds.of(yard.site().drain(), yard.settings());
    return ReachShortfallFinder.find(yard, outlets, b, GravityReachFinder.find(yard, outlets, b));
  }
}
