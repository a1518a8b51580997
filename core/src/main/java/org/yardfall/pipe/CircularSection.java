package org.yardfall.pipe;

/**
 * The wetted part of a circular pipe at a depth of flow.
 *
 * @param areaM2 wetted area in m²
 * @param perimeterM wetted perimeter in metres
 * @param surfaceM width of the free surface in metres; 0 where full
 */
public record CircularSection(double areaM2, double perimeterM, double surfaceM) {

  /**
   * The section at a depth.
   *
   * @param insideM inside diameter in metres
   * @param depthM depth of flow in metres; below 0 counts as 0, above the diameter as full
   */
  public static CircularSection at(double insideM, double depthM) {
    double share = Math.min(1, Math.max(0, depthM / insideM));
    double angle = 2 * Math.acos(1 - 2 * share);
    return new CircularSection(
        insideM * insideM / 8 * (angle - Math.sin(angle)),
        insideM * angle / 2,
        insideM * Math.sin(angle / 2));
  }

  /** Hydraulic radius in metres: area over perimeter; 0 where dry. */
  public double radiusM() {
    return perimeterM > 0 ? areaM2 / perimeterM : 0;
  }
}
