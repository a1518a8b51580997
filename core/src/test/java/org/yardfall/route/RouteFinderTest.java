package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Given;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;

/** Whole plans on small made-up lots, each with an answer known beforehand. */
class RouteFinderTest {

  @Test
  void waterFromTheNeighbourAboveIsTakenByAPerimeterDrain() {
    RoutePlan plan = Yard.slope().fromNorth(300).basin(20, 2, 9).plan();
    Route best = plan.routes().get(0);
    assertEquals(DrainKind.PERIMETER, best.kind());
    assertEquals("CB1", best.outletId());
    checkSound(plan);
    assertTrue(best.reasons().stream().anyMatch(r -> r.contains("comes first")));
  }

  /**
   * The ledger says 300 m². On ground that falls due south a drain takes, strip by strip, all that
   * lies north of its southernmost point there, up to where the known ground ends at 50 m.
   */
  @Test
  void theDrainIsCreditedWithTheGroundThatRunsOntoItAsLaid() {
    Route best = Yard.slope().fromNorth(300).basin(20, 2, 9).plan().routes().get(0);
    List<DrainLine> lines = new java.util.ArrayList<>(List.of(best.main()));
    best.branches().forEach(b -> lines.add(b.line()));
    double expected = 0;
    for (double x = 5; x < 35; x += 0.5) {
      double south = 50;
      for (DrainLine line : lines) {
        Geometry strip =
            Yard.wkt("POLYGON((%1$s 5, %2$s 5, %2$s 50, %1$s 50, %1$s 5))".formatted(x, x + 0.5));
        Geometry here =
            strip
                .getFactory()
                .createLineString(line.vertices().toArray(Coordinate[]::new))
                .intersection(strip);
        south =
            here.getLength() < 0.1 ? south : Math.min(south, here.getEnvelopeInternal().getMinY());
      }
      expected += 0.5 * (50 - south);
    }
    String why =
        best.reasons().stream().filter(r -> r.contains("comes first")).findFirst().orElseThrow();
    double said = Double.parseDouble(why.replaceAll(".*the water of (\\d+) m².*", "$1"));
    assertEquals(expected, said, 2 * 0.5 * 40, why); // a cell each side of the way down
  }

  @Test
  void aLotWithoutABuildingIsToldThereIsNoCurtainDrain() {
    RoutePlan plan = Yard.slope().basin(20, 2, 9).plan();
    assertTrue(
        plan.rejected().stream()
            .anyMatch(x -> x.kind() == DrainKind.CURTAIN && x.code().equals("no-building")));
  }

  @Test
  void aLotWithoutAWaterProblemIsToldSo() {
    RoutePlan plan = Yard.slope().basin(20, 2, 9).plan();
    assertTrue(plan.routes().isEmpty());
    assertTrue(plan.warnings().stream().anyMatch(w -> w.contains("no drain is needed")));
    assertEquals(3, plan.rejected().size());
  }

  @Test
  void aHouseOnASlopeGetsACurtainDrainFirst() {
    RoutePlan plan =
        Yard.slope().house("POLYGON((12 20, 26 20, 26 30, 12 30, 12 20))").basin(30, 2, 9).plan();
    assertEquals(DrainKind.CURTAIN, plan.routes().get(0).kind());
    checkSound(plan);
    assertTrue(plan.routes().size() >= 1);
  }

  @Test
  void aStandingLowSpotGetsALowSpotDrain() {
    RoutePlan plan =
        Yard.lot((x, y) -> 10 + 0.02 * y - CollectorsTest.bowl(x, y, 20, 25, 4, 0.3))
            .basin(20, 2, 9)
            .plan();
    assertEquals(DrainKind.LOW_SPOT, plan.routes().get(0).kind());
    checkSound(plan);
  }

