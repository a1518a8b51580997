package org.yardfall.runoff;

import java.util.Map;
import java.util.TreeMap;

/**
 * What the ground that drains to some place adds up to in the design storm.
 *
 * @param areaM2 area in m²
 * @param atLeast whether the area is a lower bound, because the known ground ends above it
 * @param areaByParcelM2 that area by parcel in m²; the key is empty for ground of no parcel read
 * @param runoff that area by cover, with curve numbers, depths and volumes
 * @param time time of concentration along the longest path
 * @param intensityMS rain intensity of that time in m/s
 * @param coefficient composite coefficient of the rational method, frequency factor included
 * @param peakM3S peak flow in m³/s: coefficient · intensity · area
 */
public record Contribution(
    double areaM2,
    boolean atLeast,
    Map<String, Double> areaByParcelM2,
    CurveNumber.Runoff runoff,
    TimeOfConcentration time,
    double intensityMS,
    double coefficient,
    double peakM3S) {

  /** Keeps the map to itself, in the order of the parcels' ids. */
  public Contribution {
    areaByParcelM2 = java.util.Collections.unmodifiableMap(new TreeMap<>(areaByParcelM2));
  }
}
