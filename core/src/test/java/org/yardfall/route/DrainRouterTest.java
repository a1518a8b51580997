package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.trench.MetrePrice;

/** Whole drains on invented lots. */
class DrainRouterTest {

  /**
   * A lot of 20 × 40 m that falls 1.5 % to a street along its south side, a house in the middle.
   */
  private static RouteFixtures.SiteMaker lot() {
    return RouteFixtures.site()
        .lot(RouteFixtures.box(10, 10, 30, 50))
        .neighbour(RouteFixtures.box(-10, 10, 10, 50))
        .neighbour(RouteFixtures.box(30, 10, 50, 50))
        .building(RouteFixtures.box(15, 25, 25, 35))
        .outlet(RouteFixtures.outlet("CB", Outlet.Kind.CATCH_BASIN, 20, 7, 9.2));
  }

  private static ElevationGrid slope() {
    return RouteFixtures.ground(
        80, 120, 0.5, (x, y) -> 10 + 0.015 * (y - 10) + 0.01 * Math.sin(3 * x) * Math.cos(2.3 * y));
  }

  private static Optional<Draft> route(RouteGround g, String collector) {
    Bounds b = Bounds.of(g.site().drain(), g.settings());
    return DrainRouter.of(g, List.of((LineString) RouteFixtures.wkt(collector)))
        .route(
            g.site().outlets().stream().map(o -> OutletTarget.of(o, g)).toList(),
            b,
            TrenchCost.price(MetrePrice.of(g.site())));
  }

  @Test
  void aPerimeterDrainAtTheBackReachesTheBasinInTheStreet() {
    RouteGround g = lot().on(slope());
    Draft draft = route(g, "LINESTRING(10.7 49.3, 29.3 49.3)").orElseThrow();
    assertEquals("CB", draft.outletId());
    assertTrue(g.permits(draft.main().vertices()), g.whyNot(draft.main().vertices()));
  }

  @Test
  void aRingRoundTheHouseFallsBothWaysToItsExit() {
    RouteGround g =
        lot()
            .slab(RouteFixtures.box(19, 10, 20.5, 25))
            .obstacle(
                Obstacle.Kind.SPRINKLER,
                Obstacle.Passage.UNDER,
                RouteFixtures.wkt("LINESTRING(10 15, 30 15)"),
                0.3,
                Double.NaN)
            .on(slope());
    Draft draft = route(g, "LINESTRING(14 24, 26 24, 26 36, 14 36, 14 24)").orElseThrow();
    assertEquals(1, draft.branches().size());
  }

  @Test
  void twoLinesShareATrunkAndTheBranchArrivesNoLowerThanTheMain() {
    RouteGround g = lot().on(slope());
    Draft draft =
        DrainRouter.of(
                g,
                List.of(
                    (LineString) RouteFixtures.wkt("LINESTRING(10.7 49.3, 29.3 49.3)"),
                    (LineString) RouteFixtures.wkt("LINESTRING(10.7 40, 10.7 20)")))
            .route(
                g.site().outlets().stream().map(o -> OutletTarget.of(o, g)).toList(),
                Bounds.of(g.site().drain(), g.settings()),
                TrenchCost.price(MetrePrice.of(g.site())))
            .orElseThrow();
    assertTrue(draft.unserved().isEmpty());
    assertTrue(draft.branches().size() >= 1);
    for (Route.Branch branch : draft.branches()) {
      List<Station> s = branch.line().stations();
      double main = DrainRouter.invertAt(draft.main(), branch.junctionM());
      assertTrue(s.get(s.size() - 1).invertM() >= main - 1e-6);
    }
    Audit audit =
        RouteAuditor.audit(
            g.site(),
            g.ground(),
            g.settings(),
            g.site().outlets().get(0),
            draft.main(),
            draft.branches());
    assertTrue(audit.passed(), audit.checks().toString());
  }

  /** Ground falls both ways from a crest in a further line, too high to dig through. */
  @Test
  void aLineOverACrestIsJoinedByABranchEachWay() {
    RouteGround g =
        lot()
            .on(
                RouteFixtures.ground(
                    80,
                    120,
                    0.5,
                    (x, y) ->
                        13
                            + 0.04 * (y - 10)
                            + 2 * Math.max(0, 1 - Math.hypot(x - 11, y - 38) / 5)));
    Draft draft =
        DrainRouter.of(
                g,
                List.of(
                    (LineString) RouteFixtures.wkt("LINESTRING(28 48, 28 20)"),
                    (LineString) RouteFixtures.wkt("LINESTRING(11 46, 11 30)")))
            .route(
                g.site().outlets().stream().map(o -> OutletTarget.of(o, g)).toList(),
                Bounds.of(g.site().drain(), g.settings()),
                TrenchCost.price(MetrePrice.of(g.site())))
            .orElseThrow();
    assertEquals(2, draft.branches().size());
    assertTrue(
        draft.notes().stream().anyMatch(n -> n.contains("another order may cost less")),
        draft.notes().toString());
    assertEquals(0, draft.unservedM(), 1e-9);
    Audit audit =
        RouteAuditor.audit(
            g.site(),
            g.ground(),
            g.settings(),
            g.site().outlets().get(0),
            draft.main(),
            draft.branches());
    assertTrue(audit.passed(), audit.checks().toString());
  }
}