  @Test
  void aStreetWithAParcelOfItsOwnIsEnteredOnlyWhereItIsSaidToBeOne() {
    String street = "POLYGON((0 0, 40 0, 40 5, 0 5, 0 0))";
    RoutePlan closed = basinInTheStreet().neighbour("street", street).plan();
    assertTrue(closed.routes().isEmpty());
    Rejection x = rejection(closed, DrainKind.PERIMETER);
    assertEquals("blocked", x.code());
    assertTrue(x.sentence().contains("meets parcel street"), x.sentence());
    assertTrue(x.sentence().contains("right-of-way"), x.sentence());

    RoutePlan open = basinInTheStreet().street("street", street).plan();
    assertEquals(DrainKind.PERIMETER, open.routes().get(0).kind());
    checkSound(open);
  }

  private static Yard basinInTheStreet() {
    return Yard.slope().fromNorth(300).basin(20, 2, 9);
  }

  @Test
  void aBowlWhoseOutletLiesAboveItsFloorIsRefusedByTheMissingFall() {
    // Floor of the bowl at 9.7; highest invert there 9.7 - 0.15 - 0.117 = 9.433; the outlet's
    // invert 0.1 m above that: short by 0.1 m and 1 % of the way, within the length's error.
    double invert = 9.533;
    RoutePlan plan =
        Yard.lot((x, y) -> 10 - CollectorsTest.bowl(x, y, 20, 25, 4, 0.3))
            .basin(20, 6.5, invert)
            .plan();
    assertTrue(plan.routes().isEmpty());
    Rejection x = rejection(plan, DrainKind.LOW_SPOT);
    assertEquals("no-fall", x.code(), x.sentence());
    double way = 25 - 6.5;
    assertEquals(0.1 + 0.01 * way, x.shortfallM().orElseThrow(), 0.06, x.sentence());
    assertTrue(x.sentence().contains("pump"), x.sentence());
  }

