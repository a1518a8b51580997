package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.DoubleBinaryOperator;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.Outlet;

/**
 * What an outlet lacks on a plane, in closed form: ground less cover and pipe at the far end of the
 * collecting line, less the least grade times the straight way, against the outlet's invert. That
 * holds on level ground, and on oblique ground wherever it falls less along the way than the pipe
 * must. The search measures along the grid's steps, so it may say more, by its stated share of the
 * trunk.
 */
class ShortfallOnAPlaneTest {

  private static final double LINE_M = 6;

  /** 0.3 m above where the pipe would arrive by the straight way. */
  private static final double OUTLET_M = 9.6;

  @Test
  void onLevelGroundTheShortfallIsThatOfTheStraightWayWithinTheStencilsError() {
    checkPlane(0, 0, 14);
  }

  /** Ground that falls 0.8 % south-south-west, so less than the pipe whichever way it goes. */
  @Test
  void onAGentleObliquePlaneItIsSoToo() {
    checkPlane(0.008, 247, 14);
  }

  /** Ground that falls 2 %: ways along it or across, on which it falls by 0.6 % at most. */
  @Test
  void onASteeperObliquePlaneItIsSoForWaysNearTheContour() {
    checkPlane(0.02, 300, 4);
    checkPlane(0.02, 147, 4);
  }

  private static void checkPlane(double slope, double fallsTowardDeg, int ways) {
    double most = 0;
    int seen = 0;
    for (double deg = 180; deg <= 270; deg += 6.5) {
      double along = slope * Math.cos(Math.toRadians(deg - fallsTowardDeg));
      if ((along > 0.006 && slope > 0.01) || along < -0.01) {
        continue;
      }
      seen++;
      for (int neighbours : new int[] {16, 32}) {
        most = Math.max(most, excess(deg, neighbours, slope, fallsTowardDeg));
      }
    }
    assertTrue(seen >= ways, "" + seen);
    // some bearing does lie between the steps: the bound is not idle
    assertTrue(most > 0.004, "" + most);
  }

  private static double excess(double deg, int neighbours, double slope, double towardDeg) {
    double wayM = 44;
    double dx = Math.cos(Math.toRadians(deg));
    double dy = Math.sin(Math.toRadians(deg));
    double x0 = 52.3;
    double y0 = 52.1;
    double east = slope * Math.cos(Math.toRadians(towardDeg));
    double north = slope * Math.sin(Math.toRadians(towardDeg));
    DoubleBinaryOperator z = (x, y) -> 10 - east * (x - x0) - north * (y - y0);
    Yard yard =
        Yard.of(60, 60, 0.5, z)
            .lot("POLYGON((2 2, 58 2, 58 58, 2 58, 2 2))")
            .outlet("CB1", Outlet.Kind.CATCH_BASIN, x0 + wayM * dx, y0 + wayM * dy, OUTLET_M);
    RouteSettings settings = RouteSettings.defaults(yard.limits).withNeighbours(neighbours);
    RouteGround ground = RouteGround.of(yard.site(), yard.ground, settings);
    LineString line =
        (LineString)
            Yard.wkt(
                "LINESTRING(%s %s, %s %s)".formatted(x0, y0, x0 + LINE_M * dx, y0 + LINE_M * dy));
    Collector collector =
        new Collector(DrainKind.PERIMETER, List.of(line), "water arrives", List.of(), 100);
    Rejection no = new RefusalFinder(ground).infeasible(collector, yard.outlets.get(0));
    double lacks =
        no.relax().stream()
            .filter(r -> r.limit().equals("outlet"))
            .mapToDouble(Rejection.Relaxation::by)
            .findFirst()
            .orElseThrow();
    double highest = 10 - yard.limits.minCoverM() - yard.limits.pipeOutsideM();
    double hand = OUTLET_M - (highest - yard.limits.minGrade() * wayM);
    double bound = settings.lengthError() * yard.limits.minGrade() * (wayM - LINE_M);
    assertTrue(lacks >= hand - 1e-6, deg + ": " + lacks + " by hand " + hand);
    assertTrue(lacks <= hand + bound + 0.001, deg + ": " + lacks + " by hand " + hand);
    assertEquals(hand, lacks, 0.013);
    return lacks - hand;
  }
}
