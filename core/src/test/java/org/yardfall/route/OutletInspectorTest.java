package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Given;
import org.yardfall.site.Outlet;
import org.yardfall.site.OutletRules;
import org.yardfall.site.Soil;

/** What each kind of outlet needs, held against facts of the trade and rules met in towns. */
class OutletInspectorTest {

  private static final double FOOT = 0.3048;

  /** A plane falling south, 2 %. */
  private static Yard plane() {
    return Yard.slope();
  }

  @Test
  void aLidHigherThanTheYardIsRefusedWithTheMissingHead() {
    // Back yard to curb with 3 in of fall; a pop-up takes about 6 in of head: 0.25 ft short.
    // Trade case as told by practitioners; common practice, no source.
    Yard yard = Yard.lot((x, y) -> 10 + 0.25 * FOOT);
    Outlet popUp = outlet("pop-up", Outlet.Kind.STREET, 20, 2, 9.8, OptionalDouble.of(10));
    Optional<OutletInspector.Refusal> refusal =
        inspector(yard, Given.lidTaking(0.5 * FOOT))
            .refuse(popUp, collector("LINESTRING(10 40, 30 40)"), List.of());
    assertEquals("lid-too-high", refusal.orElseThrow().code());
    assertEquals(0.25 * FOOT, refusal.get().shortfallM().orElseThrow(), 0.001);
    // The curb cut at the same place, which nothing has to be lifted out of, is not refused.
    checkAllowed(yard, outlet("curb", Outlet.Kind.STREET, 20, 2, 9.8, OptionalDouble.empty()));
  }

  @Test
  void aDrainIsNotAskedToLiftWaterIntoACatchBasin() {
    // Storm water in the basin above the lowest ground of the drain; common practice, no source.
    Outlet basin =
        new Outlet(
            "CB",
            Outlet.Kind.CATCH_BASIN,
            new Coordinate(20, 2),
            OptionalDouble.of(9.5),
            OptionalDouble.of(10.85),
            OptionalDouble.empty(),
            "");
    checkRefused("backflow", plane(), basin);
  }

  @Test
  void anUnknownWaterLevelIsSaidNotAssumed() {
    Outlet basin = outlet("CB", Outlet.Kind.CATCH_BASIN, 20, 2, 9, OptionalDouble.empty());
    assertTrue(
        OutletCautions.of(plane().site(), basin, 9).stream()
            .anyMatch(c -> c.contains("not checked")));
  }

  @Test
  void daylightThatRunsOntoANeighbourIsRefusedAndSpreadingNamed() {
    // Street on the high side, fence on the low side: the drain may not just stop before the fence.
    Yard yard = plane().neighbour("rear", "POLYGON((5 0, 35 0, 35 5, 5 5, 5 0))");
    Outlet end = outlet("end", Outlet.Kind.DAYLIGHT, 20, 10, 10.2, OptionalDouble.empty());
    OutletInspector.Refusal refusal = checkRefused("onto-neighbour", yard, end);
    assertTrue(refusal.sentence().contains("spread it level along the lot's own line"));
    assertTrue(refusal.sentence().contains("raise the matter with the neighbour"));
    // Towards a right-of-way the same outlet may run.
    checkAllowed(plane(), end);
  }

  @Test
  void daylightOnTheNeighboursSideIsRefused() {
    Yard yard = plane().neighbour("rear", "POLYGON((5 0, 35 0, 35 5, 5 5, 5 0))");
    checkRefused(
        "onto-neighbour",
        yard,
        outlet("end", Outlet.Kind.DAYLIGHT, 20, 3, 10.06, OptionalDouble.empty()));
  }

  @Test
  void daylightKeepsTenFeetFromHouseAndRightOfWayAndFiveFromTheLine() {
    // Distances as set by one town's rule for outlets without a storm sewer in reach.
    Yard yard =
        plane()
            .neighbour("west", "POLYGON((0 0, 5 0, 5 50, 0 50, 0 0))")
            .house("POLYGON((15 25, 25 25, 25 35, 15 35, 15 25))");
    checkRefused("outlet-zone", yard, daylight(20, 25 - 9 * FOOT));
    checkAllowed(yard, daylight(20, 25 - 11 * FOOT));
    checkRefused("outlet-zone", yard, daylight(5 + 4 * FOOT, 20));
    checkAllowed(yard, daylight(5 + 6 * FOOT, 20));
    checkRefused("outlet-zone", yard, daylight(20, 5 + 9 * FOOT));
    checkAllowed(yard, daylight(20, 5 + 11 * FOOT));
  }

