package org.yardfall.runoff;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.yardfall.runoff.TimeOfConcentration.Flow;
import org.yardfall.runoff.TimeOfConcentration.Reach;
import org.yardfall.runoff.TimeOfConcentration.Settings;
import org.yardfall.site.Surface.Kind;

class TimeOfConcentrationTest {

  private static final double FOOT_M = 0.3048;
  private static final double INCH_M = 0.0254;

  /**
   * TR-55 (June 1986) example 3-1: sheet flow 0.30 h, shallow flow 0.24 h, channel 0.99 h, together
   * 1.53 h (read as printed, data and results, in the manual of a public program that checks itself
   * by it; the equations read on worksheet 3).
   */
  @Test
  void thePublishedExampleIsReproduced() {
    Reach ab = TimeOfConcentration.sheet(100 * FOOT_M, 0.01, 0.24, 3.6 * INCH_M);
    Reach bc = TimeOfConcentration.shallow(1400 * FOOT_M, 0.01, 16.1345 * FOOT_M);
    Reach cd = TimeOfConcentration.channel(7300 * FOOT_M, 0.005, 0.05, 27 / 28.2 * FOOT_M);
    assertEquals(0.30, ab.seconds() / 3600, 0.005);
    assertEquals(0.24, bc.seconds() / 3600, 0.005);
    assertEquals(0.99, cd.seconds() / 3600, 0.005);
    assertEquals(1.53, TimeOfConcentration.of(List.of(ab, bc, cd), 0).seconds() / 3600, 0.005);
  }

  /**
   * FHWA HEC-22 (3rd ed., 2009), example 3-2 (read): 79 m of grassed waterway at 0.6 %, k 0.457,
   * run at 0.35 m/s and take 3.7 min; 146 m of 380 mm pipe, n 0.011, at 0.8 % run full at 1.7 m/s
   * in 1.4 min.
   */
  @Test
  void theHighwayManualsTravelTimesAreReproduced() {
    Reach waterway = TimeOfConcentration.shallow(79, 0.006, 0.457 * 10);
    assertEquals(0.35, waterway.lengthM() / waterway.seconds(), 0.005);
    assertEquals(3.7, waterway.seconds() / 60, 0.05);
    Reach pipe = TimeOfConcentration.channel(146, 0.008, 0.011, 0.38 / 4);
    assertEquals(1.7, pipe.lengthM() / pipe.seconds(), 0.05);
    assertEquals(1.4, pipe.seconds() / 60, 0.05);
  }

  /**
   * FHWA HEC-22 (3rd ed., 2009), table 3-2 (read): smooth asphalt 0.011, dense grasses 0.24, woods
   * with light underbrush 0.40.
   */
  @Test
  void theRoughnessOfSheetFlowIsThePublishedOne() {
    assertEquals(0.011, TimeOfConcentration.sheetN(Kind.PAVEMENT), 0);
    assertEquals(0.24, TimeOfConcentration.sheetN(Kind.LAWN), 0);
    assertEquals(0.40, TimeOfConcentration.sheetN(Kind.WOODS), 0);
  }

  /** A drainage handbook's example: 2,250 ft at 3.1 ft/s take 12.1 min (read). */
  @Test
  void aKnownVelocityGivesThePublishedTime() {
    double slope = 0.01;
    Reach r = TimeOfConcentration.shallow(2250 * FOOT_M, slope, 3.1 * FOOT_M / Math.sqrt(slope));
    assertEquals(12.1, r.seconds() / 60, 0.05);
  }

  /**
   * TR-55 as quoted in a public manual: unpaved 16.1345 √s and paved 20.3282 √s ft/s, from
   * Manning's equation with n 0.05 and 0.4 ft, n 0.025 and 0.2 ft of hydraulic radius (read).
   */
  @Test
  void theShallowVelocitiesOfPavedAndUnpavedAreThePublishedOnes() {
    assertEquals(20.3282, TimeOfConcentration.shallowVelocityMS(Kind.PAVEMENT) / FOOT_M, 0.0005);
    assertEquals(16.1345, TimeOfConcentration.shallowVelocityMS(Kind.GRAVEL) / FOOT_M, 0.001);
    assertEquals(20.3282, 1.4859 / 0.025 * Math.pow(0.2, 2 / 3.0), 0.01);
    assertEquals(16.1345, 1.4859 / 0.05 * Math.pow(0.4, 2 / 3.0), 0.01);
  }

  /**
   * FHWA HEC-22 table 3-3 gives V = k·√(slope in percent) m/s with k 0.619 paved, 0.491 unpaved,
   * 0.305 nearly bare, 0.213 short grass, 0.152 woodland (read). The handbook's velocities used
   * here agree within 3 %.
   */
  @Test
  void theShallowVelocitiesAgreeWithASecondTable() {
    assertEquals(6.19, TimeOfConcentration.shallowVelocityMS(Kind.PAVEMENT), 0.03 * 6.19);
    assertEquals(4.91, TimeOfConcentration.shallowVelocityMS(Kind.GRAVEL), 0.03 * 4.91);
    assertEquals(3.05, TimeOfConcentration.shallowVelocityMS(Kind.BARE), 0.03 * 3.05);
    assertEquals(2.13, TimeOfConcentration.shallowVelocityMS(Kind.LAWN), 0.03 * 2.13);
    assertEquals(1.52, TimeOfConcentration.shallowVelocityMS(Kind.WOODS), 0.03 * 1.52);
  }

