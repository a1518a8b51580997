package org.yardfall.site;

import org.locationtech.jts.geom.Polygon;

/**
 * A walk, drive or other slab that a drain passes under by a straight bore; it is never cut.
 *
 * <p>The bore lies below the slab, its base and the earth left between, so that neither breaks into
 * the other. The least cover of an open trench is not asked once more below the base: it counts
 * from the top of the slab, as for plastic pipe under rigid pavement (AASHTO LRFD Bridge Design
 * Specifications, 12.6.6.3, from memory). With an inch of earth a 2 in pipe may pass at 12 in under
 * a slab of 4 in on 4 in of base, and a larger one must go deeper ({@code common practice, no
 * source}).
 *
 * @param id its id; text from outside
 * @param outline the slab in metres of the working plane, valid
 * @param thicknessM thickness of the slab in metres
 * @param baseM thickness of the base below it in metres
 * @param coverM earth left between the base and the top of the pipe in metres
 */
public record Crossing(String id, Polygon outline, double thicknessM, double baseM, double coverM) {

  /** A slab whose base may lie on the pipe. */
  public Crossing(String id, Polygon outline, double thicknessM, double baseM) {
    this(id, outline, thicknessM, baseM, 0);
  }

  /** Depth in metres below the slab's top under which the pipe's top must lie. */
  public double pipeTopM() {
    return thicknessM + baseM + coverM;
  }
}
