package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Given;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;

/** Gravity reach against closed-form answers. */
class GravityReachFinderTest {

  private static GravityReach reach(
      RouteFixtures.SiteMaker site, ElevationGrid ground, Outlet outlet) {
    RouteGround g = site.outlet(outlet).on(ground);
    return GravityReachFinder.find(
        g, List.of(OutletTarget.of(outlet, g)), Bounds.of(g.site().drain(), g.settings()));
  }

  private static double at(GravityReach reach, double x, double y) {
    return reach.invertM()[reach.frame().index(x, y)];
  }

  /**
   * Flat ground at 10 m, basin invert d below the highest pipe: the pipe reaches d / grade and no
   * further, straight along the rows.
   */
  private static void checkFlatReach(double outletInvert, double grade, double expectedM) {
    DrainLimits l = RouteFixtures.LIMITS;
    DrainLimits limits =
        Given.limits(
            grade,
            l.maxGrade(),
            l.minCoverM(),
            l.maxDepthM(),
            l.setbackM(),
            l.fromBuildingM(),
            l.trenchWidthM(),
            l.pipeOutsideM(),
            l.pipeInsideM());
    ElevationGrid flat = RouteFixtures.ground(240, 5, 0.5, (x, y) -> 10);
    GravityReach reach =
        reach(
            RouteFixtures.site().limits(limits),
            flat,
            RouteFixtures.outlet("CB", Outlet.Kind.CATCH_BASIN, 0.25, 1.25, outletInvert));
    double furthest = 0;
    for (int col = 0; col < 240; col++) {
      if (reach.reaches(2 * 240 + col)) {
        furthest = reach.frame().x(col) - 0.25;
      }
    }
    assertEquals(expectedM, furthest, 0.5);
    assertTrue(furthest <= expectedM + 1e-6);
  }

  @Test
  void onFlatGroundAPipeReachesTheHeadOverTheGrade() {
    checkFlatReach(9.234, 0.01, 50); // 10 − 0.15 − 0.116 − 9.234 = 0.5 m at 1 %
    checkFlatReach(9.234, 0.005, 100); // and at 0.5 %
  }

  @Test
  void threeInchesOfFallReachTwentyFiveFeetAtOnePercentAndFiftyAtHalf() {
    // 3 in in all at 1 % is 300 in = 25 ft, at 0.5 % 50 ft: arithmetic
    double invert = 10 - 0.15 - 0.116 - 3 * 0.0254;
    checkFlatReach(invert, 0.01, 25 * 0.3048);
    checkFlatReach(invert, 0.005, 50 * 0.3048);
  }

  @Test
  void onASlopeThatFallsLessThanTheGradeTheReachIsTheHeadOverTheDifference() {
    // ground rises 0.4 % away from the basin, pipe 1 %: 0.3 m of head go 0.3 / 0.006 = 50 m
    ElevationGrid slope = RouteFixtures.ground(240, 5, 0.5, (x, y) -> 10 + 0.004 * (x - 0.25));
    GravityReach reach =
        reach(
            RouteFixtures.site(),
            slope,
            RouteFixtures.outlet("CB", Outlet.Kind.CATCH_BASIN, 0.25, 1.25, 9.434));
    assertTrue(at(reach, 49.75, 1.25) > 0);
    assertTrue(Double.isNaN(at(reach, 51.25, 1.25)));
    assertEquals(9.434 + 0.01 * 40, at(reach, 40.25, 1.25), 1e-5);
  }

  @Test
  void onReverseGradeTheReachEndsWhereCoverDoes() {
    // ground falls 1 % away from the outlet: head shrinks by 2 % a metre
    ElevationGrid slope = RouteFixtures.ground(120, 5, 0.5, (x, y) -> 10 - 0.01 * (x - 0.25));
    GravityReach reach =
        reach(
            RouteFixtures.site(),
            slope,
            RouteFixtures.outlet("CB", Outlet.Kind.CATCH_BASIN, 0.25, 1.25, 9.234));
    assertTrue(at(reach, 24.75, 1.25) > 0);
    assertTrue(Double.isNaN(at(reach, 26.25, 1.25)));
  }

  @Test
  void aRidgeIsPassedWhereTheGreatestDepthAllowsAndNotBeyond() {
    // ridge 0.5 m high at x = 20 between two flats at 10 m; the pipe there may be 1.2 m deep
    for (double depth : new double[] {1.20, 0.70}) {
      DrainLimits l = RouteFixtures.LIMITS;
      DrainLimits limits =
          Given.limits(0.01, 0.2, 0.15, depth, 0.6, 0.9, 0.45, 0.116, l.pipeInsideM());
      ElevationGrid ridge =
          RouteFixtures.ground(
              120, 5, 0.5, (x, y) -> 10 + Math.max(0, 0.5 - 0.1 * Math.abs(x - 20.25)));
      GravityReach reach =
          reach(
              RouteFixtures.site().limits(limits),
              ridge,
              RouteFixtures.outlet("CB", Outlet.Kind.CATCH_BASIN, 0.25, 1.25, 9.3));
      if (depth > 1) {
        assertEquals(9.3 + 0.01 * 40, at(reach, 40.25, 1.25), 1e-5);
      } else {
        // at the top the pipe may not lie below 10.5 − 0.7 = 9.8; beyond it 9.8 + … > 9.734
        assertTrue(Double.isNaN(at(reach, 40.25, 1.25)));
        assertEquals(9.8, at(reach, 20.25, 1.25), 1e-5);
      }
    }
  }

