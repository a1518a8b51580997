package org.yardfall.site;

/**
 * Where and how water may be let go, as local rules have it. They differ from town to town, so all
 * of them are settings; {@link #usual()} holds values often met and no more.
 *
 * @param fromHouseM least distance in metres of a daylight outlet from a building; 0 or more
 * @param fromLineM least distance in metres of a daylight outlet from the property line
 * @param fromRightOfWayM least distance in metres of a daylight outlet from a side of the lot that
 *     no parcel adjoins
 * @param dryWellFromHouseM least distance in metres of a dry well from a building
 * @param dryWellConductivityMS least saturated hydraulic conductivity in m/s of soil that a dry
 *     well may lie in
 * @param lidLossM head in metres that a lid takes to open and pass the flow, on top of its own
 *     elevation
 * @param pumped whether the drain's water is pumped to the outlet
 * @param outageS time in seconds for which a pump's sump holds the water without power
 * @param pumpedToStreet whether pumped water may be let onto a street
 * @param splashBlockSlope greatest slope of a yard, rise per metre, on which roof water may be let
 *     onto splash blocks; on a steeper one it is piped
 * @param steepestSlope greatest slope of a yard, rise per metre
 * @param freeboardM least height in metres of a building's lowest opening above the water that runs
 *     or stands beside it
 */
public record OutletRules(
    double fromHouseM,
    double fromLineM,
    double fromRightOfWayM,
    double dryWellFromHouseM,
    double dryWellConductivityMS,
    double lidLossM,
    boolean pumped,
    double outageS,
    boolean pumpedToStreet,
    double splashBlockSlope,
    double steepestSlope,
    double freeboardM) {

  /** Checks the numbers. */
  public OutletRules {
    for (double m :
        new double[] {
          fromHouseM,
          fromLineM,
          fromRightOfWayM,
          dryWellFromHouseM,
          dryWellConductivityMS,
          lidLossM,
          outageS,
          splashBlockSlope,
          steepestSlope,
          freeboardM
        }) {
      if (!(m >= 0)) {
        throw new IllegalArgumentException("distances and losses of outlets are 0 or more: " + m);
      }
    }
  }

  /**
   * Values often met: daylight 10 ft from the house, 5 ft from the line, 10 ft from the street
   * side; dry wells 10 ft from the house in soil of at least 0.5 in/h; a lid that takes no head of
   * its own; drains by gravity; two hours without power where pumped; no pumped water onto the
   * street; splash blocks on slopes up to 1.5 %, no slope above 14 %, 15 cm from the swale to the
   * lowest opening.
   */
  public static OutletRules usual() {
    return new OutletRules(
        3.048, 1.524, 3.048, 3.048, 0.5 * 0.0254 / 3600, 0, false, 7200, false, 0.015, 0.14, 0.15);
  }
}
