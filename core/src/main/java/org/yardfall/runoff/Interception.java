package org.yardfall.runoff;

import java.util.BitSet;
import java.util.List;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.water.FlowField;

/**
 * Tells of how much ground the lines of a drain take the storm's water. What a low spot above them
 * keeps, or an open inlet in it takes, never comes to them; where a low spot spills, of the ground
 * above it only the share counts that runs on.
 */
public final class Interception {

  private static final int SKY = -1;

  private final InflowLedgerFinder finder;
  private final FlowField flow;
  private final int[] order;
  private final PondShare ponds;
  private final double[] runoffM3;
  private final SurfaceCover cover;
  private final float[] z;

  Interception(
      InflowLedgerFinder finder,
      FlowField flow,
      int[] order,
      PondShare ponds,
      double[] runoffM3,
      SurfaceCover cover,
      float[] z) {
    this.finder = finder;
    this.flow = flow;
    this.order = order;
    this.ponds = ponds;
    this.runoffM3 = runoffM3;
    this.cover = cover;
    this.z = z;
  }

  /**
   * Area in m² whose water the lines take, each once. O(cells).
   *
   * @param open the stretches that take water in, on the lot, in metres of the working plane
   */
  public double areaM2(List<? extends Geometry> open) {
    BitSet line = DrainEffectFinder.lotCells(open, finder);
    PondShare kept = ponds.drainedBy(line, z, flow, order, runoffM3);
    BitSet takes = finder.takes(kept, line);
    double[] through = new double[order.length];
    double taken = 0;
    for (int c : order) {
      if (flow.toward()[c] == FlowField.UNKNOWN) {
        continue;
      }
      through[c] += cover.areaM2(c) * (1 - kept.staysOf(SKY, c));
      int r = flow.receiver(c);
      if (takes.get(c)) {
        taken += through[c];
      } else if (r >= 0) {
        through[r] += through[c] * (1 - kept.staysOf(c, r));
      }
    }
    return taken;
  }
}
