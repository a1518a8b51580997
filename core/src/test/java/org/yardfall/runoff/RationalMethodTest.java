package org.yardfall.runoff;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.yardfall.site.Surface.Kind;

class RationalMethodTest {

  private static final double FOOT3_M3 = 0.3048 * 0.3048 * 0.3048;
  private static final double ACRE_M2 = 43_560 * 0.3048 * 0.3048;
  private static final double INCH_PER_HOUR_MS = 0.0254 / 3600;

  /** The published figures drop the factor 43560/43200; ours are larger by just that. */
  private static void checkUs(double c, double inchPerHour, double acres, double cfs) {
    double q = RationalMethod.peakM3S(c, inchPerHour * INCH_PER_HOUR_MS, acres * ACRE_M2);
    assertEquals(cfs, q / FOOT3_M3 / (43_560.0 / 43_200), 0.005 * cfs);
  }

  /**
   * Extension slides on erosion control, rational method, 10-year example: C 0.62, 6.96 in/h, 5
   * acres, 21.6 ft³/s; a homework collection: 0.4, 2.87 in/h, 128 acres, 146.944 ft³/s; a
   * site-engineering textbook, ch. 16: 0.315, 1.45 in/h, 256 acres, 117 ft³/s (all read).
   */
  @Test
  void publishedExamplesInFeetAreReproduced() {
    checkUs(0.62, 6.96, 5, 21.6);
    checkUs(0.4, 2.87, 128, 146.944);
    checkUs(0.315, 1.45, 256, 117);
  }

  /** FHWA HEC-22 (3rd ed., 2009), example 3-3 (read): 0.55 m³/s before, 0.89 after building. */
  @Test
  void theHighwayManualsPeaksAreReproduced() {
    assertEquals(0.55, RationalMethod.peakM3S(0.235, 48e-3 / 3600, 17.55e4), 0.005);
    assertEquals(0.89, RationalMethod.peakM3S(0.315, 58e-3 / 3600, 17.55e4), 0.005);
  }

  /** Course notes on engineering hydrology: 45.48 mm/h of excess on 80 ha, 10.11 m³/s (read). */
  @Test
  void aPublishedExampleInMetresIsReproduced() {
    assertEquals(10.11, RationalMethod.peakM3S(1, 45.48e-3 / 3600, 80e4), 0.005);
  }

  /**
   * The textbook's composite: 15 % at 0.60, 30 % at 0.20, 55 % at 0.30 gives 0.315 (read); FHWA
   * HEC-22 (3rd ed., 2009) example 3-1: 0.235 before and 0.315 after building (read).
   */
  @Test
  void publishedCompositesAreReproduced() {
    assertEquals(0.315, RationalMethod.composite(0.15 * 0.6 + 0.3 * 0.2 + 0.55 * 0.3, 1, 1), 1e-12);
    assertEquals(0.235, RationalMethod.composite(8.95 * 0.25 + 8.60 * 0.22, 17.55, 1), 0.0005);
    assertEquals(
        0.315,
        RationalMethod.composite(0.90 * 2.20 + 0.15 * 0.66 + 0.25 * 7.52 + 0.22 * 7.17, 17.55, 1),
        0.0006);
  }

  /**
   * The same module's first example: 6 acres of houses at the middle of 0.30 to 0.50, 3 of park at
   * 0.15, 3 of concrete at 0.90, 5.1 in/h, 25 years. Its answer was not read; the sum by hand is
   * 1.1 · 0.4625 · 5.1 · 12 ft³/s.
   */
  @Test
  void anExampleOfThreeCoversIsFollowed() {
    double c = RationalMethod.composite(6 * 0.40 + 3 * 0.15 + 3 * 0.90, 12, 1.1);
    assertEquals(1.1 * 0.4625, c, 1e-12);
    checkUs(c, 5.1, 12, 31.14);
  }

