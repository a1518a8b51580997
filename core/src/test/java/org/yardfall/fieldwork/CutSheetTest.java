package org.yardfall.fieldwork;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.route.MadeUpRoute;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.BadInputException;

/** Stakes of invented routes whose every figure can be reckoned by hand. */
class CutSheetTest {

  private static final StakeSettings PLAIN = StakeSettings.of(FieldFixtures.SECTION).every(5);

  @Test
  void stakesStandAtEveryIntervalBendGradeBreakJunctionAndEnd() {
    CutSheet sheet = CutSheet.of(FieldFixtures.bentRoute(), PLAIN);
    checkStations(sheet, 0, "0.00 5.00 10.00 15.00 20.00 25.00 30.00");
    checkStations(sheet, 1, "0.00 5.00 8.00");
    assertEquals(
        List.of("bend 90° left", "grade break", "junction of branch 1"), row(sheet, 0, 4).why());
    assertEquals(List.of("outlet CB1"), row(sheet, 0, 6).why());
    assertEquals(List.of("joins main line"), row(sheet, 1, 2).why());
  }

  @Test
  void aCrossingIsStakedWhereItBeginsAndEnds() {
    Route route =
        FieldFixtures.route(FieldFixtures.bored(FieldFixtures.bentRoute().main(), 12, 14));
    CutSheet sheet = CutSheet.of(route, PLAIN);
    checkStations(sheet, 0, "0.00 5.00 10.00 12.00 14.00 15.00 20.00 25.00 30.00");
    assertEquals(List.of("crossing begins (bore)"), row(sheet, 0, 3).why());
    assertEquals(List.of("crossing ends"), row(sheet, 0, 4).why());
  }

  /** By hand: at 5 m invert 100.95, ground 101.55; wall 7 mm and bed 50.8 mm under the invert. */
  @Test
  void figuresAtAStakeAreThoseReckonedByHand() {
    CutSheet sheet =
        CutSheet.of(FieldFixtures.bentRoute(), PLAIN.with(new LaserSetup(101.20, 1.305)));
    CutRow row = row(sheet, 0, 1);
    assertEquals(101.55, row.groundM(), 1e-9);
    assertEquals(100.95, row.invertM(), 1e-9);
    assertEquals(100.95 - 0.007 - 0.0508, row.bottomM(), 1e-9);
    assertEquals(0.6578, row.cutM(), 1e-9);
    assertEquals(0.01, row.grade(), 1e-9);
    assertEquals(102.505 - 100.95, row.invertRodM().getAsDouble(), 1e-9);
    assertEquals(102.505 - 100.8922, row.bottomRodM().getAsDouble(), 1e-9);
    assertEquals(0.02, row(sheet, 0, 4).grade(), 1e-9);
    assertTrue(Double.isNaN(row(sheet, 0, 6).grade()));
  }

  @Test
  void offsetStakesStandBesideTheLineLookingDownstream() {
    CutSheet sheet =
        CutSheet.of(FieldFixtures.bentRoute(), PLAIN.offset(1, StakeSettings.Side.BOTH));
    checkAt(row(sheet, 0, 1).left().orElseThrow(), 5, 1);
    checkAt(row(sheet, 0, 1).right().orElseThrow(), 5, -1);
    // North-bound after the bend: left is west.
    checkAt(row(sheet, 0, 5).left().orElseThrow(), 19, 5);
    // At the bend where both offset lines meet.
    checkAt(row(sheet, 0, 4).left().orElseThrow(), 19, 1);
    checkAt(row(sheet, 0, 4).right().orElseThrow(), 21, -1);
  }

  @Test
  void aDropHasItsLowerInvertAndTheGradeAboveItEndsOnTheUpperOne() {
    Route bent = FieldFixtures.bentRoute();
    List<Station> stations = new java.util.ArrayList<>();
    for (Station s : bent.main().stations()) {
      boolean below = s.stationM() >= 10 - 1e-9;
      if (below && stations.get(stations.size() - 1).stationM() < 10 - 1e-9) {
        stations.add(s);
      }
      stations.add(
          new Station(
              s.stationM(),
              s.x(),
              s.y(),
              s.groundM(),
              s.invertM() - (below ? 0.3 : 0),
              s.coverM(),
              s.depthM() + (below ? 0.3 : 0),
              s.grade(),
              s.span()));
    }
    Route route =
        FieldFixtures.route(new org.yardfall.route.DrainLine(bent.main().vertices(), stations));
    CutSheet sheet = CutSheet.of(route, PLAIN);
    assertEquals(List.of("drop"), row(sheet, 0, 2).why());
    assertEquals(0.3, row(sheet, 0, 2).dropM(), 1e-9);
    assertTrue(sheet.csv(FieldUnits.METRES).contains("\"drop, 0.300 m down\""));
    assertEquals(100.60, row(sheet, 0, 2).invertM(), 1e-9);
    assertEquals(0.01, row(sheet, 0, 1).grade(), 1e-9);
    assertEquals(0.01, row(sheet, 0, 2).grade(), 1e-9);
  }

