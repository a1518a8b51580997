package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.site.Building;

/** Bearing ground spreads at 45° from the underside of a footing; common practice, no source. */
class FootingInfluenceTest {

  private static final String HOUSE = "POLYGON((10 10, 20 10, 20 20, 10 20, 10 10))";

  @Test
  void aPipeAMetreAwayMayLieAMetreBelowTheFooting() {
    // Underside at 9.5: at 1 m from the wall the pipe may go down to 8.5.
    check(0, 9.5, 21, 8.5);
    check(0.1, 9.5, 21, 8.4);
    check(0, 9.5, 21.2, 8.4);
  }

  @Test
  void anUnknownFootingIsTakenTwelveInchesBelowTheLowestGround() {
    Yard yard = Yard.of(30, 30, 0.5, (x, y) -> 10 + 0.02 * y).house(HOUSE);
    FootingInfluence footing = new FootingInfluence(yard.site(), yard.ground);
    assertEquals(10.2 - 0.3048, footing.undersideM(yard.buildings.get(0)), 1e-4);
    assertTrue(footing.assumption().orElseThrow().source().contains("R403.1.4"));
  }

  private static void check(double expectedM, double undersideM, double x, double invertM) {
    Yard yard = Yard.of(30, 30, 0.5, (px, py) -> 10);
    yard.buildings.add(new Building("B", (Polygon) Yard.wkt(HOUSE), OptionalDouble.of(undersideM)));
    Station station = new Station(0, x, 15, 10, invertM, 0, 10 - invertM, 0.01, Station.Span.OPEN);
    DrainLine line = new DrainLine(List.of(new Coordinate(x, 15)), List.of(station));
    assertEquals(expectedM, new FootingInfluence(yard.site(), yard.ground).tooDeepM(line), 1e-6);
  }
}
