package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.site.Building;
import org.yardfall.site.Outlet;
import org.yardfall.site.PinnedLine;

/**
 * Seeps on slopes. An interceptor acts mostly downslope, the first line goes just above the wet
 * ground where water-bearing soil is 40 to 50 cm down, near the contour yet falling; beside a crawl
 * space it lies slightly deeper than the footing ({@code common practice, no source}).
 */
class UphillInterceptorTest {

  private static final String LOT = "POLYGON((5 5, 55 5, 55 55, 5 55, 5 5))";

  /** A slope that falls 6 % to the south, a ditch east of the lot, and a wet patch of 10 by 4 m. */
  private static Yard slope(double waterDepthM) {
    return Yard.of(60, 60, 0.5, (x, y) -> 10 + 0.06 * y)
        .lot(LOT)
        .outlet("D1", Outlet.Kind.DITCH, 57, 15, 10.3)
        .seep("S1", waterDepthM, "POLYGON((15 20, 25 20, 25 24, 15 24, 15 20))");
  }

  @Test
  void theLineLiesJustUphillNearTheContourYetFalling() {
    RoutePlan plan = plan(slope(Double.NaN));
    Route best = plan.routes().get(0);
    assertEquals(DrainKind.INTERCEPTOR, best.kind());
    assertTrue(best.audit().passed());
    List<Station> above = above(best, 15, 25);
    assertFalse(above.isEmpty());
    double last = Double.POSITIVE_INFINITY;
    for (Station s : above) {
      // A metre above the patch's upper edge at y 24; in 12 m along the contour it gives way by
      // the 0.12 m that 1 % needs, 2 m at 6 %, and a little for the slant.
      assertTrue(s.y() >= 25 - 0.3 && s.y() <= 25 + 2.4, s.toString());
      // Nothing known of the water: half a metre down, the deeper end of 40 to 50 cm.
      assertTrue(s.depthM() >= 0.5 - 1e-6, s.toString());
      // Parallel to the ground, so hardly deeper: the slant spares the digging.
      assertTrue(s.depthM() <= 0.6, s.toString());
      assertTrue(s.invertM() < last, s.toString());
      last = s.invertM();
    }
    assertTrue(
        plan.assumptions().stream()
            .anyMatch(
                a ->
                    a.about().equals("seeps.S1.water-depth")
                        && a.value().contains("0.50 m")
                        && a.value().contains("needs a test pit")),
        plan.assumptions().toString());
    assertTrue(
        best.cautions().stream().anyMatch(c -> c.contains("test pit")), best.cautions().toString());
    assertTrue(
        best.audit().checks().stream().anyMatch(c -> c.name().equals("uphill-of-seep s1")),
        best.audit().toString());
  }

  @Test
  void whereATestPitShowedTheWaterTheLineReachesIt() {
    RoutePlan plan = plan(slope(0.8));
    Route best = plan.routes().get(0);
    assertEquals(DrainKind.INTERCEPTOR, best.kind());
    assertTrue(above(best, 15, 25).stream().allMatch(s -> s.depthM() >= 0.8 - 1e-6));
    assertTrue(
        plan.assumptions().stream().noneMatch(a -> a.about().startsWith("seeps.")),
        plan.assumptions().toString());
  }

  @Test
  void aLineDrawnBelowThePatchIsRefusedWithTheReason() {
    RoutePlan below = drawn("LINESTRING(14 18.5, 56 15, 57 15)");
    Rejection x =
        below.rejected().stream()
            .filter(r -> r.kind() == DrainKind.PINNED)
            .findFirst()
            .orElseThrow();
    assertTrue(
        x.sentence()
            .contains("passes uphill of 0 % of the width of wet patch S1: an interceptor dries"),
        x.sentence());
    RoutePlan above = drawn("LINESTRING(14 27, 27 25, 53 15.6, 57 15)");
    Route mine = above.routes().get(0);
    assertEquals(DrainKind.PINNED, mine.kind(), above.rejected().toString());
    assertTrue(above(mine, 15, 25).stream().allMatch(s -> s.depthM() >= 0.5 - 1e-6));
  }

  /** The same line without the wet patch would lie only as deep as its cover asks. */
  @Test
  void aLineDrawnForNoPatchIsNotDugDeeper() {
    Yard yard = slope(Double.NaN);
    LineString line = (LineString) Yard.wkt("LINESTRING(14 27, 27 25, 53 15.6, 57 15)");
    RoutePlan plan = plan(yard, List.of(new PinnedLine("mine", line, "D1", "")));
    Route mine = plan.routes().get(0);
    assertEquals(DrainKind.PINNED, mine.kind());
    assertTrue(above(mine, 15, 25).stream().anyMatch(s -> s.depthM() < 0.5));
  }

  /** The patch stands at the back wall; the footing's underside is at 11.2 m. */
  @Test
  void besideACrawlSpaceItLiesBelowTheFootingAndOutsideItsInfluence() {
    Yard yard = slope(Double.NaN);
    yard.seeps.clear();
    yard.seep("S1", Double.NaN, "POLYGON((15 20, 25 20, 25 21, 15 21, 15 20))");
    Polygon house = (Polygon) Yard.wkt("POLYGON((14 11, 26 11, 26 19.7, 14 19.7, 14 11))");
    double underside = 10.55;
    yard.buildings.add(new Building("house", house, OptionalDouble.of(underside)));
    yard.outlets.clear();
    yard.outlet("D1", Outlet.Kind.DITCH, 57, 15, 9.5);
    RoutePlan plan = plan(yard);
    Route best = plan.routes().get(0);
    assertEquals(DrainKind.INTERCEPTOR, best.kind(), plan.rejected().toString());
    List<Station> above = above(best, 15, 25);
    assertFalse(above.isEmpty());
    for (Station s : above) {
      assertTrue(s.invertM() < underside, s.toString());
      double away = house.distance(Yard.wkt("POINT(" + s.x() + " " + s.y() + ")"));
      assertTrue(s.invertM() >= underside - away - 1e-6, s.toString());
    }
  }

  @Test
  void onLevelGroundTestPitsMustTellFromWhichSideTheWaterComes() {
    Yard yard =
        Yard.of(60, 60, 0.5, (x, y) -> 10 + 0.005 * y)
            .lot(LOT)
            .outlet("D1", Outlet.Kind.DITCH, 57, 15, 9)
            .seep("S1", Double.NaN, "POINT(20 22)");
    RoutePlan plan = plan(yard);
    assertTrue(plan.routes().isEmpty());
    assertTrue(
        plan.rejected().stream()
            .anyMatch(
                r ->
                    r.kind() == DrainKind.INTERCEPTOR
                        && r.sentence().contains("have test pits dug on each side")),
        plan.rejected().toString());
  }

  private static RoutePlan drawn(String wkt) {
    return plan(
        slope(Double.NaN), List.of(new PinnedLine("mine", (LineString) Yard.wkt(wkt), "D1", "S1")));
  }

  private static RoutePlan plan(Yard yard) {
    return plan(yard, List.of());
  }

  private static RoutePlan plan(Yard yard, List<PinnedLine> drawn) {
    return RouteFinder.plan(
        yard.site().withPinned(drawn), yard.terrain(), yard.water(), yard.flows);
  }

  /** Stations above the patch, between two eastings. */
  private static List<Station> above(Route route, double fromX, double toX) {
    return route.main().stations().stream()
        .filter(s -> s.x() >= fromX && s.x() <= toX && s.y() > 21)
        .toList();
  }
}
