package org.yardfall.water;

import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;

/**
 * What is left standing after the storm.
 *
 * @param ponds the low spots that hold water
 * @param rainM3 rain on the ground that was counted in m³
 * @param infiltratedM3 rain that soaked in or was held back in m³
 * @param standingM3 water left standing in m³
 * @param leftM3 water that ran off the known ground in m³
 * @param inletM3 water that open inlets took in m³; the four add up to the rain
 * @param inlets where those take it, in metres of the working plane
 */
public record StandingWater(
    List<Pond> ponds,
    double rainM3,
    double infiltratedM3,
    double standingM3,
    double leftM3,
    double inletM3,
    List<Coordinate> inlets) {

  /** Keeps the lists to itself. */
  public StandingWater {
    ponds = List.copyOf(ponds);
    inlets = List.copyOf(inlets);
  }

  /**
   * Water standing in a low spot.
   *
   * @param lowSpotId the low spot
   * @param outline the water's extent, polygon or multipolygon in metres of the working plane
   * @param levelM water level in metres
   * @param depthM greatest depth in metres
   * @param areaM2 area in m²
   * @param volumeM3 volume in m³
   * @param overflowM3 water that spilled from it in m³
   * @param overflowTo low spot that received the spill, or empty where it ran off
   */
  public record Pond(
      String lowSpotId,
      Geometry outline,
      double levelM,
      double depthM,
      double areaM2,
      double volumeM3,
      double overflowM3,
      String overflowTo) {}
}