  @Test
  void aPathIsSheetUpToTheLimitAndShallowBeyond() {
    TimeOfConcentration t = along(100, 0.02, Settings.of(0.09), Kind.LAWN);
    assertEquals(2, t.reaches().size());
    checkReach(Flow.SHEET, 30.48, t.reaches().get(0));
    checkReach(Flow.SHALLOW, 69.52, t.reaches().get(1));
    assertEquals(t.reaches().get(0).seconds() + t.reaches().get(1).seconds(), t.travelS(), 1e-9);
    assertEquals(t.travelS(), t.seconds(), 0);
  }

  @Test
  void theOlderLimitMakesTheSheetLonger() {
    Settings old = new Settings(300 * FOOT_M, 300, 0.001, 0.09, Optional.empty());
    checkReach(Flow.SHEET, 91.44, along(100, 0.02, old, Kind.LAWN).reaches().get(0));
  }

  @Test
  void eachRunOfACoverIsItsOwnShallowReach() {
    TimeOfConcentration t = along(100, 0.02, Settings.of(0.09), Kind.LAWN, Kind.PAVEMENT);
    assertEquals(3, t.reaches().size());
    checkReach(Flow.SHALLOW, 50 - 30.48, t.reaches().get(1));
    checkReach(Flow.SHALLOW, 50, t.reaches().get(2));
  }

  @Test
  void sheetFlowOverTwoCoversTakesTheirMeanRoughness() {
    TimeOfConcentration t = along(20, 0.02, Settings.of(0.09), Kind.LAWN, Kind.PAVEMENT);
    assertEquals((0.24 + 0.011) / 2, t.reaches().get(0).factor(), 1e-12);
  }

  @Test
  void aKnownChannelBeginsWhereEnoughDrainsIntoIt() {
    Settings ditch =
        new Settings(
            30.48, 300, 0.001, 0.09, Optional.of(new TimeOfConcentration.Channel(60, 0.1, 0.05)));
    TimeOfConcentration t = along(100, 0.02, ditch, Kind.LAWN);
    checkReach(Flow.SHALLOW, 59 - 30.48, t.reaches().get(1)); // areas are 1, 2, 3 … m²
    checkReach(Flow.CHANNEL, 41, t.reaches().get(2));
  }

  /**
   * FHWA HEC-22, example 7-3 (read): "System time less than 5 minutes therefore, use 5 minutes".
   */
  @Test
  void aShortPathTakesTheLeastTimeAndSaysWhatItTook() {
    TimeOfConcentration t = along(3, 0.05, Settings.of(0.09), Kind.PAVEMENT);
    assertEquals(300, t.seconds(), 0);
    assertTrue(t.travelS() < 60);
  }

  @Test
  void flatGroundDoesNotTakeForEver() {
    TimeOfConcentration t = along(100, 0, Settings.of(0.09), Kind.LAWN);
    assertEquals(0.001, t.reaches().get(0).slope(), 0);
    assertTrue(t.seconds() < 7200);
  }

  @Test
  void noPathTakesTheLeastTime() {
    assertEquals(300, along(0, 0.02, Settings.of(0.09), Kind.LAWN).seconds(), 0);
  }

  @Property(seed = "20261125")
  void sheetFlowKeepsItsScaleLaws(
      @ForAll @Scale(6) @DoubleRange(min = 1, max = 30) double length,
      @ForAll @Scale(6) @DoubleRange(min = 0.001, max = 0.2) double slope,
      @ForAll @Scale(6) @DoubleRange(min = 0.02, max = 0.2) double rain) {
    double t = TimeOfConcentration.sheet(length, slope, 0.24, rain).seconds();
    checkRatio(Math.pow(2, 0.8), TimeOfConcentration.sheet(2 * length, slope, 0.24, rain), t);
    checkRatio(Math.pow(2, 0.8), TimeOfConcentration.sheet(length, slope, 0.48, rain), t);
    checkRatio(Math.pow(2, -0.4), TimeOfConcentration.sheet(length, 2 * slope, 0.24, rain), t);
    checkRatio(Math.pow(2, -0.5), TimeOfConcentration.sheet(length, slope, 0.24, 2 * rain), t);
  }

  private static void checkRatio(double ratio, Reach reach, double seconds) {
    assertEquals(ratio, reach.seconds() / seconds, 1e-9);
  }

  private static void checkReach(Flow flow, double lengthM, Reach reach) {
    assertEquals(flow, reach.kind());
    assertEquals(lengthM, reach.lengthM(), 1e-9);
  }

  /** A straight path of 1 m steps, its covers in equal parts. */
  private static TimeOfConcentration along(
      int steps, double slope, Settings settings, Kind... covers) {
    double[] step = new double[steps];
    double[] fall = new double[steps];
    double[] area = new double[steps];
    Kind[] cover = new Kind[steps];
    Arrays.fill(step, 1);
    Arrays.fill(fall, slope);
    Arrays.setAll(area, i -> i + 1);
    Arrays.setAll(cover, i -> covers[i * covers.length / steps]);
    return TimeOfConcentration.along(step, fall, cover, area, settings);
  }
}
