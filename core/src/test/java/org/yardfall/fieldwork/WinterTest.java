package org.yardfall.fieldwork;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.Shot;
import org.yardfall.route.Route;
import org.yardfall.site.Outlet;

/**
 * Water that stays in a laid pipe freezes where the frost goes deeper than its cover ({@code common
 * practice, no source}). The pipe runs 30 m at 1 % with its top 0.484 m down.
 */
class WinterTest {

  private static final Route ROUTE =
      FieldFixtures.route(
          FieldFixtures.line(new double[] {0, 0, 30, 0}, 100, new double[] {0.01}, 0.6));

  private static final OptionalDouble NONE = OptionalDouble.empty();

  /** From the lip at 14 m, laid 4 cm high, water stands back to 10 m. Its cover there: 0.444 m. */
  @Test
  void aBellyFreezesWhereTheFrostGoesDeeperThanItsCover() {
    checkBelly(OptionalDouble.of(0.762), "the ground freezes 0.762 m deep: it freezes shut");
    checkBelly(OptionalDouble.of(0.445), "the ground freezes 0.445 m deep");
    checkBelly(NONE, "whether it freezes was not checked");
    assertEquals(List.of(), said(true, OptionalDouble.of(0.443), Optional.empty()));
  }

  @Test
  void whatRunsEmptyHasNothingToFreeze() {
    assertEquals(List.of(), said(false, OptionalDouble.of(0.762), Optional.empty()));
    assertEquals(List.of(), said(false, OptionalDouble.of(0.762), end(Outlet.Kind.STREET, 99.6)));
  }

  @Test
  void anEndThatCannotEmptyIsToldFromTheInvertAsLaid() {
    checkEnd("it soaks away", end(Outlet.Kind.DRY_WELL, Double.NaN));
    // The end was shot at 99.700: water that usually stands at 99.71 m is in it.
    checkEnd("water stands in it from outside", end(Outlet.Kind.WATERWAY, 99.71));
    Outlet lid =
        new Outlet(
            "P1",
            Outlet.Kind.DAYLIGHT,
            new Coordinate(30, 0),
            NONE,
            NONE,
            OptionalDouble.of(99.9),
            "");
    checkEnd("water must rise to the lid", Optional.of(lid));
    assertEquals(
        List.of(), said(false, OptionalDouble.of(0.48), end(Outlet.Kind.DRY_WELL, Double.NaN)));
  }

  private static void checkBelly(OptionalDouble frostM, String expected) {
    List<String> said = said(true, frostM, Optional.empty());
    assertEquals(1, said.size(), said.toString());
    assertTrue(
        said.get(0)
            .startsWith(
                "Water stays in the main line from station 10.00 to 14.00 (it is a belly) under"
                    + " 0.444 m of cover"),
        said.get(0));
    assertTrue(said.get(0).contains(expected), said.get(0));
  }

  private static void checkEnd(String expected, Optional<Outlet> outlet) {
    List<String> said = said(false, OptionalDouble.of(0.762), outlet);
    assertEquals(1, said.size(), said.toString());
    assertTrue(said.get(0).contains("at station 30.00 (" + expected), said.get(0));
    assertTrue(said.get(0).contains("under 0.484 m of cover"), said.get(0));
  }

  private static Optional<Outlet> end(Outlet.Kind kind, double usualM) {
    OptionalDouble usual = Double.isNaN(usualM) ? NONE : OptionalDouble.of(usualM);
    return Optional.of(new Outlet("O1", kind, new Coordinate(30, 0), NONE, NONE, NONE, "", usual));
  }

  private static List<String> said(boolean belly, OptionalDouble frostM, Optional<Outlet> outlet) {
    List<Shot> shots = new ArrayList<>();
    for (int s = 0; s <= 30; s++) {
      double high = !belly || s <= 10 || s > 14 ? 0 : s <= 12 ? -0.01 * (s - 10) : 0.03 * s - 0.38;
      shots.add(new Shot("S" + s, s, 0, 100 - 0.01 * s + high, ""));
    }
    AsBuiltProof proof =
        AsBuiltProof.of(
            ROUTE, shots, ProofLimits.of(FieldFixtures.LIMITS), new Winter(frostM, outlet));
    List<String> said = proof.winterSentences(FieldUnits.METRES);
    said.forEach(each -> assertTrue(proof.page(FieldUnits.METRES).contains(each), each));
    return said;
  }
}
