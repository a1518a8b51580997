package org.yardfall.drain;

import org.yardfall.runoff.Storm;
import org.yardfall.site.OutletRules;

/**
 * What a pump at the end of a drain must take, and what its sump holds while there is no power.
 *
 * @param peakM3S peak flow that the drain brings in m³/s
 * @param meanM3H what it brings in an hour of the design storm on the mean, in m³
 * @param outageH time without power in hours
 */
record Pumping(double peakM3S, double meanM3H, double outageH) {

  private static final double HOUR_S = 3600;

  /**
   * The pumping of a drain.
   *
   * @param volumeM3 runoff that the drain's ground brings in the design storm, in m³
   * @param groundwaterM3S groundwater that it draws in m³/s
   */
  static Pumping of(
      OutletRules rules, Storm storm, double peakM3S, double volumeM3, double groundwaterM3S) {
    return new Pumping(
        peakM3S,
        (volumeM3 / storm.durationS() + groundwaterM3S) * HOUR_S,
        rules.outageS() / HOUR_S);
  }

  /** What the sump holds without power in m³. */
  double storedM3() {
    return meanM3H * outageH;
  }
}
