package org.yardfall.runoff;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.GridFrame;
import org.yardfall.runoff.DrainEffect.Intake;
import org.yardfall.runoff.DrainEffect.NeighbourChange;
import org.yardfall.site.Outlet;
import org.yardfall.site.UnitSystem;
import org.yardfall.water.LowSpot;
import org.yardfall.water.MadeUpLowSpot;
import org.yardfall.water.StandingWater;

class DrainEffectFinderTest {

  /** Twenty metres of lot on a slope to the south, a neighbour above and one below. */
  private static Yard hillside() {
    return Yard.slope(20, 30, 1, 0.04)
        .parcel("above", "POLYGON ((0 20, 20 20, 20 30, 0 30, 0 20))")
        .lot("7", "POLYGON ((0 10, 20 10, 20 20, 0 20, 0 10))")
        .parcel("below", "POLYGON ((0 0, 20 0, 20 10, 0 10, 0 0))");
  }

  private static DrainEffect effect(Yard yard, String line, Outlet.Kind kind, double x, double y) {
    InflowLedgerFinder finder =
        InflowLedgerFinder.of(
            yard.site(),
            yard.terrain(),
            yard.water(),
            InflowLedgerFinderTest.storm(0.1),
            Optional.empty());
    Outlet outlet =
        new Outlet(
            "O",
            kind,
            new Coordinate(x, y),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            "");
    return DrainEffectFinder.find(finder, List.of(Yard.geometry(line)), outlet);
  }

  private static void checkCloses(InflowLedger ledger) {
    InflowLedger.Balance b = ledger.balance();
    assertEquals(0, b.errorM3(), 1e-9 * (b.inflowM3() + b.ownRainM3()));
    assertEquals(
        b.outflowM3(),
        ledger.outflow().stream().mapToDouble(BoundaryFlow::volumeM3).sum(),
        1e-9 * b.ownRainM3());
  }

  @Test
  void aLineAcrossTheSlopeKeepsItsWaterFromTheParcelBelow() {
    DrainEffect effect =
        effect(hillside(), "LINESTRING (0.5 12.5, 19.5 12.5)", Outlet.Kind.CATCH_BASIN, 1, 1);
    checkCloses(effect.before());
    checkCloses(effect.after());
    assertEquals(360, effect.captured().areaM2(), 1e-9); // 18 rows of 20 m²
    assertEquals(40, effect.after().outflow().get(0).areaM2(), 1e-9);
    assertEquals(effect.capturedM3(), effect.after().balance().drainedM3(), 1e-12);
    assertEquals(0.9, effect.capturedM3() / effect.before().balance().outflowM3(), 1e-9);
    NeighbourChange below = effect.neighbours().get(0);
    assertEquals("below", below.neighbour());
    assertEquals(0.1, below.afterPeakM3S() / below.beforePeakM3S(), 1e-9);
    assertFalse(effect.anyRises());
    assertTrue(effect.warnings().isEmpty());
  }

  @Test
  void theIntakesAddUpToWhatIsCaptured() {
    DrainEffect effect =
        effect(hillside(), "LINESTRING (0.5 12.5, 19.5 12.5)", Outlet.Kind.CATCH_BASIN, 1, 1);
    assertEquals(20, effect.intakes().size());
    assertEquals(360, effect.intakes().stream().mapToDouble(Intake::areaM2).sum(), 1e-9);
    assertEquals(
        effect.capturedM3(), effect.intakes().stream().mapToDouble(Intake::volumeM3).sum(), 1e-9);
    assertEquals(
        effect.captured().coefficient() * 360,
        effect.intakes().stream().mapToDouble(Intake::coefficientTimesAreaM2).sum(),
        1e-9);
  }

  @Test
  void anOutletToDaylightByTheLineConcentratesAndIsFlagged() {
    DrainEffect effect =
        effect(hillside(), "LINESTRING (0.5 12.5, 19.5 12.5)", Outlet.Kind.DAYLIGHT, 5.5, 11.5);
    checkCloses(effect.after());
    assertEquals(0, effect.after().balance().drainedM3(), 0);
    NeighbourChange below = effect.neighbours().get(0);
    assertEquals(below.beforeM3(), below.afterM3(), 1e-9); // the same water …
    assertTrue(below.afterPerMetreM2() > 15 * below.beforePerMetreM2()); // … at one place
    assertTrue(below.rises());
    String warning = effect.warnings().get(0);
    assertTrue(warning.startsWith("With the drain, parcel below would receive"));
    String us = UnitSystem.US.restate(warning);
    assertFalse(us.matches(".*\\d (m³|m3|l/s|m)\\b.*"), us);
    assertTrue(us.matches(".* ft³ .* ft³/s .* ft³ per ft .*"), us);
    BoundaryFlow thread =
        effect.after().outflow().stream().filter(BoundaryFlow::concentrated).findFirst().get();
    assertEquals(5.5, thread.at().x, 1e-9);
    assertTrue(thread.peakM3S() >= effect.captured().peakM3S());
  }

