package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.Crossing;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Given;
import org.yardfall.site.Obstacle;

/** How far and how deep a pipe gets on ground whose answer is a line of arithmetic. */
class FallStoriesTest {

  /** Depth to invert at which a pipe of 0.117 m has its 0.15 m of cover. */
  private static final double LEAST_DEPTH_M = 0.15 + 0.117;

  private static DrainLimits limits(double minGrade, double maxDepthM) {
    return Given.limits(minGrade, 0.2, 0.15, maxDepthM, 0.6, 0.9, 0.45, 0.117, 0.102);
  }

  /** The ground falls 0.4 % toward the basin, the pipe 1 %: of 0.15 m it uses 0.6 cm a metre. */
  @Test
  void onAPlaneTheFeasibleLengthIsTheHeadOverTheDifferenceOfGrades() {
    checkLength(0.004, 0.15, 24.8, true);
    checkLength(0.004, 0.15, 25.3, false);
  }

  /** The ground falls 1 % away from the basin: of 0.3 m the pipe uses 2 cm a metre. */
  @Test
  void againstTheFallOfTheGroundTheLengthIsTheHeadOverTheSumOfGrades() {
    checkLength(-0.01, 0.3, 14.8, true);
    checkLength(-0.01, 0.3, 15.3, false);
  }

  private static void checkLength(double slope, double headM, double lengthM, boolean reaches) {
    double invert = 10 + slope * 8 - LEAST_DEPTH_M - headM;
    Yard yard = Yard.lot((x, y) -> 10 + slope * y).basin(20, 8, invert);
    RoutePlan plan = yard.plan(yard.drawn("LINESTRING(20 " + (8 + lengthM) + ", 20 8)"));
    assertEquals(reaches, !plan.routes().isEmpty(), plan.rejected().toString());
    if (!reaches) {
      double lacks = (0.01 - slope) * lengthM - headM;
      assertEquals(lacks, plan.rejected().get(0).shortfallM().orElseThrow(), 0.002);
    }
  }

  /**
   * A lot that falls 0.3 % only. Water comes over its northern line; the drain's ends lie 14.4 m
   * from its middle and that 42.4 m from the basin.
   */
  @Test
  void aLotFlatterThanHalfAPercentIsDrainedAtHalfAPercentAndNotAtOne() {
    double way = 14.4 + 42.4;
    double start = 10 + 0.003 * 44.4 - LEAST_DEPTH_M;
    RoutePlan half = flat(0.005, start - 0.005 * way - 0.03);
    Route best = half.routes().get(0);
    assertEquals(DrainKind.PERIMETER, best.kind());
    assertTrue(best.audit().passed());
    assertTrue(best.minGrade() >= 0.005 - 1e-6, best.minGrade() + "");
    assertTrue(best.minCoverM() >= 0.15 - 1e-3);

    double invert = start - 0.005 * way - 0.03;
    RoutePlan one = flat(0.01, invert);
    assertTrue(one.routes().isEmpty());
    Rejection no = perimeter(one);
    assertEquals("no-fall", no.code(), no.sentence());
    assertEquals(invert - (start - 0.01 * way), no.shortfallM().orElseThrow(), 0.04, no.sentence());
    double grade =
        no.relax().stream()
            .filter(r -> r.limit().equals("min-grade"))
            .mapToDouble(Rejection.Relaxation::by)
            .findFirst()
            .orElseThrow();
    assertEquals((start - invert) / way, grade, 0.0005, no.sentence());
  }

  private static RoutePlan flat(double minGrade, double invertM) {
    return Yard.lot((x, y) -> 10 + 0.003 * y)
        .fromNorth(300)
        .basin(20, 2, invertM)
        .limits(limits(minGrade, 1.2))
        .plan();
  }

