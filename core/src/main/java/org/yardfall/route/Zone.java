package org.yardfall.route;

import java.util.OptionalDouble;

/**
 * Ground that a drain may pass only in a certain way.
 *
 * @param name what lies there, in words; empty for ground that is only to be dug deep enough
 * @param area its extent, clearance included
 * @param span how the stretch inside is built: bored under a slab, solid through roots, or open
 *     trench that must stay under something
 * @param ceilingM elevation in metres that the pipe's top must stay under; empty: by depth
 * @param belowGroundM depth in metres below ground that the pipe's top must stay under; 0: any
 * @param deepestM greatest depth in metres of the invert below ground; infinite: any
 */
record Zone(
    String name,
    Area area,
    Station.Span span,
    OptionalDouble ceilingM,
    double belowGroundM,
    double deepestM) {

  /** Ground whose passage asks nothing of how deep the pipe may lie. */
  Zone(String name, Area area, Station.Span span, OptionalDouble ceilingM, double belowGroundM) {
    this(name, area, span, ceilingM, belowGroundM, Double.POSITIVE_INFINITY);
  }

  /** Ground over rock, in which a trench is dug as elsewhere but less deep. */
  static Zone above(Area rock, double deepestM) {
    return new Zone("", rock, Station.Span.OPEN, OptionalDouble.empty(), 0, deepestM);
  }

  /** Elevation that the pipe's top must stay under where the ground has the given elevation. */
  double ceilingUnder(double groundM) {
    if (ceilingM.isPresent()) {
      return ceilingM.getAsDouble();
    }
    return belowGroundM > 0 ? groundM - belowGroundM : Double.POSITIVE_INFINITY;
  }
}
