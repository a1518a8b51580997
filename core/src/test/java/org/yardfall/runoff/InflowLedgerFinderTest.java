package org.yardfall.runoff;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.StormInput;
import org.yardfall.site.Surface.Kind;
import org.yardfall.water.LowSpot;
import org.yardfall.water.MadeUpLowSpot;
import org.yardfall.water.StandingWater;

class InflowLedgerFinderTest {

  /** TR-55 eq. 2-3 with CN 80: S = 63.5 mm, Q = (100 − 12.7)² / (100 + 50.8) = 50.54 mm. */
  private static final double DEPTH_M = 87.3 * 87.3 / 150.8 / 1000;

  private static final Storm STORM = storm(0.1);

  static Storm storm(double depthM) {
    return Storm.of(
        new StormInput(
            OptionalDouble.of(depthM), OptionalDouble.of(86_400), null, OptionalDouble.empty()));
  }

  static InflowLedger ledger(Yard yard) {
    return InflowLedgerFinder.find(yard.site(), yard.terrain(), yard.water(), STORM);
  }

  /**
   * Two uphill neighbours, the lot below, one downhill: 20 m wide strips of a slope to the south.
   */
  private static Yard hillside() {
    return Yard.slope(20, 30, 1, 0.04)
        .parcel("west", "POLYGON ((0 20, 8 20, 8 30, 0 30, 0 20))")
        .parcel("east", "POLYGON ((8 20, 20 20, 20 30, 8 30, 8 20))")
        .lot("7", "POLYGON ((0 10, 20 10, 20 20, 0 20, 0 10))")
        .parcel("below", "POLYGON ((0 0, 20 0, 20 10, 0 10, 0 0))");
  }

  @Test
  void eachNeighbourAboveHasItsStretchWithItsArea() {
    InflowLedger ledger = ledger(hillside());
    assertEquals(2, ledger.inflow().size());
    BoundaryFlow east = ledger.inflow().get(0);
    BoundaryFlow west = ledger.inflow().get(1);
    checkFlow("I1", "east", 120, 12, 180, east);
    checkFlow("I2", "west", 80, 8, 180, west);
    assertEquals(Map.of("east", 120.0), east.areaByParcelM2());
    assertEquals("lawn 120 m2", east.surfaces());
    assertEquals(120 * DEPTH_M, east.volumeM3(), 1e-5);
  }

  @Test
  void whatLeavesGoesToTheParcelBelowWithEverythingThatCameThrough() {
    InflowLedger ledger = ledger(hillside());
    assertEquals(1, ledger.outflow().size());
    BoundaryFlow out = ledger.outflow().get(0);
    checkFlow("O1", "below", 400, 20, 180, out);
    assertEquals(List.of("below"), out.downstream());
    assertEquals(Map.of("7", 200.0, "east", 120.0, "west", 80.0), out.areaByParcelM2());
    assertEquals(10.0, out.at().y, 1e-9);
  }

  private static void checkFlow(
      String id, String neighbour, double areaM2, double widthM, double bearing, BoundaryFlow f) {
    assertEquals(id, f.id());
    assertEquals(neighbour, f.neighbour());
    assertEquals(areaM2, f.areaM2(), 1e-9);
    assertEquals(widthM, f.widthM(), 1e-9);
    assertEquals(widthM, f.stretch().getLength(), 1e-9);
    assertEquals(bearing, f.bearingDeg(), 1e-9);
  }

  @Test
  void theTotalsClose() {
    InflowLedger.Balance b = ledger(hillside()).balance();
    assertEquals(0, b.errorM3(), 1e-9 * (b.inflowM3() + b.ownRainM3()));
    assertEquals(200 * 0.1, b.ownRainM3(), 1e-9);
    assertEquals(200 * DEPTH_M, b.inflowM3(), 1e-4);
    assertEquals(400 * DEPTH_M, b.outflowM3(), 1e-4);
  }

  @Test
  void thePeakIsRationalWithTheTimeAlongTheLongestPath() {
    BoundaryFlow east = ledger(hillside()).inflow().get(0);
    // nine steps of 1 m down the lawn are sheet flow, far under the least time of five minutes
    assertEquals(300, east.time().seconds(), 0);
    assertEquals(9, east.time().reaches().get(0).lengthM(), 1e-9);
    assertEquals(0.04, east.time().reaches().get(0).slope(), 1e-6);
    assertEquals(0.27, east.coefficient(), 1e-12); // lawn, D, 2–7 %
    assertEquals(east.coefficient() * STORM.intensityMS(300) * 120, east.peakM3S(), 1e-12);
  }

