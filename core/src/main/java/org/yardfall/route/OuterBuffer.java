package org.yardfall.route;

import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;

/**
 * A shape grown by a distance, its round ends and corners drawn outside the true circle: nothing
 * outside the result is nearer than the distance, and nothing inside is farther by more than {@link
 * #EXCESS_M}.
 */
final class OuterBuffer {

  /** Most in metres by which the result is larger than asked. */
  static final double EXCESS_M = 0.005;

  private static final int LEAST_SEGMENTS = 4;

  private OuterBuffer() {}

  /**
   * The shape grown.
   *
   * @param byM distance in metres, 0 or more
   */
  static Geometry of(Geometry shape, double byM) {
    if (byM <= 0) {
      return shape;
    }
    // A polygon round a circle touches it in the middle of each side; its corners lie farthest out.
    double halfSide = Math.acos(byM / (byM + EXCESS_M));
    int segments = Math.max(LEAST_SEGMENTS, (int) Math.ceil(Math.PI / (4 * halfSide)));
    double grown = byM / Math.cos(Math.PI / (4 * segments));
    return BufferOp.bufferOp(shape, grown, new BufferParameters(segments));
  }
}
