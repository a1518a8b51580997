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
          + " conductivity and the water table's elevation from a test pit to have its inflow"
          + " estimated.";

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
   * The same with rain soaking in between, counted positive from the high side to the drain: q = K
   * (H² − h²) / (2 L) + W L / 2.
   *
   * @param rechargeMS recharge in m/s
   */
  public static double dupuitM2S(
      double conductivityMS, double highM, double lowM, double distanceM, double rechargeMS) {
    return dupuitM2S(conductivityMS, highM, lowM, distanceM) + rechargeMS * distanceM / 2;
  }

  /** Flow in m³/s by Darcy: q = K i A. */
  public static double darcyM3S(double conductivityMS, double gradient, double areaM2) {
    return conductivityMS * gradient * areaM2;
  }

  /**
   * How far in metres a drain draws the water table down: R = 3000 s √K (Sichardt; an old rule of
   * thumb of well practice, from memory), no less than 1 m.
   */
  public static double reachM(double conductivityMS, double drawdownM) {
    return Math.max(1, 3000 * drawdownM * Math.sqrt(conductivityMS));
  }

  /**
   * Flow in m²/s that a drain draws from both sides where the water table stands over its invert;
   * empty where the soil is not known well enough. The base is taken at the invert, so water from
   * below is not counted.
   */
  public static Optional<Double> toDrainM2S(Soil soil, double invertM) {
    if (soil.conductivityMS().isEmpty() || soil.waterTableM().isEmpty()) {
      return Optional.empty();
    }
    double conductivity = soil.conductivityMS().getAsDouble();
    double head = soil.waterTableM().getAsDouble() - invertM;
    if (head <= 0) {
      return Optional.of(0.0);
    }
    return Optional.of(2 * dupuitM2S(conductivity, head, 0, reachM(conductivity, head)));
  }
}