  /**
   * A ridge of 0.5 m between the water and the basin: dug through, or not, by the depth allowed.
   */
  @Test
  void aRidgeIsDugThroughWhereTheGreatestDepthAllows() {
    assertFalse(ridge(1.2).routes().isEmpty());
    Rejection no = perimeter(ridge(0.9));
    assertEquals("too-deep", no.code(), no.sentence());
    // From 10 - 0.267 at the line's ends, 14.4 m to its middle and 18.4 m to the ridge at 26 m.
    double deep = 10.5 - (10 - LEAST_DEPTH_M - 0.01 * (14.4 + 44.4 - 26));
    double by =
        no.relax().stream()
            .filter(r -> r.limit().equals("max-depth"))
            .mapToDouble(Rejection.Relaxation::by)
            .findFirst()
            .orElseThrow();
    assertEquals(deep - 0.9, by, 0.06, no.sentence());
  }

  private static RoutePlan ridge(double maxDepthM) {
    return Yard.lot((x, y) -> 10 + Math.max(0, 0.5 - 0.25 * Math.abs(y - 26)))
        .fromNorth(300)
        .basin(20, 2, 8.9)
        .limits(limits(0.01, maxDepthM))
        .plan();
  }

  /** Rock at half a metre: no trench goes deeper, and where no pipe falls a swale is offered. */
  @Test
  void rockEndsTheTrenchAndASwaleIsOffered() {
    Yard yard = Yard.slope().fromNorth(300).basin(20, 2, 9.4).limits(limits(0.01, 0.5));
    yard.soil = Given.overRock('C', 0.5);
    RoutePlan plan = yard.plan();
    assertFalse(plan.routes().isEmpty());
    for (Route route : plan.routes()) {
      assertTrue(route.maxDepthM() <= 0.5 + 1e-3, route.toString());
    }
    assertTrue(
        plan.warnings().stream()
            .anyMatch(w -> w.startsWith("rock 0.50 m down") && w.contains("open swale of 2 %")),
        plan.warnings().toString());
  }

  /** Drains go under sprinkler lines: common practice, no source. */
  @Test
  void aDrainGoesUnderASprinklerLine() {
    Yard yard =
        Yard.slope()
            .fromNorth(300)
            .obstacle(
                Obstacle.Kind.SPRINKLER, Obstacle.Passage.UNDER, 0.15, "LINESTRING(0 20, 40 20)")
            .basin(20, 2, 9);
    Route best = yard.plan().routes().get(0);
    assertTrue(
        best.crosses().stream().anyMatch(c -> c.contains("sprinkler") && c.contains("under")));
    // Its underside 0.30 m down, 0.10 m clear of it: the pipe's top at 0.40 m or deeper there.
    AuditedLine line = new AuditedLine(best.main(), yard.ground);
    List<AuditedLine.Place> near =
        line.places.stream().filter(p -> Math.abs(p.at().y - 20) < 0.14).toList();
    assertFalse(near.isEmpty());
    for (AuditedLine.Place p : near) {
      assertTrue(p.groundM() - p.invertM() - 0.117 >= 0.40 - 1e-3, p.toString());
    }
  }

  /**
   * A walk of 4 in on 4 in of base: under it a 4 in Schedule 40 pipe (4.5 in outside: ASTM D1785,
   * from memory) lies 0.1 + 0.1 + 0.1143 m deep or deeper. On level ground that is lower than the
   * basin beyond takes it: the pipe would have to rise again, which leaves a belly. Lines under
   * concrete are bored in Schedule 40 ({@code common practice, no source}).
   */
  @Test
  void underAWalkAPipeThatWouldHaveToRiseAgainIsRefusedForTheBelly() {
    double slabDepth = 0.1 + 0.1 + 4.5 * 0.0254;
    Rejection no = perimeter(walk(10 - slabDepth + 0.02));
    assertEquals("no-fall", no.code(), no.sentence());
    assertTrue(no.sentence().contains("a belly"), no.sentence());
    Route best = walk(10 - slabDepth - 0.3).routes().get(0);
    List<Bore> bores = best.bores();
    assertEquals(1, bores.size());
    assertEquals("4 in solid Schedule 40 PVC", bores.get(0).pipes().pipe().words());
    for (Station s : best.main().stations()) {
      if (s.span() == Station.Span.BORED) {
        assertTrue(s.groundM() - s.invertM() >= slabDepth - 1e-6, s.toString());
      }
    }
  }

