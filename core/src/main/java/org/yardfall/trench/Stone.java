package org.yardfall.trench;

/**
 * Drainage stone.
 *
 * @param size its size number in ASTM D448 / AASHTO M 43
 * @param bulkDensityTM3 mass of a cubic metre as dumped, in t
 * @param porosity share of voids, 0 to 1
 * @param source where density and voids come from
 */
public record Stone(String size, double bulkDensityTM3, double porosity, String source) {

  /** Pounds per cubic foot in t/m³. */
  private static final double LB_FT3 = 0.0160184634;

  /**
   * No. 57, crushed, dumped: 87.2 lb/ft³ in a published compilation of tests; its voids measured
   * there are 45 %, the usual design value of 40 % is kept.
   */
  public static final Stone USUAL =
      new Stone(
          "57",
          87.2 * LB_FT3,
          0.40,
          "published compilation of stone tests (2012): No. 57 dumped 87.2 lb/ft³; design voids 40 %");

  /** Mass in t of the given volume in m³. */
  public double massT(double volumeM3) {
    return volumeM3 * bulkDensityTM3;
  }

  /** Volume of voids in m³ within the given volume in m³. */
  public double voidsM3(double volumeM3) {
    return volumeM3 * porosity;
  }
}
