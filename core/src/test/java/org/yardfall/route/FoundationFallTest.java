package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** International Residential Code R401.3: 6 in of fall within the first 10 ft, place by place. */
class FoundationFallTest {

  private static final String LOT = "POLYGON((2 2, 38 2, 38 38, 2 38, 2 2))";
  private static final String HOUSE = "POLYGON((15 15, 25 15, 25 25, 15 25, 15 15))";

  @Test
  void aMoundOfFivePercentPassesAllRound() {
    Yard yard = yard(0.051);
    assertTrue(places(yard).stream().allMatch(FoundationFall.Place::passes));
    assertEquals("", FoundationFall.sentence(yard.site(), yard.ground, yard.buildings.get(0)));
  }

  @Test
  void aMoundOfFourPercentFailsAllRound() {
    assertTrue(places(yard(0.04)).stream().noneMatch(FoundationFall.Place::passes));
  }

  @Test
  void onAPlaneTheUphillWallFailsAndTheDownhillWallPasses() {
    Yard yard = Yard.of(40, 40, 0.5, (x, y) -> 10 + 0.06 * y).lot(LOT).house(HOUSE);
    for (FoundationFall.Place p : places(yard)) {
      assertEquals(p.bearingDeg() == 180, p.passes(), p.toString());
    }
  }

  @Test
  void whereTheLineIsNearerTheFallIsAskedInProportion() {
    Yard yard =
        Yard.of(40, 40, 0.25, (x, y) -> 10 - 0.051 * Math.abs(x - 20))
            .lot("POLYGON((2 2, 26.5 2, 26.5 38, 2 38, 2 2))")
            .house(HOUSE);
    FoundationFall.Place east =
        places(yard).stream().filter(p -> p.bearingDeg() == 90).findFirst().orElseThrow();
    assertEquals(1.5 - 0.3, east.overM(), 1e-6);
    assertEquals(0.05 * 1.2, east.neededM(), 1e-6);
    assertTrue(east.passes());
  }

  /** Beside a drive 2 % is enough, beside lawn it is not. */
  @Test
  void pavingNeedsTwoPercentOnly() {
    Yard yard = yard(0.021).slab("POLYGON((25 10, 35 10, 35 30, 25 30, 25 10))");
    for (FoundationFall.Place p : places(yard)) {
      assertEquals(p.bearingDeg() == 90, p.passes(), p.toString());
    }
    Yard flatter = yard(0.019).slab("POLYGON((25 10, 35 10, 35 30, 25 30, 25 10))");
    assertTrue(places(flatter).stream().noneMatch(FoundationFall.Place::passes));
  }

  /** The plan says how many places fail, never a mean: half of them away, half toward the wall. */
  @Test
  void thePlanCountsTheFailingPlaces() {
    Yard yard = Yard.of(40, 40, 0.5, (x, y) -> 10 + 0.06 * y).lot(LOT).house(HOUSE);
    List<FoundationFall.Place> places = places(yard);
    long failing = places.stream().filter(p -> !p.passes()).count();
    String said =
        yard.plan().warnings().stream().filter(w -> w.contains("R401.3")).findFirst().orElseThrow();
    assertTrue(said.startsWith("at " + failing + " of " + places.size() + " places"), said);
    assertEquals(0.75, (double) failing / places.size(), 1e-9);
  }

  private static Yard yard(double fall) {
    return Yard.of(40, 40, 0.5, (x, y) -> 10 - fall * Math.max(Math.abs(x - 20), Math.abs(y - 20)))
        .lot(LOT)
        .house(HOUSE);
  }

  private static List<FoundationFall.Place> places(Yard yard) {
    List<FoundationFall.Place> places =
        FoundationFall.around(yard.site(), yard.ground, yard.buildings.get(0));
    assertFalse(places.isEmpty());
    return places;
  }
}
