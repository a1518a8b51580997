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
 * @param crossingOutsideM outside diameter in metres of the pipe used under slabs; smaller than the
 *     drain's where two smaller pipes lie side by side
 */
public record RouteSettings(
    int neighbours, double maxBoreM, double daylightM, double crossingOutsideM) {

  /** Longest bore in metres unless the user says otherwise: a double drive crossed askew. */
  public static final double MAX_BORE_M = 7.5;

  /** Last metres before an open outlet without cover, unless the user says otherwise. */
  public static final double DAYLIGHT_M = 1.5;

  /** Checks the numbers. */
  public RouteSettings {
    if (neighbours != 16 && neighbours != 32) {
      throw new IllegalArgumentException(neighbours + " neighbours; 16 or 32");
    }
    if (!(maxBoreM >= 0) || !(daylightM > 0) || !(crossingOutsideM > 0)) {
      throw new IllegalArgumentException("lengths of a search must be above 0");
    }
  }

  /** The usual settings: 16 neighbours and the drain's own pipe under slabs. */
  public static RouteSettings defaults(DrainLimits limits) {
    return new RouteSettings(16, MAX_BORE_M, DAYLIGHT_M, limits.pipeOutsideM());
  }

  /** The same with another pipe under slabs. */
  public RouteSettings withCrossingOutside(double outsideM) {
    return new RouteSettings(neighbours, maxBoreM, daylightM, outsideM);
  }

  /** The same with another stencil. */
  public RouteSettings withNeighbours(int steps) {
    return new RouteSettings(steps, maxBoreM, daylightM, crossingOutsideM);
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
