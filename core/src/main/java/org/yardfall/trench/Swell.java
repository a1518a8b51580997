package org.yardfall.trench;

import org.yardfall.site.Soil;

/**
 * How much looser, and so bulkier, soil lies once dug: the share by which its volume grows. The
 * shares are those of common earthwork tables (clay 40 %, loam and earth 25 %, sand and gravel 12
 * %); which applies follows from the share of fines where grain sizes are known, else from the
 * hydrologic group.
 */
public enum Swell {
  /** Sand and gravel. */
  SAND(0.12),
  /** Earth and loam. */
  EARTH(0.25),
  /** Clay. */
  CLAY(0.40);

  private final double share;

  Swell(double share) {
    this.share = share;
  }

  /** The share by which the volume grows: 0.25 makes 1 m³ in the ground 1.25 m³ loose. */
  public double share() {
    return share;
  }

  /** Loose volume in m³ of the given volume in the ground. */
  public double looseM3(double bankM3) {
    return bankM3 * (1 + share);
  }

  /** How the given soil swells. */
  public static Swell of(Soil soil) {
    if (soil.grains() != null) {
      double fines = soil.grains().finesShare();
      return fines < 0.15 ? SAND : fines <= 0.5 ? EARTH : CLAY;
    }
    return switch (soil.group()) {
      case 'A' -> SAND;
      case 'D' -> CLAY;
      default -> EARTH;
    };
  }
}
