package org.yardfall.runoff;

import java.util.List;

/**
 * What a drain changes across the property line.
 *
 * @param before the ledger without it
 * @param after the ledger with it
 * @param captured what drains to its collecting lines, which is what it has to carry
 * @param intakes that, cell by cell, along the lines and in the low spots they run through, in
 *     rising order of cell
 * @param capturedM3 volume that it takes in the design storm in m³, within the lot and beyond
 * @param stretches what changes at each stretch of the ledger before, in its order
 * @param neighbours what changes for each parcel that receives water, in the order of their ids
 * @param warnings what must be looked at, in words
 */
public record DrainEffect(
    InflowLedger before,
    InflowLedger after,
    Contribution captured,
    List<Intake> intakes,
    double capturedM3,
    List<StretchChange> stretches,
    List<NeighbourChange> neighbours,
    List<String> warnings) {

  /** Keeps the lists to itself. */
  public DrainEffect {
    intakes = List.copyOf(intakes);
    stretches = List.copyOf(stretches);
    neighbours = List.copyOf(neighbours);
    warnings = List.copyOf(warnings);
  }

  /** Whether any neighbour would receive more water, faster or more concentrated, than before. */
  public boolean anyRises() {
    return neighbours.stream().anyMatch(NeighbourChange::rises);
  }

  /**
   * What comes to a collecting line at one cell.
   *
   * @param x x of the cell in metres
   * @param y y of the cell in metres
   * @param areaM2 area in m² that drains to it and to no cell of the lines above it
   * @param coefficientTimesAreaM2 Σ C·A of that area in m², frequency factor included
   * @param volumeM3 its runoff in the design storm in m³
   */
  public record Intake(
      double x, double y, double areaM2, double coefficientTimesAreaM2, double volumeM3) {}

  /**
   * What crosses a stretch of the property line. Both peaks are taken at the rain intensity before.
   *
   * @param before the stretch in the ledger before
   * @param afterM2 area in m² that drains through it with the drain
   * @param afterM3 volume in m³, what the drain lets out over the ground included
   * @param afterPeakM3S peak in m³/s, the drain's own peak added where its water comes here
   */
  public record StretchChange(
      BoundaryFlow before, double afterM2, double afterM3, double afterPeakM3S) {}

  /**
   * What a parcel receives from the lot. Peaks before and with the drain are taken at the same rain
   * intensity, so that taking ground away never raises one by shortening its time.
   *
   * @param neighbour id of the parcel; empty for ground of no parcel read
   * @param beforeM2 area in m² whose water comes over the ground before
   * @param afterM2 the same with the drain, with the drain's ground where its water comes here
   * @param beforeM3 volume before in m³
   * @param afterM3 volume with the drain in m³, what the drain delivers there included
   * @param beforePeakM3S peak of all that it receives before in m³/s
   * @param afterPeakM3S peak with the drain in m³/s, the drain's own peak added
   * @param beforePerMetreM2 greatest volume over one metre of the line before in m²
   * @param afterPerMetreM2 the same with the drain: how concentrated it arrives
   */
  public record NeighbourChange(
      String neighbour,
      double beforeM2,
      double afterM2,
      double beforeM3,
      double afterM3,
      double beforePeakM3S,
      double afterPeakM3S,
      double beforePerMetreM2,
      double afterPerMetreM2) {

    /** Whether it would receive more, faster or more concentrated water than before. */
    public boolean rises() {
      return more(beforeM3, afterM3)
          || more(beforePeakM3S, afterPeakM3S)
          || more(beforePerMetreM2, afterPerMetreM2);
    }

    private static boolean more(double before, double after) {
      return after > before * (1 + 1e-9) + 1e-12;
    }
  }
}
