package org.yardfall.runoff;

import java.util.OptionalDouble;
import org.yardfall.site.Surface.Kind;

/**
 * Peak flow by the rational method, Q = C·C_f·i·A.
 *
 * <p>In SI the factor is exactly 1 (m³/s = m/s · m²), which is 1/360 for mm/h and hectares. The US
 * form in ft³/s, in/h and acres has the factor 43560/43200 = 1.00833, usually dropped; it is not
 * dropped here, so results are 0.8 % above hand sums that drop it. The method is meant for small
 * areas: under 20 acres in towns (Poertner 1974), as lots always are.
 */
public final class RationalMethod {

  /** Where the coefficients stand. */
  public static final String SOURCE =
      "runoff coefficients by soil group and slope, Clark County (Indiana) stormwater ordinance (lawn,"
          + " woodland, roofs, pavement); gravel: New York City plumbing code 1114.3.1; bare soil 0.50:"
          + " common practice, no source";

  private static final double[][] LAWN = {
    {.09, .15, .21}, {.13, .19, .26}, {.18, .23, .32}, {.22, .27, .37}
  };
  private static final double[][] WOODS = {
    {.09, .15, .20}, {.13, .18, .23}, {.17, .22, .26}, {.20, .25, .30}
  };

  private RationalMethod() {}

  /**
   * Runoff coefficient of a cover for storms of up to 10 years.
   *
   * @param group hydrologic soil group, {@code 'A'} to {@code 'D'}
   * @param slope ground slope, m/m; classes 0–2 %, 2–7 %, above 7 %
   */
  public static double coefficient(Kind kind, char group, double slope) {
    int soil = CurveNumber.group(group);
    int steep = slope < 0.02 ? 0 : slope <= 0.07 ? 1 : 2;
    return switch (kind) {
      case ROOF, PAVEMENT -> 0.95;
      case GRAVEL -> 0.65;
      case LAWN -> LAWN[soil][steep];
      case WOODS -> WOODS[soil][steep];
      case BARE -> 0.50;
    };
  }

  /**
   * Frequency factor by which C grows for rarer storms: 1 to 10 years, 1.1 to 25, 1.2 to 50, 1.25
   * above (USDA NRCS Hydrology Training Series, module 206 D). Between those the next rarer one
   * counts.
   */
  public static double frequencyFactor(OptionalDouble returnPeriodYears) {
    double t = returnPeriodYears.orElse(1);
    return t <= 10 ? 1 : t <= 25 ? 1.1 : t <= 50 ? 1.2 : 1.25;
  }

  /**
   * Composite coefficient: area-weighted mean, times the frequency factor, at most 1.
   *
   * @param coefficientTimesAreaM2 Σ C·A in m²
   * @param areaM2 Σ A in m², above 0
   */
  public static double composite(double coefficientTimesAreaM2, double areaM2, double factor) {
    return Math.min(1, factor * coefficientTimesAreaM2 / areaM2);
  }

  /** Peak flow in m³/s from a coefficient, an intensity in m/s and an area in m². */
  public static double peakM3S(double coefficient, double intensityMS, double areaM2) {
    return coefficient * intensityMS * areaM2;
  }
}
