package org.yardfall.elevation;

/** Between which elevations all the Earth's ground lies, in metres. */
final class LandRange {

  /** Above every land surface (8849 m). */
  private static final double HIGHEST_M = 9000;

  /** Below every sea floor (about 10 935 m). */
  private static final double LOWEST_M = -11_100;

  private LandRange() {}

  static boolean holds(double lowestM, double highestM) {
    return lowestM >= LOWEST_M && highestM <= HIGHEST_M;
  }
}
