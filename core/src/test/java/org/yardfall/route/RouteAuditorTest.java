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
import net.jqwik.api.lifecycle.AfterContainer;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.Outlet;
import org.yardfall.trench.MetrePrice;

/** The audit against the search on random lots, and against lines spoilt on purpose. */
class RouteAuditorTest {

  private static int routed;
  private static int refused;

  private static Optional<Draft> route(RandomLots lot) {
    return DrainRouter.of(lot.ground(), lot.collectors())
        .route(lot.targets(), lot.bounds(), TrenchCost.price(MetrePrice.of(lot.ground().site())));
  }

  private static Audit audit(
      RandomLots lot, DrainLine main, List<Route.Branch> branches, String to) {
    Outlet outlet =
        lot.ground().site().outlets().stream().filter(o -> o.id().equals(to)).findFirst().get();
    return RouteAuditor.audit(
        lot.ground().site(),
        lot.ground().ground(),
        lot.ground().settings(),
        outlet,
        main,
        branches);
  }

  private static String failures(Audit audit) {
    return audit.checks().stream().filter(c -> !c.passed()).toList().toString();
  }

  @Property(tries = 1000, seed = "7", shrinking = ShrinkingMode.OFF)
  void everyProposedRoutePassesTheAuditAndEveryFeasibleLotGetsOne(
      @ForAll @LongRange(min = 0, max = 1_000_000_000) long seed) {
    RandomLots lot = RandomLots.of(seed);
    if (!lot.collectorsPermitted()) {
      return;
    }
    Optional<Draft> draft = route(lot);
    boolean feasible =
        DrainRouter.of(lot.ground(), lot.collectors()).feasible(lot.targets(), lot.bounds());
    assertEquals(feasible, draft.isPresent());
    if (draft.isEmpty()) {
      refused++;
      return;
    }
    routed++;
    Draft d = draft.get();
    Audit audit = audit(lot, d.main(), d.branches(), d.outletId());
    assertTrue(audit.passed(), () -> seed + ": " + failures(audit));
  }

  @AfterContainer
  static void bothAnswersWereSeen() {
    assertTrue(routed > 300, "routed " + routed);
    assertTrue(refused > 50, "refused " + refused);
  }

  private static Station raised(Station s, double byM) {
    return new Station(
        s.stationM(),
        s.x(),
        s.y(),
        s.groundM(),
        s.invertM() + byM,
        s.coverM() - byM,
        s.depthM() - byM,
        s.grade(),
        s.span());
  }

  private static void checkSpoilt(String check, double raiseM, int station) {
    RandomLots lot = RandomLots.of(1);
    for (long seed = 2; route(lot).isEmpty(); seed++) {
      lot = RandomLots.of(seed);
    }
    Draft d = route(lot).orElseThrow();
    List<Station> stations = new java.util.ArrayList<>(d.main().stations());
    int first = station < 0 ? 0 : station;
    int last = station < 0 ? stations.size() - 1 : station;
    for (int i = first; i <= last; i++) {
      stations.set(i, raised(stations.get(i), raiseM));
    }
    Audit audit = audit(lot, new DrainLine(d.main().vertices(), stations), List.of(), d.outletId());
    assertFalse(audit.passed());
    assertTrue(failures(audit).contains("name=" + check), failures(audit));
  }

  @net.jqwik.api.Example
  void aPipeRaisedOutOfItsCoverIsCaught() {
    checkSpoilt("cover", 0.5, -1);
  }

  @net.jqwik.api.Example
  void aPipeTooDeepIsCaught() {
    checkSpoilt("depth", -1.5, -1);
  }

  @net.jqwik.api.Example
  void aPipeBelowTheOutletIsCaught() {
    checkSpoilt("outlet-invert", -1.5, -1);
  }

  @net.jqwik.api.Example
  void oneStationRaisedByAHandIsCaught() {
    checkSpoilt("falls", 0.10, 3);
  }

  @net.jqwik.api.Example
  void aLineThroughTheHouseIsCaught() {
    RandomLots lot = RandomLots.of(1);
    Coordinate house =
        lot.ground().site().buildings().get(0).outline().getCentroid().getCoordinate();
    Coordinate end = lot.targets().get(0).at();
    List<Coordinate> line = List.of(new Coordinate(house.x, house.y + 5), end);
    DrainLine drawn =
        GradeLine.fewestBreaks(
                lot.ground().line(line).orElseThrow(),
                lot.bounds().withMaxDepth(9).withMinGrade(0.001),
                Double.NaN)
            .orElseThrow();
    assertTrue(failures(audit(lot, drawn, List.of(), "A")).contains("name=building"));
    assertFalse(lot.ground().permits(line));
  }
}
