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
