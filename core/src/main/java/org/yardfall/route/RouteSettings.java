package org.yardfall.route;

import org.yardfall.site.DrainLimits;

/**
 * How the search goes about its work; none of these is a limit of the finished drain's depth or
 * fall.
 *
 * @param neighbours steps tried from each cell: 16 (lengths within 2.8 % of straight) or 32 (1.4 %)
 * @param maxBoreM longest straight bore under a slab in metres
 * @param daylightM last metres before an open outlet in which no cover is asked, since the pipe
 *     comes out of the ground there
 * @param underSlabs the pipes used under slabs; two smaller ones lie side by side where one of the
 *     drain's size would leave a belly
 */
public record RouteSettings(
    int neighbours, double maxBoreM, double daylightM, SlabPipes underSlabs) {

  /** Last metres before an open outlet without cover, unless the user says otherwise. */
  public static final double DAYLIGHT_M = 1.5;

  /** Checks the numbers. */
  public RouteSettings {
    if (neighbours != 16 && neighbours != 32) {
      throw new IllegalArgumentException(neighbours + " neighbours; 16 or 32");
    }
    if (!(maxBoreM >= 0) || !(daylightM > 0)) {
      throw new IllegalArgumentException("lengths of a search must be above 0");
    }
  }

  /** The usual settings: 16 neighbours and one pipe of the drain's size under slabs. */
  public static RouteSettings defaults(DrainLimits limits) {
    return new RouteSettings(16, limits.boreMaxLengthM(), DAYLIGHT_M, SlabPipes.one(limits));
  }

  /** The same with other pipes under slabs. */
  public RouteSettings withUnderSlabs(SlabPipes pipes) {
    return new RouteSettings(neighbours, maxBoreM, daylightM, pipes);
  }

  /** Outside diameter in metres of what lies under slabs. */
  public double crossingOutsideM() {
    return underSlabs.pipe().outsideM();
  }

  /** The same with another stencil. */
  public RouteSettings withNeighbours(int steps) {
    return new RouteSettings(steps, maxBoreM, daylightM, underSlabs);
  }

  /**
   * Metres around an outlet within which the pipe goes straight to it, and before an open outlet
   * needs no cover: the daylight, or on a coarse grid somewhat more than two cells.
   */
  public double daylightWithinM(double cellM) {
    return Math.max(daylightM, 2.3 * cellM);
  }

  /** Largest excess of a path's length over the straight line, from the stencil alone. */
  public double lengthError() {
    return neighbours == 16 ? 0.0275 : 0.0140;
  }
}