  /** Each rule that a place breaks is named with what there is and what is needed; no other is. */
  @Test
  void aRefusedDaylightNamesTheBrokenRuleAndByHowMuch() {
    Yard yard =
        plane()
            .neighbour("west", "POLYGON((0 0, 5 0, 5 50, 0 50, 0 0))")
            .house("POLYGON((15 25, 25 25, 25 35, 15 35, 15 25))");
    String house = checkRefused("outlet-zone", yard, daylight(20, 23)).sentence();
    assertTrue(
        house.endsWith("it lies 2.00 m from building B1, where 3.05 m are needed (1.05 m short)"),
        house);
    String line = checkRefused("outlet-zone", yard, daylight(6, 20)).sentence();
    assertTrue(
        line.endsWith(
            "it lies 1.00 m from the property line, where 1.52 m are needed (0.52 m short)"),
        line);
    String corner = checkRefused("outlet-zone", yard, daylight(20, 6)).sentence();
    assertTrue(
        corner.contains("1.00 m from the property line") && corner.endsWith("(2.05 m short)"),
        corner);
  }

  @Test
  void aLotWithoutRoomForAnOutletHasNoLawfulSurfaceOutlet() {
    Yard yard = Yard.of(20, 20, 0.5, (x, y) -> 10 + 0.02 * y);
    yard.lot("POLYGON((5 5, 9 5, 9 15, 5 15, 5 5))").house("POLYGON((6 7, 8 7, 8 13, 6 13, 6 7))");
    OutletInspector.Refusal refusal =
        inspector(yard, OutletRules.usual())
            .refuse(daylight(7, 6), collector("LINESTRING(6 14, 8 14)"), List.of())
            .orElseThrow();
    assertTrue(refusal.sentence().contains("no lawful surface outlet"), refusal.sentence());
  }

  @Test
  void anOutletThatRunsBackIntoTheDrainRecirculates() {
    // Let go uphill of the collector.
    OutletInspector.Refusal refusal =
        inspector(plane(), OutletRules.usual())
            .refuse(daylight(20, 40), collector("LINESTRING(10 20, 30 20)"), List.of())
            .orElseThrow();
    assertEquals("recirculates", refusal.code());
  }

  @Test
  void aDryWellWithoutAPercolationTestCannotBeSaidToWork() {
    Outlet well = outlet("DW", Outlet.Kind.DRY_WELL, 20, 20, 9.8, OptionalDouble.empty());
    checkRefused("soil-unknown", plane(), well);
    checkRefused("soil-too-tight", soil(plane(), 1e-3 / 3600), well);
    checkAllowed(soil(plane(), 25e-3 / 3600), well);
    checkRefused(
        "near-building",
        soil(plane(), 25e-3 / 3600).house("POLYGON((15 22, 25 22, 25 32, 15 32, 15 22))"),
        well);
  }

  /** The ground at the well lies at 10.4 m, its inlet at 9.8 m. */
  @Test
  void aDryWellInGroundwaterIsRefusedHoweverItsLevelIsTold() {
    Outlet well = outlet("DW", Outlet.Kind.DRY_WELL, 20, 20, 9.8, OptionalDouble.empty());
    OptionalDouble none = OptionalDouble.empty();
    checkRefused("water-table", wet(OptionalDouble.of(9.9), none), well);
    checkAllowed(wet(OptionalDouble.of(9.7), none), well);
    OutletInspector.Refusal refusal =
        checkRefused("water-table", wet(none, OptionalDouble.of(0.5)), well);
    assertTrue(refusal.sentence().contains("water table at 9.90 m"), refusal.sentence());
    checkAllowed(wet(none, OptionalDouble.of(0.7)), well);
    // Its inlet not being stated it is taken at the ground.
    Outlet open =
        new Outlet("DW", Outlet.Kind.DRY_WELL, new Coordinate(20, 20), none, none, none, "");
    checkAllowed(wet(none, OptionalDouble.of(0.5)), open);
    checkRefused("water-table", wet(none, OptionalDouble.of(0)), open);
  }

  @Test
  void withoutAKnownWaterTableItCannotBeSaidWhetherADryWellIsInIt() {
    Outlet well = outlet("DW", Outlet.Kind.DRY_WELL, 20, 20, 9.8, OptionalDouble.empty());
    Yard dry = soil(plane(), 25e-3 / 3600);
    checkAllowed(dry, well);
    assertTrue(saysNothingOfGroundwater(dry, well));
    assertFalse(saysNothingOfGroundwater(wet(OptionalDouble.empty(), OptionalDouble.of(2)), well));
  }

  private static boolean saysNothingOfGroundwater(Yard yard, Outlet well) {
    return OutletCautions.of(yard.site(), well, 9.8).stream()
        .anyMatch(c -> c.contains("groundwater stands in the well cannot be said"));
  }

  private static Yard wet(OptionalDouble tableM, OptionalDouble tableDepthM) {
    OptionalDouble none = OptionalDouble.empty();
    Yard yard = plane();
    yard.soil =
        new Soil(
            'B',
            OptionalDouble.of(25e-3 / 3600),
            null,
            tableM,
            none,
            none,
            tableDepthM,
            none,
            Soil.FilterClass.LESS_CRITICAL,
            null,
            Map.of());
    return yard;
  }

