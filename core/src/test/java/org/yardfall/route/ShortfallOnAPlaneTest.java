package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.Outlet;

/**
 * What an outlet lacks on level ground, in closed form: ground less cover and pipe at the far end
 * of the collecting line, less the least grade times the straight way, against the outlet's invert.
 * The search measures along the grid's steps, so it may say more, by its stated share of the trunk.
 */
class ShortfallOnAPlaneTest {

  private static final double LINE_M = 6;

  @Test
  void theShortfallIsThatOfTheStraightWayWithinTheStencilsError() {
    double most = 0;
    for (double deg = 180; deg <= 270; deg += 6.5) {
      for (int neighbours : new int[] {16, 32}) {
        most = Math.max(most, excess(deg, neighbours));
      }
    }
    // some bearing does lie between the steps: the bound is not idle
    assertTrue(most > 0.004, "" + most);
  }

  private static double excess(double deg, int neighbours) {
    double wayM = 44;
    double dx = Math.cos(Math.toRadians(deg));
    double dy = Math.sin(Math.toRadians(deg));
    double x0 = 52.3;
    double y0 = 52.1;
    Yard yard =
        Yard.of(60, 60, 0.5, (x, y) -> 10)
            .lot("POLYGON((2 2, 58 2, 58 58, 2 58, 2 2))")
            .outlet("CB1", Outlet.Kind.CATCH_BASIN, x0 + wayM * dx, y0 + wayM * dy, 9.6);
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
    double hand = 9.6 - (highest - yard.limits.minGrade() * wayM);
    double bound = settings.lengthError() * yard.limits.minGrade() * (wayM - LINE_M);
    assertTrue(lacks >= hand - 1e-6, deg + ": " + lacks + " by hand " + hand);
    assertTrue(lacks <= hand + bound + 0.001, deg + ": " + lacks + " by hand " + hand);
    assertEquals(hand, lacks, 0.013);
    return lacks - hand;
  }
}
