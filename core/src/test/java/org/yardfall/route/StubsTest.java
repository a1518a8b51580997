package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;

/** Pieces too short to be dug: common practice, no source. */
class StubsTest {

  @Test
  void anEndRoundACornerIsLeftOffWhereItIsShort() {
    checkTrimmed("LINESTRING(0 0, 20 0)", "LINESTRING(0 -1.1, 0 0, 20 0)");
    checkTrimmed("LINESTRING(0 0, 20 0)", "LINESTRING(0 -1.1, 0 0, 20 0, 20.5 1)");
    checkTrimmed("LINESTRING(-1 0, 20 0)", "LINESTRING(-1.9 1.5, -1 1.5, -1 0, 20 0, 20 1.9)");
    // long enough to dig, or no corner
    checkTrimmed("LINESTRING(0 -2.1, 0 0, 20 0)", "LINESTRING(0 -2.1, 0 0, 20 0)");
    checkTrimmed("LINESTRING(-1 -0.2, 0 0, 20 0)", "LINESTRING(-1 -0.2, 0 0, 20 0)");
    checkTrimmed("LINESTRING(0 0, 1 0)", "LINESTRING(0 0, 1 0)");
  }

  private static void checkTrimmed(String expected, String line) {
    LineString found = Stubs.trimmed((LineString) Yard.wkt(line));
    assertTrue(Yard.wkt(expected).equalsExact(found, 1e-9), found.toString());
  }

  /** Water over the north side only: the metre of overlap round its corners is not dug. */
  @Test
  void aPerimeterDrainOfOneSideHasNoStubsAtItsCorners() {
    Yard yard = Yard.slope().fromNorth(300).basin(20, 2, 9);
    List<Route> routes = yard.plan().routes();
    Route first = routes.get(0);
    assertEquals(DrainKind.PERIMETER, first.kind());
    assertTrue(
        first.reasons().get(0).contains("m in pieces shorter than 2.0 m are left out"),
        first.reasons().get(0));
    routes.forEach(StubsTest::checkNoStub);
  }

  /** A walk across the line near its corner leaves a piece of a metre and a half: not dug, said. */
  @Test
  void whatASlabLeavesOfALineIsSaid() {
    Yard yard =
        Yard.slope()
            .slab("POLYGON((7.1 40, 9 40, 9 46, 6.4 46, 6.4 43, 7.1 40))")
            .fromNorth(300)
            .basin(20, 2, 9);
    Collector wanted =
        new Collector(
            DrainKind.PERIMETER,
            List.of((LineString) Yard.wkt("LINESTRING(5.7 42.9, 5.7 44.3, 8 44.3, 34 44.3)")),
            "water arrives",
            List.of(),
            300);
    RouteGround ground =
        RouteGround.of(yard.site(), yard.ground, RouteSettings.defaults(yard.limits));
    Collector dug = PermittedLines.of(wanted, ground);
    assertEquals(1, dug.lines().size());
    assertEquals(34 - 9.3, dug.lines().get(0).getLength(), 0.01);
    assertTrue(dug.why().startsWith("water arrives; 1.8 m in pieces"), dug.why());
  }

  /** A line's water leaves at its end, or where both arms are long enough to be dug. */
  @Test
  void noBranchIsShorterThanACrewDigs() {
    for (double x = 8; x <= 32; x += 1.5) {
      Yard yard = Yard.lot((east, north) -> 10 + 0.02 * north).fromNorth(300).basin(x, 2, 9.2);
      yard.plan().routes().forEach(StubsTest::checkNoStub);
    }
  }

  private static void checkNoStub(Route route) {
    for (Route.Branch branch : route.branches()) {
      assertTrue(branch.line().lengthM() >= Stubs.LEAST_M - 1e-6, route.id());
    }
    List<Station> stations = route.main().stations();
    double first = route.main().vertices().get(0).distance(route.main().vertices().get(1));
    assertFalse(first < 1.9 && stations.size() > 2, route.id() + " begins with " + first);
  }
}
