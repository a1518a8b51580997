package org.yardfall.sheet;

import org.yardfall.site.UnitSystem;

/**
 * Classes of the depth of standing water, round in the reader's units.
 *
 * <p>Five-class Blues of Harrower &amp; Brewer (ColorBrewer 2.0; The Cartographic Journal 40(1),
 * 2003): deeper is darker, in grey too.
 */
final class DepthClasses {

  private static final double[] METRIC_M = {0, 0.05, 0.1, 0.2, 0.3};
  private static final double[] US_M = {0, 2 * 0.0254, 4 * 0.0254, 8 * 0.0254, 12 * 0.0254};
  private static final int[] BLUES = {0xBDD7E7, 0x6BAED6, 0x4292C6, 0x2171B5, 0x08459C};

  private final UnitSystem units;
  private final double[] fromM;

  DepthClasses(UnitSystem units) {
    this.units = units;
    this.fromM = units == UnitSystem.US ? US_M : METRIC_M;
  }

  int count() {
    return fromM.length;
  }

  /** The class of a depth in metres, from 0 for the shallowest. */
  int of(double depthM) {
    int found = 0;
    for (int i = 0; i < fromM.length; i++) {
      found = depthM >= fromM[i] ? i : found;
    }
    return found;
  }

  /** The colour of a class as RGB. */
  int rgb(int depthClass) {
    return BLUES[depthClass];
  }

  /** A class in words. */
  String words(int depthClass) {
    return depthClass == 0
        ? "under " + units.small(fromM[1])
        : units.small(fromM[depthClass]) + " or more";
  }
}
