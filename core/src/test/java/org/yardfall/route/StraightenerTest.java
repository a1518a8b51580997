package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.trench.MetrePrice;

/** A crew digs straight runs ({@code common practice, no source}): bends that gain nothing go. */
class StraightenerTest {

  /** Round a mound in the middle of the straight way, 6 m long. */
  private static final List<Coordinate> TRUNK =
      List.of(
          new Coordinate(4.25, 10.25),
          new Coordinate(12.25, 11.25),
          new Coordinate(16.75, 11.75),
          new Coordinate(23.25, 11.75),
          new Coordinate(36.25, 10.25));

  private static List<Coordinate> straightened(double moundM, boolean byDepth) {
    ElevationGrid ground =
        RouteFixtures.ground(
            80,
            40,
            0.5,
            (x, y) ->
                10 - 0.02 * x + (Math.abs(x - 20) < 3 && Math.abs(y - 10.25) < 1 ? moundM : 0));
    RouteGround on = RouteFixtures.site().on(ground);
    TrenchCost cost = byDepth ? TrenchCost.depth() : TrenchCost.price(MetrePrice.of(on.site()));
    Bounds bounds = new Bounds(0.01, 0.2, 0.15, 1.5, 0.116, 0.116, 0);
    Coordinate end = TRUNK.get(TRUNK.size() - 1);
    OutletTarget outlet = new OutletTarget("CB", end, 8.2, false);
    double start = 10 - 0.02 * 4.25 - 0.266;
    return Straightener.straighten(on, bounds, new StepCost(on, cost), outlet, start, TRUNK);
  }

  /** Three centimetres shallower over 6 m are not worth the bends, however depth is weighed. */
  @Test
  void aBendThatGainsNextToNothingIsTakenOut() {
    List<Coordinate> straight = List.of(TRUNK.get(0), TRUNK.get(4));
    assertEquals(straight, straightened(0.03, true), "by depth");
    assertEquals(straight, straightened(0.005, false), "by price");
  }

  /** Round 0.8 m of mound they are: the straight trench would be a metre deep there. */
  @Test
  void aBendRoundAMoundStays() {
    assertTrue(straightened(0.8, true).size() > 2);
    assertEquals(TRUNK.get(0), straightened(0.8, true).get(0));
  }
}
