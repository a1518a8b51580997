package org.yardfall.runoff;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.water.LowSpot;
import org.yardfall.water.MadeUpLowSpot;
import org.yardfall.water.StandingWater;

/**
 * A slope 20 m wide in cells of a metre that falls south for 30 m, the lot from 10 m to 20 m,
 * worked by hand: a line over the whole of it at 19.5 m meets the 11 m above and under it, 220 m².
 */
class InterceptionTest {

  /** Runoff of 0.1 m of rain on the slope's lawn in soil D, by the curve number method. */
  private static final double RUNOFF_M = 87.3 * 87.3 / 150.8 / 1000;

  @Test
  void onlyWhatRunsOntoTheLineAsLaidCounts() {
    assertEquals(220, dry("LINESTRING (0 19.5, 20 19.5)"), 1e-9);
    assertEquals(110, dry("LINESTRING (0 19.5, 9.9 19.5)"), 1e-9);
    // A second line 5 m further down takes what falls between the two, and nothing twice.
    assertEquals(220 + 100, dry("LINESTRING (0 19.5, 20 19.5)", "LINESTRING (0 14.5, 20 14.5)"));
    assertEquals(0, dry(), 1e-9);
  }

  /** The low spot lies 24 to 26 m up and gets the water of 120 m². */
  @Test
  void whatALowSpotAboveKeepsNeverComesToTheLine() {
    assertEquals(220 - 120, behind(4, 0, List.of()), 1e-9);
  }

  @Test
  void ofALowSpotThatSpillsTheShareThatRunsOnCounts() {
    double arrivesM3 = 120 * RUNOFF_M;
    assertEquals(220 - 60, behind(arrivesM3 / 2, arrivesM3 / 2, List.of()), 0.1);
    assertEquals(220 - 12, behind(arrivesM3 / 10, arrivesM3 * 0.9, List.of()), 0.1);
  }

  @Test
  void whatAnOpenBasinAboveTakesNeverComesToTheLine() {
    assertEquals(220 - 120, behind(1, 3, List.of(new Coordinate(10.5, 24.5))), 1e-9);
  }

  private static double dry(String... lines) {
    return area(hillside(), Optional.empty(), lines);
  }

  private static double behind(double standsM3, double spillsM3, List<Coordinate> inlets) {
    Geometry outline = Yard.geometry("POLYGON ((0 24, 20 24, 20 26, 0 26, 0 24))");
    Yard yard = hillside();
    float bottom = yard.terrain().ground().z()[5 * 20];
    yard.lowSpot(
        MadeUpLowSpot.of(
            "L1",
            outline,
            null,
            bottom,
            bottom + 0.1,
            null,
            40,
            4,
            120,
            new LowSpot.Stage(bottom, 40, 0),
            new LowSpot.Stage(bottom + 0.1, 40, 4)));
    StandingWater.Pond pond =
        new StandingWater.Pond("L1", outline, bottom + 0.1, 0.1, 40, standsM3, spillsM3, "");
    return area(
        yard,
        Optional.of(new StandingWater(List.of(pond), 0, 0, standsM3, 0, 0, inlets)),
        "LINESTRING (0 19.5, 20 19.5)");
  }

  private static double area(Yard yard, Optional<StandingWater> standing, String... lines) {
    return InflowLedgerFinder.of(
            yard.site(), yard.terrain(), yard.water(), InflowLedgerFinderTest.storm(0.1), standing)
        .interception()
        .areaM2(List.of(lines).stream().map(Yard::geometry).toList());
  }

  private static Yard hillside() {
    return Yard.slope(20, 30, 1, 0.04)
        .parcel("above", "POLYGON ((0 20, 20 20, 20 30, 0 30, 0 20))")
        .lot("7", "POLYGON ((0 10, 20 10, 20 20, 0 20, 0 10))");
  }
}
