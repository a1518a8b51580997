package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.BadInputException;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Given;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;

/** Lines that the user drew, as part of a plan, on yards whose answer is known beforehand. */
class PinnedPlanTest {

  private static final double FOOT = 0.3048;

  @Test
  void aDrawnLineThatCanBeBuiltIsTheFirstRoute() {
    Yard yard = Yard.slope().fromNorth(300).basin(20, 2, 9);
    RoutePlan plan = yard.plan(yard.drawn("LINESTRING(12 40, 20 30, 20 2.3)"));
    Route first = plan.routes().get(0);
    assertEquals(DrainKind.PINNED, first.kind());
    assertTrue(first.audit().passed());
    assertEquals(2, first.main().vertices().get(2).y, 1e-9);
    assertTrue(first.reasons().contains("graded as you drew it (line mine)"));
    assertTrue(
        first.reasons().contains("its end, drawn 0.30 m from outlet CB1, was put there"),
        first.reasons().toString());
    assertEquals(DrainKind.PERIMETER, plan.routes().get(1).kind());
  }

  /** A line that ends on another is its branch, whichever way it was drawn: a wye joins them. */
  @Test
  void aDrawnLineThatEndsOnAnotherIsItsBranch() {
    for (String drawn : List.of("LINESTRING(30 38, 20.2 20)", "LINESTRING(20.2 20, 30 38)")) {
      Yard yard = Yard.slope().basin(20, 2, 9);
      RoutePlan plan = yard.plan(yard.drawnLines("LINESTRING(20 40, 20 2)", drawn));
      Route first = plan.routes().get(0);
      assertEquals(DrainKind.PINNED, first.kind());
      assertTrue(first.audit().passed());
      assertEquals(1, first.branches().size());
      Route.Branch branch = first.branches().get(0);
      assertEquals(20, branch.junctionM(), 0.2);
      List<Station> stations = branch.line().stations();
      Station end = stations.get(stations.size() - 1);
      assertEquals(20, end.x(), 1e-9);
      assertTrue(end.invertM() >= DrainRouter.invertAt(first.main(), branch.junctionM()) - 1e-9);
      assertEquals(30, stations.get(0).x(), 1e-9);
      assertEquals(38 + Math.hypot(10, 18), first.lengthM(), 0.3);
      assertTrue(plan.rejected().stream().noneMatch(no -> no.kind() == DrainKind.PINNED));
    }
  }

  /**
   * The branch rises from low ground: level 9.7 over 20 m at 1 % arrives 0.267 + 0.2 below that, at
   * 9.233. The main line alone would lie at 10 - 0.267 - 0.2 = 9.533 there and must be laid lower.
   */
  @Test
  void theMainLineIsLaidLowEnoughForItsBranch() {
    Yard yard = Yard.lot((x, y) -> x > 20.5 ? 9.7 : 10).basin(20, 6, 9);
    RoutePlan plan =
        yard.plan(yard.drawnLines("LINESTRING(20 38, 20 6)", "LINESTRING(34 32.28, 20 18)"));
    assertFalse(plan.routes().isEmpty(), plan.rejected().toString());
    Route first = plan.routes().get(0);
    assertEquals(DrainKind.PINNED, first.kind(), plan.rejected().toString());
    double there = DrainRouter.invertAt(first.main(), first.branches().get(0).junctionM());
    assertTrue(there <= 9.7 - 0.267 - 0.01 * Math.hypot(14, 14.28) + 1e-3, "at " + there);
    assertTrue(first.audit().passed());
  }

  @Test
  void aBranchThatCannotFallToItsMainLineIsToldApart() {
    Yard yard = Yard.lot((x, y) -> x > 20.5 ? 9.4 : 10).basin(20, 6, 9.2);
    RoutePlan plan =
        yard.plan(yard.drawnLines("LINESTRING(20 38, 20 6)", "LINESTRING(34 32, 20 18)"));
    Rejection no =
        plan.rejected().stream()
            .filter(r -> r.kind() == DrainKind.PINNED)
            .findFirst()
            .orElseThrow();
    assertTrue(no.sentence().contains("alone it falls, but not from low enough"), no.sentence());
  }

  @Test
  void aLineDrawnUphillIsTurned() {
    RoutePlan plan = Yard.slope().basin(20, 2, 9).pinned("LINESTRING(20 2, 20 40)");
    assertEquals(40, plan.routes().get(0).main().vertices().get(0).y, 1e-9);
  }