  /** Back-to-back lots of a third of an acre, C 0.4, 7.64 in/h: about one ft³/s a lot. */
  @Test
  void aThirdOfAnAcreShedsAboutOneCubicFootASecond() {
    double q = RationalMethod.peakM3S(0.4, 7.64 * INCH_PER_HOUR_MS, ACRE_M2 / 3) / FOOT3_M3;
    assertEquals(1.02 * 1.008333, q, 0.01);
  }

  /**
   * USDA NRCS Hydrology Training Series, module 206 D, as coded in a public package of engineering
   * functions: 1.0 to 10 years, 1.1, 1.2 and 1.25 for 25, 50 and 100; FHWA HEC-22 (3rd ed., 2009),
   * 3.2.2.1, has the same steps and says that it does not endorse them (read).
   */
  @Test
  void theFrequencyFactorGrowsByStepsAndTheCoefficientStaysBelowOne() {
    assertEquals(1, RationalMethod.frequencyFactor(OptionalDouble.empty()), 0);
    assertEquals(1, RationalMethod.frequencyFactor(OptionalDouble.of(10)), 0);
    assertEquals(1.1, RationalMethod.frequencyFactor(OptionalDouble.of(25)), 0);
    assertEquals(1.2, RationalMethod.frequencyFactor(OptionalDouble.of(50)), 0);
    assertEquals(1.25, RationalMethod.frequencyFactor(OptionalDouble.of(100)), 0);
    assertEquals(1, RationalMethod.composite(0.95, 1, 1.25), 0);
  }

  /** Clark County (Indiana) stormwater ordinance: lawns of soil D, 0–2, 2–7 and over 7 % (read). */
  @Test
  void theCoefficientsAreThePublishedOnes() {
    assertEquals(0.22, RationalMethod.coefficient(Kind.LAWN, 'D', 0.01), 0);
    assertEquals(0.27, RationalMethod.coefficient(Kind.LAWN, 'D', 0.02), 0);
    assertEquals(0.37, RationalMethod.coefficient(Kind.LAWN, 'D', 0.0701), 0);
    assertEquals(0.09, RationalMethod.coefficient(Kind.WOODS, 'A', 0), 0);
    assertEquals(0.95, RationalMethod.coefficient(Kind.ROOF, 'A', 0), 0);
  }

  /**
   * FHWA HEC-22 (3rd ed., 2009), table 3-1 (read): lawns of heavy soil 0.13–0.17, 0.18–0.22 and
   * 0.25–0.35 by slope, of sandy soil 0.05–0.10, 0.10–0.15 and 0.15–0.20, roofs 0.75–0.95. The
   * coefficients used lie no lower.
   */
  @Test
  void theCoefficientsAreNoLowerThanTheHighwayManuals() {
    double[] slopes = {0.01, 0.05, 0.1};
    double[] sandy = {0.05, 0.10, 0.15};
    double[] heavy = {0.17, 0.22, 0.35};
    for (int i = 0; i < slopes.length; i++) {
      assertTrue(RationalMethod.coefficient(Kind.LAWN, 'A', slopes[i]) >= sandy[i]);
      assertTrue(RationalMethod.coefficient(Kind.LAWN, 'D', slopes[i]) >= heavy[i]);
    }
    assertEquals(0.95, RationalMethod.coefficient(Kind.PAVEMENT, 'D', 0.05), 0);
  }

  @Property(seed = "20261125")
  void thePeakGrowsInProportionWithRainAndArea(
      @ForAll @Scale(9) @DoubleRange(min = 0.05, max = 1) double c,
      @ForAll @Scale(9) @DoubleRange(min = 1e-7, max = 1e-4) double i,
      @ForAll @Scale(9) @DoubleRange(min = 1, max = 1e5) double a) {
    double q = RationalMethod.peakM3S(c, i, a);
    assertEquals(2 * q, RationalMethod.peakM3S(c, 2 * i, a), 1e-12 * q);
    assertEquals(2 * q, RationalMethod.peakM3S(c, i, 2 * a), 1e-12 * q);
  }
}
