package org.yardfall.site;

import java.util.OptionalDouble;

/**
 * The soil in which the drain lies.
 *
 * @param group hydrologic soil group, {@code 'A'} to {@code 'D'}
 * @param conductivityMS saturated hydraulic conductivity in m/s, where known
 * @param grains grain sizes, or null where not known
 * @param waterTableM elevation of the water table in metres, where known
 * @param rockDepthM depth from the ground to rock in metres, where known
 * @param frostDepthM depth in metres to which the ground freezes, where known
 */
public record Soil(
    char group,
    OptionalDouble conductivityMS,
    GrainSizes grains,
    OptionalDouble waterTableM,
    OptionalDouble rockDepthM,
    OptionalDouble frostDepthM) {

  /** A soil without rock or frost that are known of. */
  public Soil(
      char group, OptionalDouble conductivityMS, GrainSizes grains, OptionalDouble waterTableM) {
    this(
        group, conductivityMS, grains, waterTableM, OptionalDouble.empty(), OptionalDouble.empty());
  }

  /**
   * Grain sizes read off a grading curve.
   *
   * @param d15Mm size in millimetres that 15 % by mass is finer than
   * @param d50Mm size in millimetres that 50 % by mass is finer than
   * @param d85Mm size in millimetres that 85 % by mass is finer than
   * @param uniformity coefficient of uniformity d60/d10; 1 or more
   * @param finesShare share by mass finer than 0.075 mm, 0 to 1
   */
  public record GrainSizes(
      double d15Mm, double d50Mm, double d85Mm, double uniformity, double finesShare) {}
}