  /**
   * Earth asked for between a walk's base and the pipe is kept by the search, and by the audit,
   * which does not let through the drain that is found where none is asked for.
   */
  @Test
  void earthAskedForUnderAWalkIsKept() {
    double slabDepth = 0.1 + 0.1 + 0.15 + 4.5 * 0.0254;
    Yard yard = walkYard(10 - slabDepth - 0.3);
    Route bare = yard.plan().routes().get(0);
    Crossing walk = yard.crossings.get(0);
    yard.crossings.set(0, new Crossing(walk.id(), walk.outline(), 0.1, 0.1, 0.15));
    Route best = yard.plan().routes().get(0);
    Audit.Check top = top(best.audit());
    assertEquals(0.35, top.limit(), 1e-9);
    assertTrue(top.passed());
    double shallowest = 9;
    for (Station s : best.main().stations()) {
      if (s.span() == Station.Span.BORED) {
        shallowest = Math.min(shallowest, s.groundM() - s.invertM());
      }
    }
    assertEquals(slabDepth, shallowest, 0.01); // no deeper than it must
    Audit audit =
        RouteAuditor.audit(
            yard.site(),
            yard.ground,
            RouteSettings.defaults(yard.limits),
            yard.outlets.get(0),
            bare.main(),
            bare.branches());
    assertFalse(top(audit).passed());
  }

  private static Audit.Check top(Audit audit) {
    return audit.checks().stream()
        .filter(c -> c.name().equals("bore walk0 top"))
        .findFirst()
        .orElseThrow();
  }

  /**
   * Under a walk of 4 in on 4 in of base a 2 in pipe may lie 12 in deep, a larger one must go
   * deeper ({@code common practice, no source}); with the inch of earth that is assumed. Outside
   * diameters of 2.375 and 4.5 in: ASTM D1785, from memory.
   */
  @Test
  void underAWalkATwoInchPipeMayLieTwelveInchesDeepAndALargerOneMustGoDeeper() {
    double inch = 0.0254;
    Yard yard = walkYard(9);
    Crossing walk = yard.crossings.get(0);
    yard.crossings.set(0, new Crossing(walk.id(), walk.outline(), 4 * inch, 4 * inch, inch));
    RouteGround ground =
        RouteGround.of(yard.site(), yard.ground, RouteSettings.defaults(yard.limits));
    GroundLine line =
        ground.line(List.of(new Coordinate(15, 7), new Coordinate(15, 11))).orElseThrow();
    int under = line.nearest(1.75);
    assertTrue(line.inBore(under));
    Bounds two = new Bounds(0.01, 0.2, 0.15, 1.2, 2.375 * inch, 2.375 * inch, 0);
    Bounds four = new Bounds(0.01, 0.2, 0.15, 1.2, 4.5 * inch, 4.5 * inch, 0);
    assertTrue(line.highestM(under, two) >= 10 - 12 * inch);
    assertTrue(line.highestM(under, four) < 10 - 12 * inch);
  }

  /** Water over the southern line, a walk of 1.5 m along it, the basin just beyond. */
  private static RoutePlan walk(double basinM) {
    return walkYard(basinM).plan();
  }

  private static Yard walkYard(double basinM) {
    return Yard.of(30, 30, 0.5, (x, y) -> 10)
        .lot("POLYGON((5 5, 25 5, 25 25, 5 25, 5 5))")
        .inflow("south", 200, "LINESTRING(5 5, 25 5)")
        .slab("POLYGON((0 8, 30 8, 30 9.5, 0 9.5, 0 8))")
        .basin(15, 11, basinM)
        .limits(limits(0.001, 1.2));
  }

  private static Rejection perimeter(RoutePlan plan) {
    assertTrue(plan.routes().isEmpty());
    return plan.rejected().stream()
        .filter(r -> r.kind() == DrainKind.PERIMETER)
        .findFirst()
        .orElseThrow();
  }
}
