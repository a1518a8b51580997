package org.yardfall.water;

import java.util.List;
import org.locationtech.jts.geom.LineString;
import org.yardfall.elevation.Terrain;

/**
 * The ground as it is meant to be once swales are levelled, with the ground and its water as they
 * are now.
 *
 * @param before the ground as it is
 * @param waterBefore its surface water
 * @param after the ground with the swales filled
 * @param swales the swales, in the user's order
 * @param cells every cell that is raised, swale by swale
 */
public record LevelledGround(
    Terrain before,
    SurfaceWater waterBefore,
    Terrain after,
    List<Swale> swales,
    List<AlteredCell> cells) {

  /** Keeps the lists to itself. */
  public LevelledGround {
    swales = List.copyOf(swales);
    cells = List.copyOf(cells);
  }

  /**
   * A swale that is levelled.
   *
   * @param id its id; text from outside
   * @param bed the way of its water now, downstream, in metres of the working plane
   * @param areaM2 ground whose water it carries now at its lower end, in m²
   * @param atLeast whether that is a lower bound, the known ground ending above
   * @param fillM3 earth that fills it in m³
   * @param deepestM greatest depth of that fill in metres
   */
  public record Swale(
      String id, LineString bed, double areaM2, boolean atLeast, double fillM3, double deepestM) {}
}
