package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.PinnedLine;
import org.yardfall.site.Site;

/** Small yards as their owners tell of them. */
class YardStoriesTest {

  private static final String LOT = "POLYGON((5 5, 35 5, 35 45, 5 45, 5 5))";

  /** Through the roots of a water-seeking tree the pipe is solid, before and after perforated. */
  @Test
  void throughRootsThePipeIsSolidAndOnlyThere() {
    Yard yard =
        Yard.of(40, 50, 0.5, (x, y) -> 10 + 0.02 * y)
            .lot(LOT)
            .obstacle(Obstacle.Kind.TREE, Obstacle.Passage.SOLID_PIPE, 6, "POINT(20 25)")
            .outlet("CB1", Outlet.Kind.CATCH_BASIN, 20, 2, 9);
    Site site =
        yard.site()
            .withPinned(
                List.of(
                    new PinnedLine("mine", (LineString) Yard.wkt("LINESTRING(20 40, 20 2)"), "")));
    Route route = RouteFinder.pinned(site, yard.terrain(), yard.water()).routes().get(0);
    double solid = 0;
    double open = 0;
    List<Station> s = route.main().stations();
    for (int i = 1; i < s.size(); i++) {
      double run = s.get(i).stationM() - s.get(i - 1).stationM();
      solid += s.get(i - 1).span() == Station.Span.SOLID ? run : 0;
      open += s.get(i - 1).span() == Station.Span.OPEN ? run : 0;
    }
    assertEquals(12, solid, 0.6); // across a circle of 6 m
    assertEquals(38, solid + open, 1e-6);
  }

  /**
   * The street is the high side, a neighbour's fence the low one: no drain may end before the fence
   * with its water running on to the neighbour as a point.
   */
  @Test
  void aLotThatFallsToTheRearFenceIsNotDrainedOntoTheNeighbour() {
    Yard yard =
        Yard.of(40, 60, 0.5, (x, y) -> 10 + 0.03 * y)
            .lot(LOT)
            .neighbour("rear", "POLYGON((5 -10, 35 -10, 35 5, 5 5, 5 -10))")
            .inflow("", 300, "LINESTRING(5 45, 35 45)")
            .outlet("D1", Outlet.Kind.DAYLIGHT, 20, 8, 10.2);
    RoutePlan plan = RouteFinder.plan(yard.site(), yard.terrain(), yard.water(), yard.flows);
    assertTrue(plan.routes().isEmpty());
    assertTrue(
        plan.rejected().stream().anyMatch(x -> x.code().equals("onto-neighbour")),
        plan.rejected().toString());
  }
}
