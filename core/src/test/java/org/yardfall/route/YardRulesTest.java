package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.site.Building;

/** What common local rules ask of the ground round a house; the limits are settings. */
class YardRulesTest {

  private static Yard plane(double slope) {
    return Yard.of(50, 60, 0.5, (x, y) -> 10 + slope * y)
        .lot("POLYGON((5 5, 45 5, 45 55, 5 55, 5 5))")
        .house("POLYGON((18 24, 32 24, 32 34, 18 34, 18 24))");
  }

  private static YardSlope slope(double of) {
    Yard yard = plane(of);
    return YardSlope.round(yard.site(), yard.ground, yard.buildings.get(0));
  }

  /** Municipal grading rules: splash blocks on yards up to 1.5 %, no yard above 14 %. */
  @Test
  void roofWaterGoesOntoSplashBlocksOnGentleYardsOnly() {
    assertTrue(slope(0.014).splashBlocksAllowed());
    assertEquals(0.014, slope(0.014).steepest(), 1e-4);
    assertTrue(slope(0.014).sentences(List.of()).isEmpty());
    YardSlope steeper = slope(0.016);
    assertFalse(steeper.splashBlocksAllowed());
    assertTrue(
        steeper.sentences(List.of()).get(0).contains("a watercourse; none was given"),
        steeper.sentences(List.of()).toString());
    assertFalse(slope(0.139).tooSteep());
    assertTrue(slope(0.141).tooSteep());
  }

  @Test
  void thePlanFlagsAYardSteeperThanTheCapAndLeavesAGentleOneAlone() {
    assertTrue(warnings(plane(0.141)).stream().anyMatch(w -> w.contains("14.1 %")));
    assertTrue(
        warnings(plane(0.016)).stream()
            .anyMatch(w -> w.contains("splash blocks") && w.endsWith("none was given")));
    assertTrue(warnings(plane(0.014)).stream().noneMatch(w -> w.contains("splash blocks")));
  }

  private static List<String> warnings(Yard yard) {
    return yard.plan().warnings();
  }

  @Test
  void thePlanNamesWhereTheRoofsWaterIsToBePiped() {
    Yard yard = plane(0.02).basin(25, 2, 9);
    List<String> warnings = yard.plan().warnings();
    assertTrue(
        warnings.stream()
            .anyMatch(
                w -> w.contains("splash blocks") && w.endsWith("solid pipe of its own to CB1")),
        warnings.toString());
  }

  /**
   * A swale of 1.5 % passes 1.5 m north of the house, its bed at 10.65 m where it comes within 10
   * ft of the house's west end: of the 15 cm that rules ask for, an opening at 10.75 m has 10.
   */
  @Test
  void theLowestOpeningStandsAboveTheSwaleBesideIt() {
    Yard yard = swale(10.75);
    List<OpeningFreeboard> rows = OpeningFreeboard.table(yard.site(), yard.ground, yard.water());
    OpeningFreeboard row =
        rows.stream()
            .filter(r -> Math.abs(r.levelM() - 10.65) < 0.02)
            .findFirst()
            .orElseThrow(() -> new AssertionError(rows.toString()));
    assertTrue(row.against().startsWith("the bed of flow path"), row.against());
    assertEquals(0.10, row.freeboardM(), 0.02);
    assertFalse(row.passes());
    assertTrue(yard.plan().warnings().stream().anyMatch(w -> w.equals(row.sentence())));
    // With the opening 10 cm higher the same swale passes.
    Yard higher = swale(10.85);
    assertTrue(
        OpeningFreeboard.table(higher.site(), higher.ground, higher.water()).stream()
            .filter(r -> r.against().equals(row.against()))
            .allMatch(OpeningFreeboard::passes));
  }

  private static Yard swale(double openingM) {
    Yard yard =
        Yard.of(60, 50, 0.5, (x, y) -> 10.87 - 0.015 * x + 0.05 * Math.abs(y - 32))
            .lot("POLYGON((5 5, 55 5, 55 45, 5 45, 5 5))")
            .basin(57, 32, 9);
    yard.buildings.add(
        new Building(
            "house",
            (Polygon) Yard.wkt("POLYGON((18 20, 32 20, 32 30.5, 18 30.5, 18 20))"),
            OptionalDouble.empty(),
            OptionalDouble.of(openingM)));
    return yard;
  }
}
