package org.yardfall.pipe;

import org.yardfall.site.Soil;

/**
 * Velocities a drain should keep to. Least: 0.5 ft/s, or 1.4 ft/s where fine sand or silt may enter
 * (USDA NRCS Engineering Field Handbook ch. 14; ASABE EP260). Greatest without protection, by soil:
 * sand and sandy loam 3.5, silt and silt loam 5, silty clay loam 6, clay and clay loam 7, gravel 9
 * ft/s (NRCS conservation practice standard 606; from memory).
 */
public final class VelocityLimits {

  private static final double FOOT = 0.3048;

  /** Least velocity in m/s where no fine sand or silt enters. */
  public static final double LEAST_CLEAN_MS = 0.5 * FOOT;

  /** Least velocity in m/s where fine sand or silt may enter. */
  public static final double LEAST_SILTY_MS = 1.4 * FOOT;

  private VelocityLimits() {}

  /** Soils told apart by the velocity they bear at the joints and openings of a drain. */
  public enum Bearing {
    SAND(3.5),
    SILT(5.0),
    SILTY_CLAY(6.0),
    CLAY(7.0),
    GRAVEL(9.0);

    private final double mostMS;

    Bearing(double feetPerSecond) {
      mostMS = feetPerSecond * FOOT;
    }

    /** Greatest velocity in m/s without protection. */
    public double mostMS() {
      return mostMS;
    }

    /**
     * What a soil bears: from its grains where known (median above 2 mm gravel, above 0.075 mm
     * sand, else silt, or clay by group D), else from its hydrologic group A sand, B silt, C silty
     * clay, D clay.
     */
    public static Bearing of(Soil soil) {
      if (soil.grains() != null) {
        double d50Mm = soil.grains().d50Mm();
        if (d50Mm > 2) {
          return GRAVEL;
        }
        if (d50Mm > 0.075) {
          return SAND;
        }
        return soil.group() == 'D' ? CLAY : SILT;
      }
      return switch (soil.group()) {
        case 'A' -> SAND;
        case 'B' -> SILT;
        case 'C' -> SILTY_CLAY;
        default -> CLAY;
      };
    }
  }

  /**
   * Least velocity in m/s in a soil.
   *
   * @param fabric whether a geotextile keeps fine grains out
   */
  public static double leastMS(Soil soil, boolean fabric) {
    Bearing bearing = Bearing.of(soil);
    boolean fineGrains = bearing == Bearing.SAND || bearing == Bearing.SILT;
    return fineGrains && !fabric ? LEAST_SILTY_MS : LEAST_CLEAN_MS;
  }

  /** Greatest velocity in m/s in a soil, without protection. */
  public static double mostMS(Soil soil) {
    return Bearing.of(soil).mostMS();
  }
}
