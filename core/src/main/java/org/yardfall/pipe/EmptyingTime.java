package org.yardfall.pipe;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/**
 * How long the water left after the storm takes to go, by what holds it back; the slowest counts,
 * since the water passes all of them.
 *
 * @param secondsByLimit seconds by limit; infinite where nothing passes
 */
public record EmptyingTime(Map<Limit, Double> secondsByLimit) {

  /** What the water passes on its way out. */
  public enum Limit {
    /** The pipe to the outlet. */
    PIPE,
    /** Fabric, stone and openings along the drain. */
    STONE,
    /** The soil between the standing water and the drain. */
    SOIL
  }

  /** Keeps the map to itself. */
  public EmptyingTime {
    secondsByLimit = Collections.unmodifiableMap(new EnumMap<>(secondsByLimit));
  }

  /**
   * The time for a volume to leave at steady rates.
   *
   * @param volumeM3 water to go in m³
   * @param pipeM3S what the pipe carries in m³/s
   * @param stoneM3S what fabric, stone and openings take in along the drain in m³/s
   * @param soakAreaM2 area through which water must soak to reach the drain in m²
   * @param soakM3 how much of the water must soak in m³; 0 where all of it reaches stone
   * @param conductivityMS conductivity of the soil in m/s, soaking at a gradient of one
   */
  public static EmptyingTime of(
      double volumeM3,
      double pipeM3S,
      double stoneM3S,
      double soakAreaM2,
      double soakM3,
      double conductivityMS) {
    Map<Limit, Double> seconds = new EnumMap<>(Limit.class);
    seconds.put(Limit.PIPE, time(volumeM3, pipeM3S));
    seconds.put(Limit.STONE, time(volumeM3, stoneM3S));
    seconds.put(Limit.SOIL, time(soakM3, conductivityMS * soakAreaM2));
    return new EmptyingTime(seconds);
  }

  /** The slowest limit. */
  public Limit slowest() {
    return secondsByLimit.entrySet().stream()
        .max(Map.Entry.comparingByValue())
        .orElseThrow()
        .getKey();
  }

  /** Seconds until the water is gone. */
  public double seconds() {
    return secondsByLimit.get(slowest());
  }

  private static double time(double volumeM3, double rateM3S) {
    if (volumeM3 <= 0) {
      return 0;
    }
    return rateM3S > 0 ? volumeM3 / rateM3S : Double.POSITIVE_INFINITY;
  }
}
