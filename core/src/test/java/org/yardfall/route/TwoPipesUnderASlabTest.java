package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.drain.TakeOff;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Building;
import org.yardfall.site.Given;
import org.yardfall.site.Site;

/**
 * A walk across the only way out, under which one 6 in pipe would leave a belly: two 4 in pipes
 * side by side, with a wye and reducers at both ends ({@code common practice, no source}), from the
 * planner to the bill.
 */
class TwoPipesUnderASlabTest {

  /**
   * Flat ground at 10 m; 4 in slab on 4 in base; 1 % at least. The outlet lies 6 m beyond the
   * slab's lower edge. Under the slab a 6 in pipe of 168 mm outside lies at 10 − 0.203 − 0.168 =
   * 9.629 at most at the upper edge, so at 9.557 where it arrives; two of 114 mm may lie 54 mm
   * higher, but the way to the slab takes some of that: about 9.60.
   */
  private static Yard yard(double outletM) {
    return Yard.of(20, 40, 0.5, (x, y) -> 10)
        .lot("POLYGON((4 15, 16 15, 16 30, 4 30, 4 15))")
        .slab("POLYGON((2 20, 18 20, 18 21.2, 2 21.2, 2 20))")
        .inflow("north", 300, "LINESTRING(4 30, 16 30)")
        .basin(10, 14, outletM)
        .limits(Given.limits(0.01, 0.2, 0.03, 1.2, 0.6, 0.9, 0.45, 0.168, 0.154));
  }

  @Test
  void onePipeIsLaidWhereItFits() {
    Route route = yard(9.50).plan().routes().get(0);
    assertEquals(1, route.bores().size());
    assertEquals(1, route.bores().get(0).pipes().count());
  }

  @Test
  void twoAreLaidWhereOneWouldLeaveABelly() {
    Yard yard = yard(9.58);
    Route route = yard.plan().routes().get(0);
    assertTrue(route.audit().passed());
    assertEquals(1, route.bores().size());
    assertEquals(2, route.bores().get(0).pipes().count());
    assertEquals(4, route.bores().get(0).pipes().pipe().nominalIn(), 0);
    assertTrue(
        route.reasons().stream()
            .anyMatch(r -> r.contains("two 4 in pipes side by side") && r.contains("wye")),
        route.reasons().toString());
    checkNoBelly(route);
    DrainDesign design =
        DrainDesigner.design(
            route, yard.site(), yard.terrain(), yard.water(), Storm.of(yard.site().storm()));
    TakeOff bill = design.takeOff();
    assertEquals(2 * route.bores().get(0).lengthM(), needed(bill, "bore"), 1e-6);
    assertEquals(2, needed(bill, "slab-wye"), 0);
    assertEquals(4, needed(bill, "slab-reducer"), 0);
  }

  /** Not even two smaller pipes fit under a slab above this outlet. */
  @Test
  void whereNeitherFitsItIsRefusedWithTheShortfall() {
    RoutePlan plan = yard(9.70).plan();
    assertTrue(plan.routes().isEmpty());
    assertTrue(
        plan.rejected().stream().anyMatch(r -> r.shortfallM().orElse(0) > 0.05),
        plan.rejected().toString());
  }

  /**
   * Two pipes would fall, but too near a footing (made up so high that every way is within its
   * influence): the outlet is not reached, and what one pipe lacks is told as well.
   */
  @Test
  void twoPipesThatFailALaterRuleReachNothing() {
    Yard yard = yard(9.58);
    yard.buildings.add(
        new Building(
            "plinth",
            (Polygon) Yard.wkt("POLYGON((12 12, 14 12, 14 14, 12 14, 12 12))"),
            OptionalDouble.of(12.5)));
    RoutePlan plan = yard.plan();
    assertTrue(plan.routes().isEmpty());
    List<Rejection> perimeter =
        plan.rejected().stream().filter(r -> r.kind() == DrainKind.PERIMETER).toList();
    assertTrue(perimeter.stream().anyMatch(r -> r.code().equals("footing")), "" + perimeter);
    assertTrue(
        perimeter.stream()
            .anyMatch(r -> r.outletId().equals("CB1") && r.shortfallM().orElse(0) > 0.01),
        "" + perimeter);
  }

  @Test
  void aDrawnLineGetsTheTwoPipesToo() {
    Yard yard = yard(9.58);
    Site drawn = yard.drawn("LINESTRING(10 28, 10 14)", "CB1");
    RoutePlan plan = RouteFinder.pinned(drawn, yard.terrain(), yard.water());
    Route route = plan.routes().get(0);
    assertTrue(route.audit().passed());
    assertEquals(2, route.bores().get(0).pipes().count());
    checkNoBelly(route);
  }

  /** The audit does not take two pipes' height for one pipe's. */
  @Test
  void theAuditOfOnePipeOnTheSameLineFails() {
    Yard yard = yard(9.58);
    Route route = yard.plan().routes().get(0);
    Audit audit =
        RouteAuditor.audit(
            yard.site(),
            yard.ground,
            RouteSettings.defaults(yard.limits),
            yard.outlets.get(0),
            route.main(),
            route.branches());
    assertFalse(audit.passed());
  }

  /** Falls all the way, and in one grade from edge to edge of the slab. */
  private static void checkNoBelly(Route route) {
    double bore = Double.NaN;
    List<Station> stations = route.main().stations();
    for (int i = 1; i < stations.size(); i++) {
      Station a = stations.get(i - 1);
      Station b = stations.get(i);
      double run = b.stationM() - a.stationM();
      assertTrue(a.invertM() - b.invertM() >= 0.01 * run - 1e-6);
      if (a.span() == Station.Span.BORED && run > 0.01) {
        double grade = (a.invertM() - b.invertM()) / run;
        assertTrue(Double.isNaN(bore) || Math.abs(bore - grade) < 1e-6);
        bore = grade;
      }
    }
    assertFalse(Double.isNaN(bore));
  }

  private static double needed(TakeOff bill, String code) {
    return bill.lines().stream()
        .filter(l -> l.code().equals(code))
        .findFirst()
        .orElseThrow()
        .needed();
  }
}
