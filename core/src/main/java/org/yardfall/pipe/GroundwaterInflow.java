package org.yardfall.pipe;

import java.util.Optional;
import org.yardfall.site.Soil;

/**
 * Groundwater that a drain draws, per metre of drain, under the assumptions of Dupuit (1863): level
 * flow, an impervious base below, the same conductivity throughout.
 */
public final class GroundwaterInflow {

  /** What is said where water table or conductivity are not known. */
  public static final String SURFACE_WATER_ONLY =
      "This design speaks of surface water only. Nothing is said about groundwater: give the soil's"
          + " conductivity and the water table from a test pit to have its inflow estimated.";

  private GroundwaterInflow() {}

  /**
   * Flow in m²/s (m³/s per metre of drain) that reaches the drain from one side: q = K (H² − h²) /
   * (2 L).
   *
   * @param conductivityMS conductivity in m/s
   * @param highM water over the base at the distance, in metres
   * @param lowM water over the base in the drain, in metres; no more than {@code highM}
   * @param distanceM distance in metres
   */
  public static double dupuitM2S(
      double conductivityMS, double highM, double lowM, double distanceM) {
    return conductivityMS * (highM * highM - lowM * lowM) / (2 * distanceM);
  }

  /**
   * How far in metres a drain draws the water table down: R = 3000 s √K (Sichardt, an old rule of
   * thumb of well practice, as in Powers 1992 and in Cashman & Preene 2001), no less than 1 m.
   */
  public static double reachM(double conductivityMS, double drawdownM) {
    return Math.max(1, 3000 * drawdownM * Math.sqrt(conductivityMS));
  }

  /**
   * Flow in m²/s that a drain draws from both sides where the water table stands over its invert;
   * empty where the soil is not known well enough. Where no impermeable layer is known, the base is
   * taken at the invert, so that water from below is not counted; where it lies higher than the
   * invert, the water seeps out on top of it.
   *
   * @param groundM elevation of the ground over the drain in metres
   * @param invertM elevation of the drain's invert in metres
   */
  public static Optional<Double> toDrainM2S(Soil soil, double groundM, double invertM) {
    if (!soil.groundwaterKnown()) {
      return Optional.empty();
    }
    double conductivity = soil.conductivityMS().getAsDouble();
    double table = soil.waterTableM(groundM).getAsDouble();
    double base =
        soil.impermeableDepthM().isPresent()
            ? groundM - soil.impermeableDepthM().getAsDouble()
            : invertM;
    double drawdown = table - Math.max(base, invertM);
    if (drawdown <= 0) {
      return Optional.of(0.0);
    }
    double low = Math.max(0, invertM - base);
    return Optional.of(
        2 * dupuitM2S(conductivity, table - base, low, reachM(conductivity, drawdown)));
  }
}