  @Test
  void aLineThatWaterWeavesAlongIsCrossedOnce() {
    // the path steps over the line at x = 2 again and again; the lot is the eastern half
    Yard yard =
        Yard.drawn(1, 0.02, "→↓..", ".↘..", "..↙.", ".↘..", "..↙.", "....")
            .lot("7", "POLYGON ((2 0, 4 0, 4 6, 2 6, 2 0))")
            .parcel("west", "POLYGON ((0 0, 2 0, 2 6, 0 6, 0 0))");
    InflowLedger ledger = ledger(yard);
    InflowLedger.Balance b = ledger.balance();
    assertEquals(0, b.errorM3(), 1e-12);
    assertEquals(
        b.inflowM3(), ledger.inflow().stream().mapToDouble(BoundaryFlow::volumeM3).sum(), 1e-12);
    // three cells above the first crossing and the one between: each counted once
    assertEquals(4 * DEPTH_M, b.inflowM3(), 1e-5);
    assertEquals(1, ledger.outflow().stream().filter(f -> f.neighbour().equals("west")).count());
  }

  @Test
  void groundThatEndsAboveMakesALowerBound() {
    assertFalse(ledger(hillside()).inflow().get(0).atLeast());
    InflowLedger cut = ledger(hillside().edge(10)); // a cell of the top row, in the east
    assertTrue(cut.inflow().get(0).atLeast());
    assertFalse(cut.inflow().get(1).atLeast());
  }

  @Test
  void aThreadIsToldFromASheet() {
    // a valley in the middle gathers 1 m wide what falls on 21 m × 40 m
    String[] rows = new String[60];
    for (int r = 0; r < 60; r++) {
      rows[r] = r < 40 ? "→".repeat(10) + "↓" + "←".repeat(10) : (r < 59 ? "↓" : ".").repeat(21);
    }
    Yard yard =
        Yard.drawn(1, 0.02, rows)
            .lot("7", "POLYGON ((0 0, 21 0, 21 20, 0 20, 0 0))")
            .parcel("up", "POLYGON ((0 20, 21 20, 21 60, 0 60, 0 20))");
    List<BoundaryFlow> in = ledger(yard).inflow();
    assertEquals(1, in.size());
    assertTrue(in.get(0).concentrated());
    assertEquals(1, in.get(0).widthM(), 1e-9);
    assertEquals(840, in.get(0).areaM2(), 1e-9);
    assertFalse(ledger(hillside()).inflow().get(0).concentrated());
  }

  @Test
  void waterThatCrossesTwoLotsBelowNamesThemInOrder() {
    Yard yard =
        Yard.slope(4, 12, 1, 0.04)
            .lot("1", "POLYGON ((0 8, 4 8, 4 12, 0 12, 0 8))")
            .parcel("3", "POLYGON ((0 0, 4 0, 4 4, 0 4, 0 0))")
            .parcel("2", "POLYGON ((0 4, 4 4, 4 8, 0 8, 0 4))");
    assertEquals(List.of("2", "3"), ledger(yard).outflow().get(0).downstream());
  }

  @Test
  void roofAndPavementStandApartFromLawn() {
    Yard yard =
        hillside()
            .building("POLYGON ((10 24, 14 24, 14 27, 10 27, 10 24))")
            .surface(Kind.PAVEMENT, "POLYGON ((0 20, 4 20, 4 30, 0 30, 0 20))");
    InflowLedger ledger = ledger(yard);
    Map<String, BoundaryFlow> byNeighbour =
        Map.of(
            ledger.inflow().get(0).neighbour(), ledger.inflow().get(0),
            ledger.inflow().get(1).neighbour(), ledger.inflow().get(1));
    assertEquals("lawn 108 m2, roof 12 m2", byNeighbour.get("east").surfaces());
    assertEquals("pavement 40 m2, lawn 40 m2", byNeighbour.get("west").surfaces());
    CurveNumber.Runoff east = byNeighbour.get("east").runoff();
    assertEquals(east.volumeM3(), byNeighbour.get("east").volumeM3(), 1e-9);
    assertTrue(
        east.volumeM3() > CurveNumberTest.weightedM3(east, STORM.depthM()),
        "a weighted curve number leaves runoff out");
    InflowLedger.Balance b = ledger.balance();
    assertEquals(0, b.errorM3(), 1e-9 * b.inflowM3());
  }

  private static LowSpot bench() {
    return MadeUpLowSpot.of(
        "L1",
        Yard.geometry("POLYGON ((0 12, 20 12, 20 14, 0 14, 0 12))"),
        null,
        0,
        0.3,
        null,
        40,
        6,
        360);
  }