  @Test
  void aPondWithNoOutletButTheNextYardIsOfferedOnlyBroadFlow() {
    // Neighbours on every side; a shallow pond of 15 by 8 ft over a filled pool.
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.02 * y - CollectorsTest.bowl(x, y, 20, 25, 3, 0.25))
            .neighbour(
                "around", "POLYGON((0 0, 40 0, 40 50, 0 50, 0 0),(5 5, 5 45, 35 45, 35 5, 5 5))");
    RoutePlan plan = yard.plan();
    assertTrue(plan.routes().isEmpty());
    assertTrue(plan.found().isEmpty());
    Rejection x = rejection(plan, DrainKind.LOW_SPOT);
    assertEquals("no-outlet", x.code());
    assertTrue(x.sentence().contains("spread level along the lot's own line"), x.sentence());
    assertTrue(x.sentence().contains("raise the matter with the neighbour"), x.sentence());
  }

  @Test
  void aLandLockedHollowWithARockPitGetsNoPromise() {
    RoutePlan plan =
        Yard.lot((x, y) -> 10 + 0.03 * Math.abs(x - 20) - CollectorsTest.bowl(x, y, 20, 25, 5, 0.5))
            .outlet("pit", Outlet.Kind.DRY_WELL, 20, 15, 9)
            .plan();
    assertTrue(plan.routes().isEmpty());
    assertTrue(
        plan.rejected().stream()
            .anyMatch(
                x -> x.code().equals("soil-unknown") && x.sentence().contains("cannot be said")));
  }

  @Test
  void anEntryCourtBelowTheCurbIsToldTheLiftAndTheValve() {
    // The court lies 0.6 m below the curb's flow line; everything else is higher.
    RoutePlan plan =
        Yard.lot((x, y) -> y > 10 && y < 20 && x > 15 && x < 25 ? 9.4 : 10.1)
            .outlet("curb", Outlet.Kind.STREET, 20, 4, 10)
            .plan();
    assertTrue(plan.routes().isEmpty());
    Rejection x = rejection(plan, DrainKind.LOW_SPOT);
    assertEquals("no-fall", x.code(), x.sentence());
    // Lift: curb less the highest invert in the court, and the fall on the way from its middle.
    double atLeast = 10 - (9.4 - 0.15 - 0.117) + 0.01 * 11;
    Rejection.Relaxation outlet =
        x.relax().stream().filter(r -> r.limit().equals("outlet")).findFirst().orElseThrow();
    assertEquals(atLeast, outlet.by(), 0.2, x.sentence());
    assertTrue(x.sentence().contains("one-way valve"), x.sentence());
  }

  @Test
  void underAWalkThePipeLiesBelowSlabAndBaseAndFallsOn() {
    RoutePlan plan =
        Yard.slope()
            .fromNorth(300)
            .slab("POLYGON((0 20, 40 20, 40 21.2, 0 21.2, 0 20))")
            .basin(20, 2, 9)
            .plan();
    checkSound(plan);
    Route best = plan.routes().get(0);
    List<Station> bored =
        best.main().stations().stream().filter(s -> s.span() == Station.Span.BORED).toList();
    assertFalse(bored.isEmpty());
    for (Station s : bored) {
      assertTrue(s.groundM() - s.invertM() >= 0.1 + 0.1 + 0.117 - 1e-6, s.toString());
    }
    assertTrue(
        best.crosses().stream().anyMatch(c -> c.contains("bored")), best.crosses().toString());
  }

  @Test
  void whereOneSixInchPipeWouldLeaveABellyUnderASlabTwoFourInchPipesAreTried() {
    // Level ground at 10. Under the slab a 6 in pipe (7 in outside) may lie no higher than 9.622, a
    // 4 in pipe no higher than 9.693; the basin beyond takes 9.640. Common practice, no source.
    Yard yard =
        Yard.of(30, 30, 0.5, (x, y) -> 10)
            .lot("POLYGON((5 5, 25 5, 25 25, 5 25, 5 5))")
            .inflow("south", 200, "LINESTRING(5 5, 25 5)")
            .slab("POLYGON((0 8, 30 8, 30 9.5, 0 9.5, 0 8))")
            .basin(15, 11, 9.640)
            .limits(Given.limits(0.001, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.1778, 0.1524));
    RoutePlan plan = yard.plan();
    checkSound(plan);
    Route best = plan.routes().get(0);
    assertTrue(
        best.reasons().stream().anyMatch(r -> r.startsWith("two 4 in pipes side by side")),
        best.reasons().toString());
    Bore bore = best.bores().get(0);
    assertEquals(2, bore.pipes().count());
    assertEquals("4 in solid Schedule 40 PVC", bore.pipes().pipe().words());
    assertEquals(6, bore.pipes().fittings()); // a wye and two reducers at each end
    assertEquals(1.5, bore.lengthM(), 0.3); // the slab is 1.5 m wide
    assertTrue(
        best.crosses().stream().anyMatch(c -> c.contains("2 pipes side by side, each 4 in")),
        best.crosses().toString());
  }

  @Test
  void aDrainTooDeepByARidgeIsToldHowMuchDepthWouldMendIt() {
    // A ridge 2 m high across the whole lot, 4 m wide at its top, between the water and the basin.
    RoutePlan plan =
        Yard.lot((x, y) -> 10 + 2 * Math.max(0, 1 - Math.max(0, Math.abs(y - 25) - 2) / 3))
            .fromNorth(300)
            .basin(20, 2, 9)
            .plan();
    Rejection x = rejection(plan, DrainKind.PERIMETER);
    assertEquals("too-deep", x.code(), x.sentence());
    Rejection.Relaxation depth =
        x.relax().stream().filter(r -> r.limit().equals("max-depth")).findFirst().orElseThrow();
    // The line's middle lies lowest, half its length (with the metre round the corner) of fall
    // below
    // 10 - 0.267; the pipe falls on to the ridge's far edge. 12 less that is the depth needed.
    double way = 15.4 + 44.4 - 23;
    assertEquals(12 - (10 - 0.267 - 0.01 * way) - 1.2, depth.by(), 0.05, x.sentence());
  }

  @Test
  void aClosedLotIsBlockedWhateverTheDepth() {
    RoutePlan plan =
        Yard.slope()
            .fromNorth(300)
            .obstacle(Obstacle.Kind.KEEP_OUT, Obstacle.Passage.NONE, 0.3, "LINESTRING(0 20, 40 20)")
            .basin(20, 2, 9)
            .plan();
    assertTrue(plan.routes().isEmpty());
    assertEquals("blocked", rejection(plan, DrainKind.PERIMETER).code());
  }

  @Test
  void aDriveTooWideToBoreIsNamedWithItsWidthAndTheLimit() {
    RoutePlan plan =
        Yard.slope()
            .fromNorth(300)
            .slab("POLYGON((0 6, 40 6, 40 15, 0 15, 0 6))")
            .basin(20, 2, 9)
            .plan();
    Rejection x = rejection(plan, DrainKind.PERIMETER);
    assertEquals("blocked", x.code(), x.sentence());
    assertTrue(
        x.sentence().contains("slab walk0, 9.00 m there, more than the 7.50 m that may be bored"),
        x.sentence());
  }

  @Test
  void groundNotKnownOnTheOnlyWayIsNamed() {
    RoutePlan plan =
        Yard.lot((x, y) -> y > 20 && y < 24 ? Double.NaN : 10 + 0.02 * y)
            .fromNorth(300)
            .basin(20, 2, 9)
            .plan();
    Rejection x = rejection(plan, DrainKind.PERIMETER);
    assertEquals("blocked", x.code(), x.sentence());
    assertTrue(x.sentence().contains("elevation is not known"), x.sentence());
  }

  @Test
  void threeAlternativesAreRankedWithReasonsWhereTheyExist() {
    RoutePlan plan =
        Yard.slope()
            .fromNorth(300)
            .slab("POLYGON((0 14, 22 14, 22 17, 0 17, 0 14))")
            .basin(10, 2, 9)
            .outlet("CB2", Outlet.Kind.CATCH_BASIN, 30, 2, 9)
            .outlet("ditch", Outlet.Kind.DITCH, 38, 30, 9.6)
            .plan();
    assertTrue(plan.routes().size() >= 3, plan.rejected().toString());
    checkSound(plan);
    for (int i = 0; i < plan.routes().size(); i++) {
      assertEquals("R" + (i + 1), plan.routes().get(i).id());
    }
    assertTrue(
        plan.routes().get(0).reasons().stream().anyMatch(r -> r.startsWith("cheapest of")),
        plan.routes().get(0).reasons().toString());
    assertTrue(plan.assumptions().stream().anyMatch(a -> a.about().equals("route.alternatives")));
  }

  @Test
  void everyRejectedKindAndOutletSaysWhy() {
    RoutePlan plan =
        Yard.slope()
            .fromNorth(300)
            .outlet("high", Outlet.Kind.CATCH_BASIN, 20, 2, 10.5)
            .outlet("well", Outlet.Kind.DRY_WELL, 20, 20, 9.5)
            .plan();
    assertTrue(plan.routes().isEmpty());
    for (Rejection x : plan.rejected()) {
      assertFalse(x.code().isEmpty());
      assertFalse(x.sentence().isEmpty());
      assertTrue(x.id().startsWith("X"));
    }
    assertTrue(plan.rejected().stream().anyMatch(x -> x.code().equals("soil-unknown")));
  }

  @Test
  void outletsThatMakeNoSenseStopThePlan() {
    assertThrows(
        BadInputException.class,
        () -> Yard.slope().outlet("far", Outlet.Kind.DITCH, 400, 400, 5).plan());
  }

  @Test
  void theSameYardGivesTheSamePlan() {
    Yard yard =
        Yard.slope()
            .fromNorth(300)
            .house("POLYGON((12 20, 26 20, 26 30, 12 30, 12 20))")
            .basin(20, 2, 9);
    assertEquals(yard.plan().routes(), yard.plan().routes());
  }

  private static Rejection rejection(RoutePlan plan, DrainKind kind) {
    Optional<Rejection> x = plan.rejected().stream().filter(r -> r.kind() == kind).findFirst();
    return x.orElseThrow();
  }

  private static void checkSound(RoutePlan plan) {
    assertFalse(plan.routes().isEmpty(), () -> plan.rejected().toString());
    for (Route route : plan.routes()) {
      assertTrue(route.audit().passed(), route.audit().toString());
      List<Station> s = route.main().stations();
      for (int i = 1; i < s.size(); i++) {
        assertTrue(s.get(i).invertM() < s.get(i - 1).invertM(), "falls all the way");
      }
    }
    assertTrue(plan.rejected().stream().noneMatch(x -> x.code().equals("audit")));
  }
}