  /**
   * A bank or a ditch one cell wide: long steps of the stencil begin on one side and end on the
   * other, and must mind the ground between all the same. Flat ground at 10 m, the basin at 9.0, so
   * the pipe lies at 9.2 at x = 20.25. Under a bank of 0.6 m that is 1.4 m deep: where 1.2 m are
   * allowed it lies at 9.4 there, and a bank of 1 m would lift it out of its cover beyond. Under a
   * ditch's bed at 9.4 m it lacks 6.6 cm of cover.
   */
  @Test
  void aStepMindsTheGroundBetweenItsEnds() {
    for (int steps : new int[] {16, 32}) {
      assertEquals(9.0 + 0.01 * 30, beyond(steps, 0, 1.2), 1e-5);
      assertEquals(9.4 + 0.01 * 10, beyond(steps, 0.6, 1.2), 1e-5);
      assertTrue(Double.isNaN(beyond(steps, 1, 1.2)));
      assertEquals(9.0 + 0.01 * 30, beyond(steps, 0.6, 1.45), 1e-5);
      assertTrue(Double.isNaN(beyond(steps, -0.6, 1.2)));
      assertEquals(9.0 + 0.01 * 30, beyond(steps, -0.5, 1.2), 1e-5);
    }
  }

  /** The reach at x = 30.25, beyond a column of cells at x = 20.25 that lies so much higher. */
  private static double beyond(int steps, double riseM, double maxDepthM) {
    ElevationGrid ground =
        RouteFixtures.ground(80, 9, 0.5, (x, y) -> Math.abs(x - 20.25) < 0.01 ? 10 + riseM : 10);
    Outlet outlet = RouteFixtures.outlet("CB", Outlet.Kind.CATCH_BASIN, 0.25, 2.25, 9);
    DrainLimits limits = Given.limits(0.01, 0.2, 0.15, maxDepthM, 0.6, 0.9, 0.45, 0.116, 0.102);
    RouteGround g =
        RouteGround.of(
            RouteFixtures.site().limits(limits).outlet(outlet).make(),
            ground,
            RouteSettings.defaults(limits).withNeighbours(steps));
    GravityReach reach =
        GravityReachFinder.find(
            g, List.of(OutletTarget.of(outlet, g)), Bounds.of(limits, g.settings()));
    return at(reach, 30.25, 2.25);
  }

  @Test
  void aBowlIsDrainedByAnOutletBelowItsFloorAndNotByOneAbove() {
    ElevationGrid bowl =
        RouteFixtures.ground(
            61, 61, 0.5, (x, y) -> 10 + 0.002 * (Math.pow(x - 15.25, 2) + Math.pow(y - 15.25, 2)));
    for (double invert : new double[] {9.4, 10.2}) {
      GravityReach reach =
          reach(
              RouteFixtures.site(),
              bowl,
              RouteFixtures.outlet("W", Outlet.Kind.CATCH_BASIN, 0.25, 15.25, invert));
      assertEquals(invert < 10, reach.reaches(reach.frame().index(15.25, 15.25)));
    }
  }

  @Test
  void aKeepOutAcrossTheWayCutsTheReachOff() {
    ElevationGrid slope = RouteFixtures.ground(60, 20, 0.5, (x, y) -> 10 + 0.02 * x);
    GravityReach reach =
        reach(
            RouteFixtures.site()
                .obstacle(
                    Obstacle.Kind.WALL,
                    Obstacle.Passage.NONE,
                    RouteFixtures.wkt("LINESTRING(15 -5, 15 15)"),
                    0,
                    Double.NaN),
            slope,
            RouteFixtures.outlet("CB", Outlet.Kind.CATCH_BASIN, 0.25, 5.25, 9.3));
    assertTrue(reach.reaches(reach.frame().index(14.25, 5.25)));
    assertFalse(reach.reaches(reach.frame().index(16.25, 5.25)));
  }

  @Test
  void theStraightLineIsMissedByNoMoreThanTheStencilsStatedError() {
    ElevationGrid flat = RouteFixtures.ground(81, 81, 0.5, (x, y) -> 10);
    for (int steps : new int[] {16, 32}) {
      Outlet outlet = RouteFixtures.outlet("CB", Outlet.Kind.CATCH_BASIN, 0.25, 0.25, 9);
      RouteGround g =
          RouteGround.of(
              RouteFixtures.site().outlet(outlet).make(),
              flat,
              RouteSettings.defaults(RouteFixtures.LIMITS).withNeighbours(steps));
      GravityReach reach =
          GravityReachFinder.find(
              g,
              List.of(OutletTarget.of(outlet, g)),
              Bounds.of(RouteFixtures.LIMITS, g.settings()));
      double worst = 0;
      for (int n = 0; n < reach.frame().size(); n++) {
        Coordinate p = g.graph().centre(n);
        double straight = p.distance(outlet.at());
        if (reach.reaches(n) && straight > 5) {
          worst = Math.max(worst, (reach.invertM()[n] - 9) / 0.01 / straight - 1);
        }
      }
      assertTrue(worst <= g.settings().lengthError(), steps + ": " + worst);
      assertTrue(worst > 0.5 * g.settings().lengthError(), steps + ": " + worst);
    }
  }
}