  /** An open catch basin takes what comes to its low spot, whether or not a drain passes there. */
  @Test
  void whatAnOpenInletTakesNeitherStandsNorLeaves() {
    StandingWater standing =
        new StandingWater(
            List.of(), 0, 0, 0, 0, 360 * DEPTH_M, List.of(new Coordinate(10.5, 13.5)));
    Yard yard = hillside().lowSpot(bench());
    InflowLedgerFinder finder =
        InflowLedgerFinder.of(
            yard.site(), yard.terrain(), yard.water(), STORM, Optional.of(standing));
    InflowLedger.Balance b = finder.find().balance();
    assertEquals(360 * DEPTH_M, b.inletM3(), 1e-9);
    assertEquals(40 * DEPTH_M, b.outflowM3(), 1e-9);
    assertEquals(0, b.standingM3(), 1e-9);
    assertEquals(0, b.errorM3(), 1e-9 * b.ownRainM3());
    BitSet line = new BitSet();
    for (int x = 0; x < 20; x++) {
      line.set(yard.water().flow().frame().index(x + 0.5, 13.5));
    }
    InflowLedgerFinder.Drained drained = finder.drained(line, -1);
    assertEquals(0, drained.capturedM3(), 1e-9);
    assertEquals(360 * DEPTH_M, drained.ledger().balance().inletM3(), 1e-9);
    assertEquals(0, drained.ledger().balance().errorM3(), 1e-9 * b.ownRainM3());
  }

  @Test
  void whatTheLowSpotHoldsDoesNotLeave() {
    LowSpot spot = bench();
    StandingWater standing =
        new StandingWater(
            List.of(new StandingWater.Pond("L1", spot.outline(), 0.3, 0.3, 40, 6, 12, "")),
            0,
            0,
            6,
            0,
            0,
            List.of());
    Yard yard = hillside().lowSpot(spot);
    InflowLedger.Balance b =
        InflowLedgerFinder.of(
                yard.site(), yard.terrain(), yard.water(), STORM, Optional.of(standing))
            .find()
            .balance();
    assertEquals(6, b.standingM3(), 1e-9); // of the 18.2 m³ that 360 m² bring
    assertEquals(400 * DEPTH_M - 6, b.outflowM3(), 1e-9);
    assertEquals(0, b.errorM3(), 1e-9 * b.ownRainM3());
  }

  @Test
  void withoutALotNothingIsLedgered() {
    InflowLedger ledger = ledger(Yard.slope(4, 4, 1, 0.02));
    assertTrue(ledger.all().isEmpty());
    assertEquals(0, ledger.balance().ownRainM3(), 0);
  }

  @Property(tries = 60, seed = "20261125")
  void anyFlowFieldClosesItsTotals(@ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    Yard yard = random(seed);
    InflowLedger ledger = ledger(yard);
    InflowLedger.Balance b = ledger.balance();
    assertEquals(0, b.errorM3(), 1e-9 * (b.inflowM3() + b.ownRainM3()));
    assertEquals(
        b.inflowM3(),
        ledger.inflow().stream().mapToDouble(BoundaryFlow::volumeM3).sum(),
        1e-9 * b.inflowM3());
    assertEquals(
        b.outflowM3(),
        ledger.outflow().stream().mapToDouble(BoundaryFlow::volumeM3).sum(),
        1e-9 * b.ownRainM3());
    for (BoundaryFlow f : ledger.all()) {
      assertEquals(f.runoff().volumeM3(), f.volumeM3(), 1e-9 * b.ownRainM3());
      assertEquals(
          f.areaM2(), f.areaByParcelM2().values().stream().mapToDouble(d -> d).sum(), 1e-9);
    }
  }

  @Property(tries = 30, seed = "20261125")
  void moreRainNeverMeansLess(@ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    Yard yard = random(seed);
    double before = 0;
    double peak = 0;
    for (double rain : new double[] {0.01, 0.03, 0.06, 0.12}) {
      InflowLedger ledger =
          InflowLedgerFinder.find(yard.site(), yard.terrain(), yard.water(), storm(rain));
      double sum = ledger.all().stream().mapToDouble(BoundaryFlow::peakM3S).sum();
      assertTrue(ledger.balance().outflowM3() >= before);
      assertTrue(sum >= peak);
      before = ledger.balance().outflowM3();
      peak = sum;
    }
  }

  /** A field in which every cell goes to one of three neighbours below it, a lot in the middle. */
  static Yard random(long seed) {
    Random random = new Random(seed);
    String[] rows = new String[14];
    for (int r = 0; r < rows.length; r++) {
      StringBuilder row = new StringBuilder();
      for (int c = 0; c < 16; c++) {
        boolean last = r == rows.length - 1;
        String choice = c == 0 ? "↓↘" : c == 15 ? "↙↓" : "↙↓↘";
        row.append(last ? '.' : choice.charAt(random.nextInt(choice.length())));
      }
      rows[r] = row.toString();
    }
    return Yard.drawn(2, 0.03, rows)
        .lot("7", "POLYGON ((9 5, 25 7, 22 21, 7 19, 9 5))")
        .parcel("a", "POLYGON ((0 0, 9 5, 7 19, 0 28, 0 0))")
        .parcel("b", "POLYGON ((0 28, 7 19, 22 21, 32 28, 0 28))")
        .building("POLYGON ((12 10, 18 10, 18 14, 12 14, 12 10))");
  }
}
