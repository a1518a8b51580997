package org.yardfall.water;

import org.yardfall.elevation.ElevationGrid;

/**
 * The filled surface: for each cell the lowest elevation to which water must rise to leave the
 * known ground. It equals morphological reconstruction by erosion from the edge (Soille &amp;
 * Gratin 1994) and what a priority-flood gives (Barnes, Lehman &amp; Mulla 2014), to the bit.
 *
 * <p>It is found on the graph of basins rather than cell by cell: the level of a depression is the
 * highest pass on the best way out of it, which the {@link DepressionHierarchy} gives. Every cell
 * is visited a fixed number of times and only the passes are sorted.
 */
public final class Filling {

  private Filling() {}

  /**
   * Fills the ground.
   *
   * @param ground elevations; water leaves at the grid's rim and at NaN
   * @return filled elevations in metres by cell, never below the ground; NaN where unknown
   */
  public static float[] of(ElevationGrid ground) {
    return DepressionHierarchy.of(ground).filled();
  }
}