  @Test
  void anOutletBeyondTheLineIsCountedForItsParcel() {
    DrainEffect effect =
        effect(hillside(), "LINESTRING (0.5 12.5, 19.5 12.5)", Outlet.Kind.DITCH, 5, 25);
    NeighbourChange above = effect.neighbours().get(0);
    assertEquals("above", above.neighbour());
    assertEquals(effect.capturedM3(), above.afterM3(), 1e-12);
    assertTrue(above.rises());
  }

  @Test
  void anOutletAboveItsOwnLinesIsSaid() {
    DrainEffect effect =
        effect(hillside(), "LINESTRING (0.5 12.5, 19.5 12.5)", Outlet.Kind.DAYLIGHT, 5.5, 15.5);
    assertTrue(effect.warnings().get(0).contains("run back"));
    checkCloses(effect.after());
    assertTrue(effect.after().balance().drainedM3() > 0);
  }

  /** A low spot 40 m² wide and 0.3 m deep: 2 m³ stand below 0.1 m, 6 m³ below its spill. */
  @Test
  void aLineThroughALowSpotEmptiesItDownToItsOwnGround() {
    Yard yard = hillside();
    float bottom = yard.terrain().ground().z()[17 * 20];
    LowSpot spot =
        MadeUpLowSpot.of(
            "L1",
            Yard.geometry("POLYGON ((0 12, 20 12, 20 14, 0 14, 0 12))"),
            null,
            bottom,
            bottom + 0.3,
            null,
            40,
            6,
            360,
            new LowSpot.Stage(bottom, 40, 0),
            new LowSpot.Stage(bottom + 0.1, 40, 2),
            new LowSpot.Stage(bottom + 0.3, 40, 6));
    StandingWater standing =
        new StandingWater(
            List.of(new StandingWater.Pond("L1", spot.outline(), bottom + 0.3, 0.3, 40, 6, 12, "")),
            0,
            0,
            6,
            0,
            0,
            List.of());
    yard.lowSpot(spot);
    InflowLedgerFinder finder =
        InflowLedgerFinder.of(
            yard.site(),
            yard.terrain(),
            yard.water(),
            InflowLedgerFinderTest.storm(0.1),
            Optional.of(standing));
    double all = 360 * 87.3 * 87.3 / 150.8 / 1000;
    BitSet lower = new BitSet();
    lower.set(17 * 20 + 5); // on the bottom: nothing stays
    InflowLedgerFinder.Drained low = finder.drained(lower, -1);
    assertEquals(all, low.capturedM3(), 1e-4);
    assertEquals(0, low.ledger().balance().standingM3(), 1e-4);
    assertEquals(6, finder.find().balance().standingM3(), 1e-9);
    BitSet upper = new BitSet();
    upper.set(16 * 20 + 5); // a cell up the slope, 4 cm higher: 0.8 m³ stay
    InflowLedgerFinder.Drained high = finder.drained(upper, -1);
    assertEquals(0.8, high.ledger().balance().standingM3(), 1e-4);
    assertEquals(all - 0.8, high.capturedM3(), 1e-4);
    checkCloses(high.ledger());
    assertEquals(360, high.captured().areaM2(), 1e-9);
  }

  @Test
  void noWaterSlipsThroughASlantingLine() {
    BitSet cells = new BitSet();
    GridFrame frame = new GridFrame(30, 30, 0, 30, 1);
    DrainEffectFinder.cells(
        new Coordinate[] {new Coordinate(0.2, 3.1), new Coordinate(29.7, 24.3)}, frame, cells);
    for (int row = 0; row + 1 < 30; row++) {
      for (int col = 0; col + 1 < 30; col++) {
        boolean a = cells.get(row * 30 + col) && cells.get((row + 1) * 30 + col + 1);
        boolean b = cells.get(row * 30 + col + 1) && cells.get((row + 1) * 30 + col);
        boolean side = cells.get(row * 30 + col) || cells.get((row + 1) * 30 + col + 1);
        boolean other = cells.get(row * 30 + col + 1) || cells.get((row + 1) * 30 + col);
        assertTrue((!a || other) && (!b || side), "corner at " + col + ", " + row);
      }
    }
  }

  @Property(tries = 40, seed = "20261125")
  void aDrainToASewerNeverRaisesWhatANeighbourReceives(
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    DrainEffect effect =
        effect(
            InflowLedgerFinderTest.random(seed),
            "LINESTRING (9 9, 15 " + (6 + seed % 12) + ", 22 9)",
            Outlet.Kind.CATCH_BASIN,
            1,
            1);
    checkCloses(effect.after());
    assertFalse(effect.anyRises());
    assertEquals(effect.captured().runoff().volumeM3(), effect.capturedM3(), 1e-9);
    // Besides what would have left the lot it may take what just passes along the line.
    double drained = effect.after().balance().drainedM3();
    assertTrue(effect.capturedM3() >= drained - 1e-9);
    assertEquals(
        effect.before().balance().outflowM3(),
        effect.after().balance().outflowM3() + drained,
        1e-9);
  }
}
