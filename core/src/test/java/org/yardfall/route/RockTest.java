package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Given;
import org.yardfall.site.Obstacle;

/**
 * Rock near the ground in places. The trench ends above it, by a bed of 2 in (International
 * Residential Code R405.1) and the pipe's wall; where that leaves no room for a pipe and its cover,
 * no trench is dug, and an open swale is named.
 */
class RockTest {

  private static final double OUTSIDE_M = 0.117;
  private static final double INSIDE_M = 0.102;
  private static final double COVER_M = 0.15;
  private static final double BED_AND_WALL_M = 2 * 0.0254 + (OUTSIDE_M - INSIDE_M) / 2;

  /** Across the whole lot, from y = 18 to 22. */
  private static final String ACROSS = "POLYGON((0 18, 40 18, 40 22, 0 22, 0 18))";

  private static Yard rock(Yard yard, double depthM, String wkt) {
    yard.obstacles.add(
        new Obstacle(
            "ledge",
            Obstacle.Kind.ROCK,
            Yard.wkt(wkt),
            0,
            Obstacle.Passage.UNDER,
            OptionalDouble.empty(),
            0.3,
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            false,
            OptionalDouble.of(depthM)));
    return yard;
  }

  /**
   * Level ground and 1 % of fall toward the basin: from 0.267 m deep at the drawn line's upper end
   * the pipe is 0.20 m lower at the lower edge of the ledge, 20 m on, and by half the trench's
   * width more where the trench is off it.
   */
  @Test
  void aTrenchEndsAboveTheRockAndIsRefusedWhereItCannot() {
    double needs = COVER_M + OUTSIDE_M + 0.01 * 20.224 + BED_AND_WALL_M;
    assertFalse(level(needs + 0.005).routes().isEmpty());
    RoutePlan no = level(needs - 0.005);
    assertTrue(no.routes().isEmpty());
    String said = no.rejected().get(0).sentence();
    String allowed = String.format(Locale.ROOT, "%.2f m", needs - 0.005 - BED_AND_WALL_M);
    assertTrue(
        said.contains("is deeper than " + allowed + ", all that the rock there allows"), said);
  }

  private static RoutePlan level(double rockM) {
    return rock(Yard.lot((x, y) -> 10).basin(20, 8, 9.2), rockM, ACROSS)
        .pinned("LINESTRING(20 38, 20 8)");
  }

  /** The search finds the way over the rock too, and the audit measures it anew. */
  @Test
  void theSearchKeepsAboveTheRockAndTheAuditMeasuresIt() {
    Yard yard = rock(Yard.slope().fromNorth(300).basin(20, 2, 9), 0.5, ACROSS);
    RoutePlan plan = yard.plan();
    assertFalse(plan.routes().isEmpty(), plan.rejected().toString());
    Geometry ledge = Yard.wkt(ACROSS).buffer(-0.01);
    for (Route route : plan.routes()) {
      AuditedLine line = new AuditedLine(route.main(), yard.ground);
      for (AuditedLine.Place p : line.places) {
        if (ledge.contains(Yard.wkt("POINT(" + p.at().x + " " + p.at().y + ")"))) {
          double bottom = p.invertM() - BED_AND_WALL_M;
          assertTrue(bottom >= p.groundM() - 0.5 - 1e-3, p.toString());
        }
      }
      Audit.Check check = above(route.audit());
      assertTrue(check.passed(), check.toString());
    }
    assertTrue(
        plan.warnings().stream()
            .anyMatch(
                w ->
                    w.startsWith("rock ledge, 0.50 m down, ends every trench there")
                        && w.contains("open swale of 2 % or more")),
        plan.warnings().toString());
  }

