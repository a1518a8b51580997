package org.yardfall.site;

import java.util.OptionalDouble;
import org.locationtech.jts.geom.Geometry;

/**
 * Something in or on the ground that a trench must mind.
 *
 * @param id its id; text from outside
 * @param kind what it is
 * @param shape point, line or polygon in metres of the working plane
 * @param clearanceM plan distance in metres that a trench keeps from it; 0 or more
 * @param passage how a drain may pass within that distance, if at all
 * @param bottomM elevation in metres of its underside, where a drain that goes under must know
 * @param verticalClearanceM least distance in metres between that underside and the pipe's top
 * @param uphillM plan distance in metres kept by a trench that lies higher than the obstacle;
 *     empty: the clearance
 * @param downhillM plan distance in metres kept by a trench that does not lie higher than the
 *     obstacle; empty: the clearance
 * @param stayInside for an easement: whether a drain that leaves the lot must stay inside it
 * @param rockDepthM for rock, and for nothing else: depth in metres from the ground to it
 */
public record Obstacle(
    String id,
    Kind kind,
    Geometry shape,
    double clearanceM,
    Passage passage,
    OptionalDouble bottomM,
    double verticalClearanceM,
    OptionalDouble uphillM,
    OptionalDouble downhillM,
    boolean stayInside,
    OptionalDouble rockDepthM) {

  /** Whether the clearance uphill differs from the one downhill. */
  public boolean sided() {
    return uphillM.orElse(clearanceM) != downhillM.orElse(clearanceM);
  }

  /** What an obstacle is. */
  public enum Kind {
    UTILITY,
    SPRINKLER,
    TREE,
    SEPTIC,
    WELL,
    WALL,
    EASEMENT,
    /** Rock near the ground: a trench ends above it, and where it is too near there is none. */
    ROCK,
    KEEP_OUT
  }

  /** How a drain may pass an obstacle. */
  public enum Passage {
    /** Not at all: the route goes round. */
    NONE,
    /** Dug under, with a vertical clearance. */
    UNDER,
    /** Bored under, straight. */
    BORE,
    /** Dug through with solid pipe, as in a root zone. */
    SOLID_PIPE
  }
}
