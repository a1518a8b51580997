package org.yardfall.site;

import java.util.Collections;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;

/**
 * The soil in which the drain lies.
 *
 * @param group hydrologic soil group, {@code 'A'} to {@code 'D'}
 * @param conductivityMS saturated hydraulic conductivity in m/s, where known
 * @param grains grain sizes, or null where not known
 * @param waterTableM elevation of the water table in metres, where known
 * @param rockDepthM depth from the ground to rock in metres, where known
 * @param frostDepthM depth in metres to which the ground freezes, where known
 * @param waterTableDepthM depth in metres from the ground to the water table, where that is known
 *     and not its elevation
 * @param impermeableDepthM depth in metres from the ground to a layer that lets hardly any water
 *     through, where known
 * @param filterClass how much hangs on the drain's filter
 * @param relief parallel relief drains that are asked for, or null
 * @param curveNumbers runoff curve numbers by cover that are given in place of the table's, 30 to
 *     100
 */
public record Soil(
    char group,
    OptionalDouble conductivityMS,
    GrainSizes grains,
    OptionalDouble waterTableM,
    OptionalDouble rockDepthM,
    OptionalDouble frostDepthM,
    OptionalDouble waterTableDepthM,
    OptionalDouble impermeableDepthM,
    FilterClass filterClass,
    Relief relief,
    Map<Surface.Kind, Double> curveNumbers) {

  /** Least curve number that the method is used with; the greatest is 100 (TR-55, 1986). */
  static final double LEAST_CURVE_NUMBER = 30;

  /** Keeps the map to itself, in the covers' order. */
  public Soil {
    curveNumbers = Collections.unmodifiableMap(new TreeMap<>(curveNumbers));
  }

  /** What a failure of the drain's filter would cost, by FHWA's manual on geosynthetics. */
  public enum FilterClass {
    /** Maintenance: less critical application, less severe conditions. */
    LESS_CRITICAL,
    /**
     * Loss of life or damage to a structure, or high gradients and reversing flow: critical
     * application, severe conditions.
     */
    CRITICAL
  }

  /** Whether enough is known to say what groundwater a drain draws. */
  public boolean groundwaterKnown() {
    return conductivityMS.isPresent() && (waterTableM.isPresent() || waterTableDepthM.isPresent());
  }

  /** Elevation of the water table in metres under ground at an elevation in metres. */
  public OptionalDouble waterTableM(double groundM) {
    return waterTableM.isPresent() || waterTableDepthM.isEmpty()
        ? waterTableM
        : OptionalDouble.of(groundM - waterTableDepthM.getAsDouble());
  }

  /**
   * Parallel drains that are to hold the water table down midway between them.
   *
   * @param tableDepthM depth in metres below the ground at which they are to hold it, above 0
   * @param dischargeMS water to be drained, in m/s (depth per time), above 0
   */
  public record Relief(double tableDepthM, double dischargeMS) {}

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