  @Test
  void pumpedWaterMayNotGoOntoTheStreetButGravityWaterMay() {
    Outlet street = outlet("curb", Outlet.Kind.STREET, 20, 2, 9.5, OptionalDouble.empty());
    checkAllowed(plane(), street);
    assertEquals(
        "pumped-to-street",
        inspector(plane(), Given.pumped())
            .refuse(street, collector("LINESTRING(10 40, 30 40)"), List.of())
            .orElseThrow()
            .code());
  }

  @Test
  void aSubmergedPipeEndInABankIsToldNotRefused() {
    Outlet stream =
        new Outlet(
            "brook",
            Outlet.Kind.WATERWAY,
            new Coordinate(20, 2),
            OptionalDouble.of(9.5),
            OptionalDouble.of(9.8),
            OptionalDouble.empty(),
            "");
    checkAllowed(plane(), stream);
    List<String> cautions = OutletCautions.of(plane().site(), stream, 9.5);
    assertTrue(cautions.stream().anyMatch(c -> c.contains("0.30 m above the pipe's end")));
    assertTrue(cautions.stream().anyMatch(c -> c.contains("silts it up")));
  }

  @Test
  void badOutletsAndLimitsAreAllNamedAtOnce() {
    Yard yard =
        plane()
            .house("POLYGON((15 25, 25 25, 25 35, 15 35, 15 25))")
            .outlet("inside", Outlet.Kind.DRY_WELL, 20, 30, 9)
            .outlet("a", Outlet.Kind.STREET, 20, 2, 9)
            .outlet("b", Outlet.Kind.STREET, 20, 2, 9)
            .outlet("far", Outlet.Kind.STREET, 200, 2, 9)
            .limits(Given.limits(0.01, 0.2, 1.3, 1.2, 0.6, 0.9, 0.45, 0.117, 0.102));
    BadInputException e =
        assertThrows(BadInputException.class, () -> PlanProblems.check(yard.site(), yard.ground));
    assertEquals(4, e.problems().size(), e.problems().toString());
    assertTrue(e.problems().stream().anyMatch(p -> p.what().contains("inside building")));
    assertTrue(e.problems().stream().anyMatch(p -> p.what().contains("same point as outlet a")));
    assertTrue(e.problems().stream().anyMatch(p -> p.what().contains("no elevation")));
    assertTrue(e.problems().stream().anyMatch(p -> p.what().contains("min-cover")));
  }

  @Test
  void daylightIsFoundUnderABankAndNotOnAGentleLawn() {
    // A lawn at 2 % with a bank of 1 m height halfway down.
    Yard bank = Yard.lot((x, y) -> 10 + 0.02 * y + Math.max(0, Math.min(1, (y - 18) / 2)));
    List<Outlet> found = find(bank);
    assertFalse(found.isEmpty());
    for (Outlet o : found) {
      assertTrue(o.at().y > 16.5 && o.at().y < 19.6, o.toString());
    }
    assertTrue(find(plane()).isEmpty());
    // The same bank above a neighbour's fence gives none.
    assertTrue(find(bank.neighbour("rear", "POLYGON((0 0, 40 0, 40 5, 0 5, 0 0))")).isEmpty());
  }

  private static List<Outlet> find(Yard yard) {
    OutletRules rules = OutletRules.usual();
    return DaylightFinder.find(
        yard.site(), yard.ground, rules, inspector(yard, rules), List.of(), 1.5);
  }

  private static Outlet daylight(double x, double y) {
    return outlet("end", Outlet.Kind.DAYLIGHT, x, y, 10 + 0.02 * y, OptionalDouble.empty());
  }

  private static Outlet outlet(
      String id, Outlet.Kind kind, double x, double y, double invertM, OptionalDouble lidM) {
    return new Outlet(
        id,
        kind,
        new Coordinate(x, y),
        OptionalDouble.of(invertM),
        OptionalDouble.empty(),
        lidM,
        "");
  }

  private static Yard soil(Yard yard, double conductivityMS) {
    yard.soil = Given.soil('B', OptionalDouble.of(conductivityMS), OptionalDouble.empty());
    return yard;
  }

  private static Collector collector(String wkt) {
    return new Collector(
        DrainKind.PERIMETER, List.of((LineString) Yard.wkt(wkt)), "", List.of(), 100);
  }

  private static OutletInspector inspector(Yard yard, OutletRules rules) {
    return new OutletInspector(yard.site(), yard.ground, yard.water(), rules);
  }

  private static void checkAllowed(Yard yard, Outlet outlet) {
    Optional<OutletInspector.Refusal> refusal =
        inspector(yard, OutletRules.usual())
            .refuse(outlet, collector("LINESTRING(10 42, 30 42)"), List.of());
    assertTrue(refusal.isEmpty(), refusal.toString());
  }

  private static OutletInspector.Refusal checkRefused(String code, Yard yard, Outlet outlet) {
    OutletInspector.Refusal refusal =
        inspector(yard, OutletRules.usual())
            .refuse(outlet, collector("LINESTRING(10 42, 30 42)"), List.of())
            .orElseThrow();
    assertEquals(code, refusal.code(), refusal.sentence());
    return refusal;
  }
}
