package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.water.CellsWithin;
import org.yardfall.water.StandingWater;

/**
 * Water that stands over the property line after the storm: it is on both sides of the line and
 * crosses it nowhere, so that no stretch of the ledger can count it.
 */
final class StandingAcross {

  /** Less than this in m³ on either side is not spoken of. */
  private static final double LEAST_M3 = 0.1;

  private StandingAcross() {}

  /**
   * A sentence for each low spot in which water stands on both sides.
   *
   * @param ground the ground under the water
   * @param lot the lot's cells
   */
  static List<String> notes(StandingWater standing, ElevationGrid ground, BitSet lot) {
    List<String> notes = new ArrayList<>();
    for (StandingWater.Pond pond : standing.ponds()) {
      double onM3 = 0;
      double beyondM3 = 0;
      for (int cell : CellsWithin.of(ground.frame(), pond.outline())) {
        double depth = Math.max(0, pond.levelM() - ground.z()[cell]);
        double m3 = Double.isNaN(depth) ? 0 : depth * ground.frame().cellAreaM2();
        onM3 += lot.get(cell) ? m3 : 0;
        beyondM3 += lot.get(cell) ? 0 : m3;
      }
      if (onM3 >= LEAST_M3 && beyondM3 >= LEAST_M3) {
        notes.add(
            String.format(
                Locale.ROOT,
                "Low spot %s lies across the property line: after the storm %.1f m3 stand in it on"
                    + " the lot and %.1f m3 beyond. What stands crosses the line nowhere, so no"
                    + " stretch of inflow or outflow counts it; the balance has as standing what the"
                    + " lot's own rain and its inflow bring.",
                pond.lowSpotId(),
                onM3,
                beyondM3));
      }
    }
    return notes;
  }
}
