package org.yardfall.sheet;

import org.yardfall.site.UnitSystem;

/**
 * A scale that is on a drafting ruler.
 *
 * @param ratio ground over paper, for example 200
 * @param words how it is written
 */
record SheetScale(int ratio, String words) {

  private static final double POINTS_PER_M = 72 / 0.0254;
  private static final int[] METRIC = {100, 200, 250, 500, 1000, 2000, 2500, 5000, 10_000};
  private static final int[] FEET_PER_INCH = {10, 20, 30, 40, 50, 100, 200, 500, 1000};
  private static final int INCHES_PER_FOOT = 12;

  /** The largest scale at which ground fits on paper; the smallest there is where none does. */
  static SheetScale fitting(
      double widthM, double heightM, double widthPoints, double heightPoints, UnitSystem units) {
    int[] list = units == UnitSystem.US ? FEET_PER_INCH : METRIC;
    SheetScale scale = null;
    for (int each : list) {
      scale = of(each, units);
      if (widthM * scale.pointsPerM() <= widthPoints
          && heightM * scale.pointsPerM() <= heightPoints) {
        return scale;
      }
    }
    return scale;
  }

  private static SheetScale of(int step, UnitSystem units) {
    return units == UnitSystem.US
        ? new SheetScale(step * INCHES_PER_FOOT, "1 in = " + step + " ft")
        : new SheetScale(step, "1:" + step);
  }

  double pointsPerM() {
    return POINTS_PER_M / ratio;
  }
}
