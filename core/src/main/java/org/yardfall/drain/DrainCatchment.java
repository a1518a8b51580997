package org.yardfall.drain;

import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The ground whose water a drain takes, by the stretch that takes it.
 *
 * @param shares what each stretch takes, by line and stretch; stretches that take nothing left out
 * @param takes cells of the grid where the drain takes water: those at its open stretches and in
 *     the low spots it runs through
 * @param cells cells whose water it takes, the former included
 * @param areaM2 their area in m²
 * @param beyondM2 how much of it lies beyond the lot, in m²
 * @param volumeM3 runoff of the design storm from it in m³
 * @param served low spots that the drain runs through; those that drain into a catch basin of their
 *     own are left out
 */
public record DrainCatchment(
    List<Share> shares,
    BitSet takes,
    BitSet cells,
    double areaM2,
    double beyondM2,
    double volumeM3,
    List<Served> served) {

  /** Keeps the lists to itself. */
  public DrainCatchment {
    shares = List.copyOf(shares);
    served = List.copyOf(served);
  }

  /** What each low spot that the drain runs through keeps all the same in m³, by its id. */
  public Map<String, Double> keepsM3() {
    Map<String, Double> keeps = new TreeMap<>();
    served.forEach(s -> keeps.put(s.id(), s.belowM3()));
    return keeps;
  }

  /**
   * What a stretch takes.
   *
   * @param line 0 for the main line, then the branches in order
   * @param stretch the stretch, by the station at its upper end
   * @param areaM2 area in m²
   * @param effectiveM2 that area times its runoff coefficients, in m²
   * @param volumeM3 runoff of the design storm in m³
   * @param timeS time of concentration to the stretch in seconds
   * @param over stretches that what runs over this one comes to next; those of one low spot
   *     together, else one or none
   */
  public record Share(
      int line,
      int stretch,
      double areaM2,
      double effectiveM2,
      double volumeM3,
      double timeS,
      List<Place> over) {

    /** Keeps the list to itself. */
    public Share {
      over = List.copyOf(over);
    }
  }

  /**
   * A stretch of the drain.
   *
   * @param line 0 for the main line, then the branches in order
   * @param stretch the stretch, by the station at its upper end
   */
  public record Place(int line, int stretch) {}

  /**
   * A low spot that the drain runs through.
   *
   * @param id the low spot
   * @param line the line that reaches lowest in it
   * @param stationM station of the lowest ground of that line in it
   * @param volumeM3 water it holds when full in m³
   * @param belowM3 water that lies lower than the drain's lowest ground in it, and so has to soak
   *     away, in m³
   * @param belowM2 area of that water in m²
   * @param catchmentM2 ground whose water comes to it and to no other stretch or low spot of the
   *     drain before, in m²
   * @param beyondShare how much of the low spot's area lies beyond the lot, 0 to 1
   */
  public record Served(
      String id,
      int line,
      double stationM,
      double volumeM3,
      double belowM3,
      double belowM2,
      double catchmentM2,
      double beyondShare) {

    Served withCatchmentM2(double areaM2) {
      return new Served(id, line, stationM, volumeM3, belowM3, belowM2, areaM2, beyondShare);
    }
  }
}
