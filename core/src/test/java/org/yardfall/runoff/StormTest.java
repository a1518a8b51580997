package org.yardfall.runoff;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.site.BadInputException;
import org.yardfall.site.StormInput;

class StormTest {

  private static final double INCH_PER_HOUR_MS = 0.0254 / 3600;

  @TempDir Path dir;

  private static Path atlas() {
    try {
      return Path.of(StormTest.class.getResource("atlas-intensities.csv").toURI());
    } catch (URISyntaxException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Storm of(Path table, double years) {
    return Storm.of(
        new StormInput(
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            table,
            Double.isNaN(years) ? OptionalDouble.empty() : OptionalDouble.of(years)));
  }

  private static Storm of(double depthM, double durationS) {
    return Storm.of(
        new StormInput(
            OptionalDouble.of(depthM), OptionalDouble.of(durationS), null, OptionalDouble.of(10)));
  }

  private Storm read(String... lines) throws IOException {
    Path file = dir.resolve("rain.csv");
    Files.writeString(file, String.join("\n", lines));
    return of(file, Double.NaN);
  }

  private void checkBad(String line, String... lines) {
    BadInputException e = assertThrows(BadInputException.class, () -> read(lines));
    assertEquals(line, e.getMessage());
  }

  /** NOAA Atlas 14, Volume 2, Version 3: the ten-year line of one place, inches an hour. */
  @Test
  void anAtlasTableIsReadAsItStands() {
    Storm storm = of(atlas(), 10);
    assertEquals(7.14, storm.intensityMS(300) / INCH_PER_HOUR_MS, 1e-9);
    assertEquals(2.27, storm.intensityMS(3600) / INCH_PER_HOUR_MS, 1e-9);
    assertEquals(10, storm.returnPeriodYears().getAsDouble(), 0);
    assertEquals(2.35, of(atlas(), 500).intensityMS(7200) / INCH_PER_HOUR_MS, 1e-9);
    // the longest duration gives the depth, and that is said: 2 h of 1.35 in/h
    assertEquals(2.7 * 0.0254, storm.depthM(), 1e-9);
    assertEquals("storm.duration", storm.assumptions().get(0).about());
  }

  /** Leaving a line of that table out, its neighbours give it back within some per cent. */
  @Test
  void logarithmsInterpolateAnAtlasWell() throws IOException {
    Storm gap = read("duration (in/h), 10", "5 min, 7.14", "15 min, 4.81", "60 min, 2.27");
    assertEquals(5.71, gap.intensityMS(600) / INCH_PER_HOUR_MS, 0.03 * 5.71);
    assertEquals(3.49, gap.intensityMS(1800) / INCH_PER_HOUR_MS, 0.06 * 3.49);
  }

  @Test
  void metricIntensitiesAndDepthsInAnyUnitAreUnderstood() throws IOException {
    double fifty = 0.05 / 3600;
    assertEquals(
        fifty, read("duration (min), 10-yr (mm/h)", "30, 80", "60, 50").intensityMS(3600), 1e-18);
    assertEquals(
        fifty, read("rain in mm", "Duration, 10 years", "1 h, 50").intensityMS(3600), 1e-18);
    assertEquals(
        0.127, read("rain depth (inches)", "duration, 10", "1-hr, 2", "1-day, 5").depthM(), 1e-12);
    assertEquals(
        fifty,
        read("unit: mm per hour", "duration (h), 10", "0.5, 80", "1, 50").intensityMS(3600),
        1e-18);
  }

  @Test
  void theTwoYearRainIsTakenFromTheTable() throws IOException {
    Path file = dir.resolve("two.csv");
    Files.writeString(file, "duration (mm/h), 2, 10\n1 h, 30, 50\n24 h, 3, 4.5\n");
    Storm storm = of(file, 10);
    assertEquals(0.072, storm.twoYear24hM().getAsDouble(), 1e-12);
    assertEquals(0.108, storm.depthM(), 1e-12);
    assertEquals(86_400, storm.durationS(), 0);
  }

  @Test
  void beyondTheTableIsSaid() {
    Storm storm = of(atlas(), 10);
    assertTrue(storm.bursts().covers(300));
    assertFalse(storm.bursts().covers(299));
    assertFalse(storm.bursts().covers(86_400));
  }

  /**
   * Ordinates of the type II mass curve every six minutes (TR-55, as coded in a public program that
   * makes design storms, read): 0.354, 0.431, 0.568, 0.663, 0.682 from 11.7 to 12.1 h. The hardest
   * bursts run through its steepest parts.
   */
  @Test
  void shortBurstsAreTheSteepestPartsOfThePublishedCurve() {
    Storm storm = of(0.1, 86_400);
    double six = 0.568 - 0.431;
    assertEquals(five(six), storm.intensityMS(300) * 300 / 0.1, 0.001);
    assertEquals(six + (0.663 - 0.568) * 4 / 6, storm.intensityMS(600) * 600 / 0.1, 0.001);
    assertEquals(
        six + (0.663 - 0.568) + (0.431 - 0.354) * 3 / 6, storm.intensityMS(900) * 900 / 0.1, 0.001);
    assertEquals(0.663 - 0.283, storm.intensityMS(1800) * 1800 / 0.1, 0.001);
  }

  /** Five of a burst's six minutes. */
  private static double five(double six) {
    return six * 5 / 6;
  }

  /**
   * Haan, Barfield & Hayes (1994) fit the type II curve by P(T)/P24 = ½ + T/24 (24.04/(2|T| +
   * 0.04))^0.75 about noon, as coded in a public model of filter strips (read): 0.840 in twelve
   * hours.
   */
  @Test
  void theTwelveHourBurstIsThatOfThePublishedFit() {
    double fit = 12 / 24.0 * Math.pow(24.04 / 12.04, 0.75);
    assertEquals(fit, of(0.1, 86_400).intensityMS(43_200) * 43_200 / 0.1, 0.002);
  }

  @Test
  void aDepthAloneHasItsBurstsAssumed() {
    Storm storm = of(0.1, 86_400);
    // Ordinates of the type II mass curve at 10.5, 11, 11.5, 12, 12.5, 13 and 13.5 h (TR-55, as
    // coded
    // in two public programs): 0.204, 0.235, 0.283, 0.663, 0.735, 0.772, 0.799
    assertEquals(0.663 - 0.283, storm.intensityMS(1800) * 1800 / 0.1, 0.003);
    assertEquals(0.735 - 0.283, storm.intensityMS(3600) * 3600 / 0.1, 0.003);
    assertEquals(0.772 - 0.235, storm.intensityMS(7200) * 7200 / 0.1, 0.003);
    assertEquals(0.799 - 0.204, storm.intensityMS(10_800) * 10_800 / 0.1, 0.003);
    // and, further out, 0.147 at 9 h and 0.850 at 15 h, between 0.820 and 0.880
    assertEquals(0.850 - 0.147, storm.intensityMS(21_600) * 21_600 / 0.1, 0.006);
    assertEquals(0.1, storm.intensityMS(86_400) * 86_400, 1e-12);
    assertEquals("storm.table", storm.assumptions().get(0).about());
    assertEquals(0.05, of(0.05, 7200).intensityMS(7200) * 7200, 1e-12);
  }

  @Test
  void unusableTablesAreRefusedInOneLine() {
    checkBad(
        "rain.csv: line 3: duration 5 min does not follow 15 min;"
            + " sort the lines by rising duration, each once",
        "duration (in/h), 10",
        "15 min, 4.81",
        "5 min, 7.14");
    checkBad(
        "rain.csv: line 2: rain of 0; rain must be above 0", "duration (mm/h), 10", "15 min, 0");
    checkBad(
        "rain.csv: line 2: rain of -3; rain must be above 0", "duration (mm/h), 10", "15 min, -3");
    checkBad(
        "rain.csv: line 2: duration of 0 min; a duration must be above 0",
        "duration (mm/h), 10",
        "0 min, 30");
    checkBad(
        "rain.csv: does not say its unit;"
            + " write in/h or mm/h in the header, as in: duration (in/h)",
        "duration, 10",
        "15 min, 30");
    checkBad(
        "rain.csv: line 2: duration 15 has no unit; write 15 min or 2 h",
        "duration (mm/h), 10",
        "15, 30");
    checkBad(
        "rain.csv: line 2: 'lots' in column 2 is not a number;"
            + " write every intensity with a decimal point",
        "duration (mm/h), 10",
        "15 min, lots");
    checkBad(
        "rain.csv: line 3: intensity rises with duration in column 2;"
            + " check the unit and the copied numbers",
        "duration (mm/h), 10",
        "15 min, 30",
        "1 h, 45");
    checkBad(
        "rain.csv: has no header line;"
            + " start it with: duration, 2, 10, 100 (return periods, years)",
        "15 min, 30");
    checkBad(
        "rain.csv: has no lines below its header; add one line for each duration",
        "duration (mm/h), 10");
    checkBad(
        "storm.return-period: not given, and rain.csv has 2 years, 10 years; choose one of them",
        "duration (mm/h), 2, 10",
        "1 h, 30, 45");
    assertEquals(
        "storm.return-period: 20 years is not in atlas-intensities.csv, which has 2 years, 5 years,"
            + " 10 years, 25 years, 50 years, 100 years, 200 years, 500 years;"
            + " choose one of them",
        assertThrows(BadInputException.class, () -> of(atlas(), 20)).getMessage());
  }

  @Test
  void aStormOfNothingIsRefusedInOneLine() {
    assertEquals(
        "storm.depth: 0.0 is not above 0; give a rain depth above 0, as in 65 mm or 2.5 in",
        assertThrows(BadInputException.class, () -> of(0, 3600)).getMessage());
    assertThrows(BadInputException.class, () -> of(-0.01, 3600));
    assertThrows(BadInputException.class, () -> of(Double.NaN, 3600));
    assertThrows(BadInputException.class, () -> of(0.05, 0));
    assertThrows(BadInputException.class, () -> of(dir.resolve("missing.csv"), 10));
  }

  /** Closed form: i = a·t^−m is a straight line in logarithms, so two of its points give it all. */
  @Property(seed = "20261125")
  void aPowerLawIsInterpolatedExactly(
      @ForAll @Scale(6) @DoubleRange(min = 0.2, max = 0.9) double m,
      @ForAll @Scale(6) @DoubleRange(min = 100, max = 50_000) double t) {
    IntensityTable table =
        IntensityTable.of(
            new double[] {300, 7200}, new double[] {Math.pow(300, -m), Math.pow(7200, -m)});
    assertEquals(Math.pow(t, -m), table.intensityMS(t), 1e-12);
  }

  @Property(seed = "20261125")
  void twiceTheDepthIsTwiceEveryBurst(
      @ForAll @Scale(6) @DoubleRange(min = 0.001, max = 0.3) double depth,
      @ForAll @Scale(6) @DoubleRange(min = 300, max = 86_400) double t) {
    assertEquals(2 * of(depth, 86_400).intensityMS(t), of(2 * depth, 86_400).intensityMS(t), 1e-15);
    assertTrue(of(depth, 86_400).intensityMS(t) * t <= depth * (1 + 1e-12));
  }
}
