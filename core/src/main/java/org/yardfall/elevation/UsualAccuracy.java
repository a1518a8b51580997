package org.yardfall.elevation;

/**
 * How good a single elevation is by how it was measured, where the user does not say.
 *
 * @param rmseM root mean square error in metres
 * @param source where the figure comes from
 */
public record UsualAccuracy(double rmseM, String source) {

  /** A shot with level and rod or total station. */
  public static final UsualAccuracy ROD =
      new UsualAccuracy(0.02, "0.02 m for a shot (common practice, no source)");

  /** A point of an airborne laser survey. */
  public static final UsualAccuracy AIRBORNE =
      new UsualAccuracy(
          0.10,
          "0.10 m for airborne laser points (USGS Lidar Base Specification, quality level 2)");
}