  @Test
  void theTableIsInTheCrewsUnits() {
    CutSheet sheet = CutSheet.of(FieldFixtures.bentRoute(), PLAIN.every(3.048));
    String csv = sheet.csv(FieldUnits.FEET);
    assertTrue(csv.startsWith("line,station_ft,why,x,y,ground_ft,invert_ft,"), csv);
    // 3.048 m: invert 100.96952 m = 331.265 ft; cut 0.6578 m = 2.158 ft.
    assertTrue(csv.contains("main,10.0,interval,3.048,0.000,333.23,331.26,331.08,2.16,1.00"), csv);
    assertTrue(sheet.csv(FieldUnits.FEET_INCHES).contains("2' 1 7/8"));
    assertEquals(
        csv, CutSheet.of(FieldFixtures.bentRoute(), PLAIN.every(3.048)).csv(FieldUnits.FEET));
  }

  @Test
  void coordinatesAreWrittenInTheUnitOfTheCrs() {
    CutSheet sheet = CutSheet.of(FieldFixtures.bentRoute(), PLAIN.every(3.048).inUnitsOf(0.3048));
    assertTrue(sheet.csv(FieldUnits.METRES).contains("main,3.05,interval,10.000,0.000,"));
  }

  @Test
  void thePageIsOneFileAndWritesTextFromOutsideAsText() {
    Route bent = FieldFixtures.bentRoute();
    Route hostile =
        MadeUpRoute.to("<script>alert(1)</script>", bent.main(), bent.branches()).make();
    String page =
        CutSheet.of(hostile, PLAIN.offset(1, StakeSettings.Side.LEFT)).page(FieldUnits.FEET_INCHES);
    assertFalse(page.contains("<script"));
    assertTrue(page.contains("&lt;script&gt;"));
    assertFalse(page.contains("http"));
    assertTrue(page.contains("utilities located"));
  }

  @Test
  void settingsThatCannotBeStakedAreRefused() {
    assertThrows(BadInputException.class, () -> PLAIN.every(0));
    assertThrows(BadInputException.class, () -> PLAIN.every(Double.NaN));
    assertThrows(BadInputException.class, () -> PLAIN.offset(0.2, StakeSettings.Side.LEFT));
  }

  @Test
  void aBenchmarkOfAnotherDatumIsRefused() {
    Route route = FieldFixtures.bentRoute(); // inverts near 100 m
    StakeSettings settings = PLAIN.with(new LaserSetup(330, 1.5));
    BadInputException refusal =
        assertThrows(BadInputException.class, () -> CutSheet.of(route, settings));
    assertTrue(refusal.getMessage().contains("above the pipe's upper end"), refusal.getMessage());
  }

  @Test
  void anInstrumentTooLowIsSaid() {
    CutSheet sheet = CutSheet.of(FieldFixtures.bentRoute(), PLAIN.with(LaserSetup.atHeight(100.9)));
    assertEquals(1, sheet.warnings(FieldUnits.METRES).size());
    assertTrue(sheet.warnings(FieldUnits.METRES).get(0).contains("set the instrument up higher"));
  }

  /** No two stakes lie farther apart than the interval; bottom, cut and ground always agree. */
  @Property(tries = 60, seed = "20261125")
  void stakesAreNeverFartherApartThanTheInterval(
      @ForAll @DoubleRange(min = 0.3, max = 12) double interval) {
    CutSheet sheet = CutSheet.of(FieldFixtures.bentRoute(), PLAIN.every(interval));
    for (CutSheet.Line line : sheet.lines()) {
      double before = 0;
      for (CutRow row : line.rows()) {
        assertTrue(row.stationM() - before <= interval + 0.0051);
        assertEquals(row.groundM() - row.cutM(), row.bottomM(), 1e-9);
        before = row.stationM();
      }
    }
  }

  private static CutRow row(CutSheet sheet, int line, int row) {
    return sheet.lines().get(line).rows().get(row);
  }

  private static void checkStations(CutSheet sheet, int line, String expected) {
    assertEquals(
        expected,
        sheet.lines().get(line).rows().stream()
            .map(r -> FieldUnits.METRES.station(r.stationM()))
            .collect(Collectors.joining(" ")));
  }

  private static void checkAt(Coordinate at, double x, double y) {
    assertEquals(x, at.x, 1e-9);
    assertEquals(y, at.y, 1e-9);
  }
}
