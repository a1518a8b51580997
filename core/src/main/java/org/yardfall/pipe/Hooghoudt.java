package org.yardfall.pipe;

import org.yardfall.site.BadInputException;

/**
 * Spacing of parallel relief drains in the steady state: q L² = 8 Kb d h + 4 Ka h² (Hooghoudt
 * 1940), with the equivalent depth d in the series of van der Molen & Wesseling (1991; ILRI
 * Publication 16 ch. 8; as coded in a public soil model):
 *
 * <pre>
 * d = (π L / 8) / (ln(L / (π r)) + F(x)),  x = 2 π D / L
 * F = Σ 4 e^(−2nx) / (n (1 − e^(−2nx))), n = 1, 3, 5 …   for x > 0.5
 * F = π² / (4 x) + ln(x / (2 π))                          for x ≤ 0.5
 * </pre>
 *
 * <p>Lengths in metres; conductivities and discharge in one unit of velocity, whichever.
 */
public final class Hooghoudt {

  private Hooghoudt() {}

  /**
   * Equivalent depth in metres.
   *
   * @param spacingM spacing of the drains in metres
   * @param baseM depth of the impervious base below the drains in metres; 0 or more
   * @param radiusM radius of the drain in metres, trench and stone included where they carry water
   */
  public static double equivalentDepthM(double spacingM, double baseM, double radiusM) {
    if (!(spacingM > 0) || !(baseM >= 0) || !(radiusM > 0)) {
      throw new BadInputException(
          "relief drains", "spacing and radius must be above 0, the base below the drains", "");
    }
    // A base no deeper than the drain's own radius leaves no room for radial flow.
    if (baseM <= radiusM) {
      return baseM;
    }
    double x = 2 * Math.PI * baseM / spacingM;
    double f = 0;
    if (x > 0.5) {
      for (int n = 1; n < 200; n += 2) {
        double e = Math.exp(-2 * n * x);
        double term = 4 * e / (n * (1 - e));
        f += term;
        if (term < 1e-14) {
          break;
        }
      }
    } else {
      f = Math.PI * Math.PI / (4 * x) + Math.log(x / (2 * Math.PI));
    }
    double depth = Math.PI * spacingM / 8 / (Math.log(spacingM / (Math.PI * radiusM)) + f);
    return Math.min(baseM, depth);
  }

  /** Discharge per area in the unit of the conductivities, of drains at a spacing in metres. */
  public static double discharge(
      double above, double below, double headM, double baseM, double radiusM, double spacingM) {
    double depth = equivalentDepthM(spacingM, baseM, radiusM);
    return (8 * below * depth * headM + 4 * above * headM * headM) / (spacingM * spacingM);
  }

  /**
   * Greatest spacing in metres that keeps the water table down.
   *
   * @param above conductivity over the drains
   * @param below conductivity under the drains
   * @param headM height of the water table over the drains midway between, in metres
   * @param baseM depth of the impervious base below the drains in metres
   * @param radiusM radius of the drain in metres
   * @param discharge water to be drained, depth per time, above 0
   */
  public static double spacingM(
      double above, double below, double headM, double baseM, double radiusM, double discharge) {
    if (!(discharge > 0) || !(headM > 0)) {
      throw new BadInputException(
          "relief drains", "discharge and head must be above 0", "give both above 0");
    }
    // Discharge falls as the spacing grows, so its negative rises.
    return Manning.rising(
        spacing -> -discharge(above, below, headM, baseM, radiusM, spacing),
        -discharge,
        4 * radiusM,
        10_000);
  }
}