  /** The same line on a ledge that was not known of fails. */
  @Test
  void theAuditTellsATrenchThatRunsIntoRock() {
    Yard yard = Yard.slope().fromNorth(300).basin(20, 2, 9);
    Route route = yard.plan().routes().get(0);
    double deepest =
        new AuditedLine(route.main(), yard.ground)
            .places.stream()
                .filter(p -> p.at().y > 18.1 && p.at().y < 21.9)
                .mapToDouble(p -> p.groundM() - p.invertM() + BED_AND_WALL_M)
                .max()
                .orElseThrow();
    for (double off : new double[] {-0.01, 0.01}) {
      Yard over = rock(yard, deepest + off, ACROSS);
      Audit audit =
          RouteAuditor.audit(
              over.site(),
              over.ground,
              RouteSettings.defaults(over.limits),
              over.outlets.get(0),
              route.main(),
              route.branches());
      assertEquals(off > 0, above(audit).passed(), audit.toString());
      over.obstacles.clear();
    }
  }

  /**
   * Bedrock 6 in down leaves no room for 6 in of cover: the drain goes round it, or there is none.
   */
  @Test
  void rockTooNearForAnyPipeIsGoneRoundOrNamed() {
    double sixInches = 6 * 0.0254;
    Yard part =
        rock(
            Yard.slope().fromNorth(300).basin(20, 2, 9),
            sixInches,
            "POLYGON((10 18, 30 18, 30 22, 10 22, 10 18))");
    RoutePlan round = part.plan();
    assertFalse(round.routes().isEmpty(), round.rejected().toString());
    for (Route route : round.routes()) {
      assertTrue(
          route.main().vertices().size() > 2
              && new AuditedLine(route.main(), part.ground)
                  .plan
                  .intersection(Yard.wkt("POLYGON((10 18, 30 18, 30 22, 10 22, 10 18))"))
                  .isEmpty(),
          route.main().vertices().toString());
    }
    RoutePlan none = rock(Yard.slope().fromNorth(300).basin(20, 2, 9), sixInches, ACROSS).plan();
    assertTrue(none.routes().isEmpty());
    Rejection no =
        none.rejected().stream()
            .filter(r -> r.kind() == DrainKind.PERIMETER)
            .findFirst()
            .orElseThrow();
    assertEquals("blocked", no.code());
    assertTrue(no.sentence().contains("meets rock ledge, 0.15 m down"), no.sentence());
    assertTrue(
        none.warnings().stream()
            .anyMatch(
                w ->
                    w.startsWith("rock ledge, 0.15 m down, leaves no room for a pipe")
                        && w.contains("open swale of 2 % or more")),
        none.warnings().toString());
  }

  /** Over rock more depth mends nothing: that limit is not named as a way out. */
  @Test
  void moreDepthIsNotOfferedThroughRock() {
    double needs = COVER_M + OUTSIDE_M + 0.01 * 20.224 + BED_AND_WALL_M;
    List<Rejection.Relaxation> relax = level(needs - 0.02).rejected().get(0).relax();
    assertTrue(relax.stream().noneMatch(r -> r.limit().equals("max-depth")), relax.toString());
    assertTrue(relax.stream().anyMatch(r -> r.limit().equals("min-cover")), relax.toString());
    assertTrue(relax.stream().anyMatch(r -> r.limit().equals("min-grade")), relax.toString());
  }

  /** A larger pipe has less room above the same rock. */
  @Test
  void eachPipeHasItsOwnRoomAboveTheRock() {
    Yard yard = rock(Yard.slope().basin(20, 2, 9), 0.36, ACROSS);
    assertFalse(yard.pinned("LINESTRING(20 40, 20 2)").routes().isEmpty());
    DrainLimits six = Given.limits(0.01, 0.2, COVER_M, 1.2, 0.6, 0.9, 0.45, 0.168, 0.152);
    assertTrue(yard.limits(six).pinned("LINESTRING(20 40, 20 2)").routes().isEmpty());
  }

  private static Audit.Check above(Audit audit) {
    return audit.checks().stream()
        .filter(c -> c.name().endsWith("above-rock"))
        .findFirst()
        .orElseThrow(() -> new AssertionError(audit.toString()));
  }
}
