package org.yardfall.water;

import static org.yardfall.water.SteepestDescent.LEVEL;

import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * Directions that lead every drop off the known ground: down the slope on the ground itself, and
 * across whatever is filled, by the filled surface, to where it spills.
 */
public final class FlowRouter {

  private FlowRouter() {}

  /**
   * Where each cell's water goes once the depressions are full.
   *
   * @param ground elevations; water leaves at the grid's rim and at NaN
   */
  public static FlowField of(ElevationGrid ground) {
    DepressionHierarchy depressions = DepressionHierarchy.of(ground);
    return of(ground, depressions.filled(), depressions.basins().toward());
  }

  /**
   * Where each cell's water goes, from what is known already.
   *
   * @param ground the ground
   * @param filled its filled surface
   * @param onGround directions on the ground, {@link SteepestDescent#LEVEL} at the pits; kept
   */
  static FlowField of(ElevationGrid ground, float[] filled, byte[] onGround) {
    GridFrame frame = ground.frame();
    int cols = frame.cols();
    int[] offset = Neighbours.offsets(cols);
    float[] z = ground.z();
    byte[] toward = new byte[z.length];
    SteepestDescent descent = new SteepestDescent(frame, filled);
    Stripes.run(
        cols,
        frame.rows(),
        (stripe, from, to) -> {
          for (int c = from * cols; c < to * cols; c++) {
            byte k = onGround[c];
            boolean settled =
                k == FlowField.UNKNOWN
                    || k == FlowField.LEAVES
                    || (k != LEVEL && filled[c] == z[c] && filled[c + offset[k]] < filled[c]);
            toward[c] = settled ? k : descent.at(c);
          }
        });
    Flats.drain(frame, filled, toward);
    return new FlowField(frame, toward);
  }
}