  /** At its end it lies beside its own outlet, and in the ditch below the ditch's water. */
  @Test
  void aLineDrawnIntoADitchDoesNotLeadBackToItself() {
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.02 * y - (y < 3 ? 0.8 : 0))
            .outlet(
                new Outlet(
                    "D1",
                    Outlet.Kind.DITCH,
                    new Coordinate(20, 2.5),
                    OptionalDouble.of(9.4),
                    OptionalDouble.of(9.5),
                    OptionalDouble.empty(),
                    ""));
    RoutePlan plan = yard.pinned("LINESTRING(20 40, 20 2.5)");
    assertEquals(1, plan.routes().size(), plan.rejected().toString());
    assertEquals("D1", plan.routes().get(0).outletId());
  }

  @Test
  void aLineThroughTheHouseIsToldHowFarToMove() {
    // The house begins at x = 18; its distance of 0.9 m at 17.1. Drawn at x = 18.6: 1.5 m too far.
    RoutePlan plan =
        Yard.slope()
            .house("POLYGON((18 20, 26 20, 26 30, 18 30, 18 20))")
            .basin(18.6, 2, 9)
            .pinned("LINESTRING(18.6 40, 18.6 2)");
    assertTrue(plan.routes().isEmpty());
    Rejection x = plan.rejected().get(0);
    assertEquals("as-drawn", x.code());
    assertTrue(x.sentence().contains("it meets building B1: move it 1.50 m"), x.sentence());
  }

  @Test
  void aLineWithoutFallIsToldEachLeastChange() {
    RoutePlan plan = Yard.lot((x, y) -> 10).basin(20, 8, 9.5).pinned("LINESTRING(20 38, 20 8)");
    Rejection x = plan.rejected().get(0);
    // 10 - 0.267 at the upper end, 0.30 m of fall: arrives at 9.433, 0.067 m too low.
    assertEquals(0.067, x.shortfallM().orElseThrow(), 1e-3);
    assertTrue(x.sentence().contains("the outlet 0.067 m lower"), x.sentence());
  }

  @Test
  void aLineOffTheGroundStopsThePlanInOneLine() {
    BadInputException e =
        assertThrows(
            BadInputException.class,
            () -> Yard.slope().basin(20, 2, 9).pinned("LINESTRING(20 40, 60 40, 20 2)"));
    assertEquals(1, e.problems().size());
    assertTrue(e.getMessage().contains("leaves the known ground 20."));
  }

  /**
   * Of three inches of fall, a run of 25 ft takes all at 1 % and one of 50 ft at 0.5 %: arithmetic.
   */
  @Test
  void threeInchesOfFallReachTheCurbOverTwentyFiveFeetAtOnePercentAndFiftyAtHalf() {
    assertTrue(reachesCurb(24.9 * FOOT, 0.01));
    assertFalse(reachesCurb(25.5 * FOOT, 0.01));
    assertTrue(reachesCurb(49.9 * FOOT, 0.005));
    assertFalse(reachesCurb(50.5 * FOOT, 0.005));
  }

  private static boolean reachesCurb(double lengthM, double minGrade) {
    double head = 10 - 0.15 - 0.117;
    Yard yard =
        Yard.lot((x, y) -> 10)
            .outlet("curb", Outlet.Kind.CATCH_BASIN, 20, 6, head - 0.25 * FOOT)
            .limits(Given.limits(minGrade, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.117, 0.102));
    return !yard.pinned("LINESTRING(20 " + (6 + lengthM) + ", 20 6)").routes().isEmpty();
  }

  /** Distances of one practice: 25 ft upslope of a septic field, 50 ft downslope. */
  @Test
  void aSepticFieldIsPassedNearerUpslopeThanDownslope() {
    checkBesideSeptic(true, 26 * FOOT);
    checkBesideSeptic(false, 24 * FOOT);
    checkBesideSeptic(false, -26 * FOOT);
    checkBesideSeptic(true, -51 * FOOT);
  }

  /** To an inch, of either distance. */
  @Test
  void theDistancesFromASepticFieldAreKeptAndNoMore() {
    double inch = FOOT / 12;
    checkBesideSeptic(true, 25 * FOOT + inch);
    checkBesideSeptic(false, 25 * FOOT - inch);
    checkBesideSeptic(true, -50 * FOOT - inch);
    checkBesideSeptic(false, -50 * FOOT + inch);
  }

  /** From 24 ft upslope it is a foot to the 25, from 49 ft downslope a foot to the 50. */
  @Test
  void aLineTooNearASepticFieldIsToldToMoveByWhatIsLacking() {
    for (double upslopeFt : new double[] {24, -49}) {
      Rejection no = besideSeptic(25 + upslopeFt * FOOT).rejected().get(0);
      double told =
          Double.parseDouble(
              no.sentence().replaceAll(".*meets septic field: move it ([0-9.]+) m.*", "$1"));
      assertEquals(FOOT, told, 0.016, no.sentence());
    }
  }

  private static void checkBesideSeptic(boolean passes, double upslopeM) {
    double y = 25 + upslopeM;
    Yard yard = septic(y);
    RoutePlan plan = besideSeptic(y);
    assertEquals(passes, !plan.routes().isEmpty(), plan.rejected().toString());
    // The audit finds the same from the line alone.
    Site site = yard.site();
    DrainLine line = flat(yard, y);
    Audit audit =
        RouteAuditor.audit(
            site,
            yard.ground,
            RouteSettings.defaults(site.drain()),
            site.outlets().get(0),
            line,
            List.of());
    assertEquals(passes, clear(audit), audit.toString());
  }

  private static RoutePlan besideSeptic(double y) {
    return septic(y).pinned("LINESTRING(8 " + y + ", 33 " + y + ")");
  }

  /** A septic field in the middle of a slope of 5 % and a basin as far north as told. */
  private static Yard septic(double y) {
    Yard yard = Yard.lot((x, z) -> 10 + 0.05 * z).basin(33, y, 10 + 0.05 * y - 1);
    yard.obstacles.add(
        new Obstacle(
            "field",
            Obstacle.Kind.SEPTIC,
            Yard.wkt("POINT(20 25)"),
            25 * FOOT,
            Obstacle.Passage.NONE,
            OptionalDouble.empty(),
            0.3,
            OptionalDouble.of(25 * FOOT),
            OptionalDouble.of(50 * FOOT),
            false,
            OptionalDouble.empty()));
    return yard;
  }

  private static boolean clear(Audit audit) {
    return audit.checks().stream()
        .filter(c -> c.name().equals("clearance"))
        .allMatch(Audit.Check::passed);
  }

  /** The line as it would be laid were the septic field not there. */
  private static DrainLine flat(Yard yard, double y) {
    Obstacle field = yard.obstacles.remove(0);
    DrainLine line = yard.pinned("LINESTRING(8 " + y + ", 33 " + y + ")").routes().get(0).main();
    yard.obstacles.add(field);
    return line;
  }

  @Test
  void aDrainThatMustStayInAnEasementLeavesTheLotOnlyThere() {
    Yard yard =
        Yard.slope()
            .fromNorth(300)
            .outlet("beside", Outlet.Kind.CATCH_BASIN, 15, 2, 9)
            .outlet("within", Outlet.Kind.CATCH_BASIN, 29.5, 2, 9);
    yard.obstacles.add(
        new Obstacle(
            "strip",
            Obstacle.Kind.EASEMENT,
            Yard.wkt("POLYGON((28 0, 31 0, 31 6, 28 6, 28 0))"),
            0,
            Obstacle.Passage.UNDER,
            OptionalDouble.empty(),
            0.3,
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            true,
            OptionalDouble.empty()));
    RoutePlan plan = yard.plan(yard.drawn("LINESTRING(15 40, 15 2)"));
    assertFalse(plan.routes().isEmpty());
    for (Route route : plan.routes()) {
      assertEquals("within", route.outletId());
      assertTrue(
          route.audit().checks().stream().anyMatch(c -> c.name().equals("stay-inside")),
          route.audit().toString());
    }
    Rejection drawn = plan.rejected().get(0);
    assertEquals(DrainKind.PINNED, drawn.kind());
    assertTrue(drawn.sentence().contains("easement that it must stay in"), drawn.sentence());
  }

  @Test
  void whatIsOnlyToBeBoredUnderIsNotDugThrough() {
    Yard yard =
        Yard.slope()
            .obstacle(Obstacle.Kind.WALL, Obstacle.Passage.BORE, 0.5, "LINESTRING(5 20, 35 20)")
            .basin(20, 2, 9);
    Route bored = yard.pinned("LINESTRING(20 40, 20 2)").routes().get(0);
    Site site = yard.site();
    DrainLine dug = Spans.of(bored.main(), s -> Station.Span.OPEN);
    Audit audit =
        RouteAuditor.audit(
            site,
            yard.ground,
            RouteSettings.defaults(site.drain()),
            site.outlets().get(0),
            dug,
            List.of());
    assertTrue(
        audit.checks().stream()
            .anyMatch(c -> c.name().equals("bore wall0 open trench") && !c.passed()),
        audit.toString());
  }

  @Test
  void aLineAlongThePropertyLineIsToldHowFarInwardToMove() {
    RoutePlan plan = Yard.slope().basin(20, 2, 9).pinned("LINESTRING(5.2 40, 5.2 10, 20 2)");
    Rejection x = plan.rejected().get(0);
    // The setback is 0.6 m: 0.4 m are lacking.
    assertTrue(x.sentence().contains("move it 0.40 m inward"), x.sentence());
  }

  @Test
  void aBendUnderASlabIsToldHowFarToMove() {
    RoutePlan plan =
        Yard.slope()
            .slab("POLYGON((0 18, 40 18, 40 20, 0 20, 0 18))")
            .basin(20, 2, 9)
            .pinned("LINESTRING(20 40, 20 19.4, 18 10, 20 2)");
    String said = plan.rejected().get(0).sentence();
    assertTrue(said.contains("it bends under a slab: move the bend 0.60 m"), said);
  }

  /** Ground steeper than the greatest grade is met by drops, each of which the builder is told. */
  @Test
  void dropsOfADrawnLineAreTold() {
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.02 * y + 3 * Math.max(0, Math.min(1, (y - 22) / 8)))
            .basin(20, 2, 9);
    Route route = yard.pinned("LINESTRING(20 40, 20 2)").routes().get(0);
    assertTrue(
        route.reasons().stream().anyMatch(r -> r.matches("drop of \\d\\.\\d\\d m at station.*")),
        route.reasons().toString());
  }

  /** The arithmetic stands beside {@code RouteFinderTest}'s: a 6 in pipe would leave a belly. */
  @Test
  void aDrawnLineUnderASlabTakesTwoPipesWhereOneWouldLeaveABelly() {
    Yard yard =
        Yard.of(30, 30, 0.5, (x, y) -> 10)
            .lot("POLYGON((5 5, 25 5, 25 25, 5 25, 5 5))")
            .slab("POLYGON((0 8, 30 8, 30 9.5, 0 9.5, 0 8))")
            .basin(15, 11, 9.640)
            .limits(Given.limits(0.001, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.1778, 0.1524));
    Route route = yard.pinned("LINESTRING(15 6, 15 11)").routes().get(0);
    assertEquals(2, route.bores().get(0).pipes().count());
  }

  /** A ridge and a high outlet: no depth alone and no lower outlet alone, but both together. */
  @Test
  void whereNoLimitAloneMendsALineTwoTogetherAreNamed() {
    Yard yard =
        Yard.lot((x, y) -> 10 + 2 * Math.max(0, 1 - Math.abs(y - 20) / 3)).basin(20, 8, 9.7);
    Rejection x = yard.pinned("LINESTRING(20 38, 20 8)").rejected().get(0);
    // 9.733 - 0.3 arrives 0.267 m too low: that much lower. At the crest, 12 m less 0.18 m along
    // the way, the pipe lies at 9.553: 2.45 m deep, of which 1.2 m are allowed.
    assertTrue(x.relax().isEmpty(), x.relax().toString());
    assertTrue(x.sentence().contains("as much more depth together would"), x.sentence());
  }

  @Test
  void aBoreLongerThanTheSiteAllowsIsTold() {
    Yard yard = Yard.slope().slab("POLYGON((0 18, 40 18, 40 20, 0 20, 0 18))").basin(20, 2, 9);
    DrainLimits d = yard.limits;
    yard.limits(
        new DrainLimits(
            d.minGrade(),
            d.maxGrade(),
            d.minCoverM(),
            d.maxDepthM(),
            d.setbackM(),
            d.fromBuildingM(),
            d.trenchWidthM(),
            d.pipeOutsideM(),
            d.pipeInsideM(),
            d.verticalClearanceM(),
            1.5,
            d.gradeLine()));
    String said = yard.pinned("LINESTRING(20 40, 20 2)").rejected().get(0).sentence();
    assertTrue(said.contains("a bore of 2.0 m is longer than the 1.5 m allowed"), said);
  }
}
