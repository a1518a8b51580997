package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.yardfall.site.Outlet;

/** Lines drawn by the user. */
class PinnedRouteTest {

  private static PinnedRoute grade(double outletInvert, double... xy) {
    RouteGround g =
        RouteFixtures.site()
            .building(RouteFixtures.box(10, 4, 20, 10))
            .outlet(RouteFixtures.outlet("CB", Outlet.Kind.CATCH_BASIN, 29, 2, outletInvert))
            .on(RouteFixtures.ground(64, 30, 0.5, (x, y) -> 10));
    return PinnedRoute.grade(
        g,
        RouteFixtures.line(xy),
        OutletTarget.of(g.site().outlets().get(0), g),
        Bounds.of(g.site().drain(), g.settings()));
  }

  @Test
  void aLineWithFallEnoughIsGradedAsDrawn() {
    PinnedRoute pinned = grade(9.4, 2, 2, 29, 2);
    assertTrue(pinned.works(), pinned.faults().toString());
    assertEquals(27, pinned.line().orElseThrow().lengthM(), 1e-9);
  }

  @Test
  void aLineWithoutFallIsToldTheLeastChangeOfEachLimit() {
    // flat ground: the pipe starts 0.266 m deep at 9.734 and arrives 0.27 m lower, at 9.464
    PinnedRoute pinned = grade(9.5, 2, 2, 29, 2);
    assertFalse(pinned.works());
    assertTrue(pinned.faults().get(0).contains("0.036 m below outlet CB"));
    assertEquals("outlet", pinned.relax().get(0).limit());
    assertEquals(0.036, pinned.relax().get(0).by(), 1e-9);
    assertEquals("min-cover", pinned.relax().get(1).limit());
    assertEquals(0.036, pinned.relax().get(1).by(), 1e-9);
    assertEquals("min-grade", pinned.relax().get(2).limit());
    assertEquals((9.734 - 9.5) / 27, pinned.relax().get(2).by(), 2e-5);
    assertEquals(0.036, RelaxationFinder.shortfallM(pinned.relax()).orElseThrow(), 1e-9);
  }

  @Test
  void aLineThroughTheHouseOffTheGroundOrShortOfTheOutletIsToldSo() {
    assertTrue(grade(9, 2, 6, 29, 6, 29, 2).faults().get(0).contains("building house"));
    assertTrue(grade(9, 2, 2, 60, 2).faults().get(0).contains("leaves the known ground"));
    assertTrue(grade(9, 2, 2, 27, 2).faults().get(0).contains("2.00 m from outlet CB"));
  }
}
