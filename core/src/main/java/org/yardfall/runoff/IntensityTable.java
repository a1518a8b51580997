package org.yardfall.runoff;

import java.util.Arrays;
import java.util.Locale;

/**
 * Rain intensity against duration for one return period, as copied from an official rainfall atlas.
 * Between durations the logarithm of intensity is taken linear in the logarithm of duration, which
 * is exact for i = a·t^−m; beyond the table the nearest segment is continued, and {@link
 * #covers(double)} says so.
 */
public final class IntensityTable {

  private final double[] durationS;
  private final double[] intensityMS;

  private IntensityTable(double[] durationS, double[] intensityMS) {
    this.durationS = durationS;
    this.intensityMS = intensityMS;
  }

  /**
   * A table of the given lines.
   *
   * @param durationS durations in seconds, rising, above 0; at least one
   * @param intensityMS mean intensities over them in m/s, above 0, not rising
   * @throws IllegalArgumentException if they are not so
   */
  public static IntensityTable of(double[] durationS, double[] intensityMS) {
    if (durationS.length == 0 || durationS.length != intensityMS.length) {
      throw new IllegalArgumentException(
          durationS.length + " durations, " + intensityMS.length + " intensities");
    }
    for (int i = 0; i < durationS.length; i++) {
      if (!(durationS[i] > 0) || !(intensityMS[i] > 0)) {
        throw new IllegalArgumentException(
            "duration " + durationS[i] + " s, intensity " + intensityMS[i] + " m/s");
      }
      if (i > 0 && !(durationS[i] > durationS[i - 1])) {
        throw new IllegalArgumentException("durations are not sorted");
      }
      if (i > 0 && intensityMS[i] > intensityMS[i - 1]) {
        throw new IllegalArgumentException("intensity rises with duration");
      }
    }
    return new IntensityTable(durationS.clone(), intensityMS.clone());
  }

  /** Mean intensity in m/s over a duration in seconds, above 0. */
  public double intensityMS(double duration) {
    if (!(duration > 0)) {
      throw new IllegalArgumentException("duration " + duration + " s");
    }
    int n = durationS.length;
    if (n == 1) {
      return intensityMS[0];
    }
    int found = Arrays.binarySearch(durationS, duration);
    if (found >= 0) {
      return intensityMS[found];
    }
    int hi = Math.max(1, Math.min(n - 1, -found - 1));
    double share =
        Math.log(duration / durationS[hi - 1]) / Math.log(durationS[hi] / durationS[hi - 1]);
    return intensityMS[hi - 1] * Math.pow(intensityMS[hi] / intensityMS[hi - 1], share);
  }

  /** Whether the duration in seconds lies within the table. */
  public boolean covers(double duration) {
    return duration >= shortestS() && duration <= longestS();
  }

  /** Shortest duration in seconds. */
  public double shortestS() {
    return durationS[0];
  }

  /** Longest duration in seconds. */
  public double longestS() {
    return durationS[durationS.length - 1];
  }

  @Override
  public String toString() {
    return String.format(
        Locale.ROOT,
        "%d durations from %.0f s to %.0f s",
        durationS.length,
        shortestS(),
        longestS());
  }
}
