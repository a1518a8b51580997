package org.yardfall.route;

/**
 * A place along a drain line, counted downstream.
 *
 * @param stationM distance along the line from its upper end in metres
 * @param x x in metres of the working plane
 * @param y y in metres of the working plane
 * @param groundM ground elevation in metres
 * @param invertM elevation of the pipe's inside bottom in metres
 * @param coverM ground to outside top of the pipe in metres
 * @param depthM ground to invert in metres
 * @param grade fall per metre to the next station, positive downstream; at the last, of the last
 *     stretch
 * @param span how the stretch to the next station is built
 */
public record Station(
    double stationM,
    double x,
    double y,
    double groundM,
    double invertM,
    double coverM,
    double depthM,
    double grade,
    Span span) {

  /** How a stretch is built. */
  public enum Span {
    /** Open trench, perforated pipe in stone. */
    OPEN,
    /** Bored under a slab, solid pipe. */
    BORED,
    /** Open trench with solid pipe, as in a root zone. */
    SOLID
  }
}
