package org.yardfall.pipe;

import java.util.function.DoubleUnaryOperator;

/**
 * Uniform flow in circular pipes by Manning's equation, V = R^(2/3) S^(1/2) / n in SI, with n the
 * same at every depth. Full pipes have A = πD²/4 and R = D/4. (Manning 1891; USDA TR-55 eq. 3-4 in
 * US units with 1.49.)
 */
public final class Manning {

  /** Acceleration of gravity in m/s². */
  static final double GRAVITY = 9.80665;

  /** Depth of greatest flow as a share of the diameter; found from the section's geometry. */
  static final double DEPTH_OF_MOST = 0.938181;

  private Manning() {}

  /** Flow in m³/s of a full pipe. */
  public static double fullM3S(double insideM, double n, double grade) {
    return flowM3S(insideM, n, grade, insideM);
  }

  /** Flow in m³/s of a full pipe laid at a grade, 0 where it does not fall. */
  public static double fullM3S(Pipe pipe, double grade) {
    return fullM3S(pipe.insideM(), pipe.n(), grade);
  }

  /** Velocity in m/s of a full pipe. */
  public static double fullVelocityMS(Pipe pipe, double grade) {
    return velocityMS(pipe.insideM(), pipe.n(), grade, pipe.insideM());
  }

  /** Flow in m³/s at a depth of flow in metres. */
  public static double flowM3S(double insideM, double n, double grade, double depthM) {
    return CircularSection.at(insideM, depthM).areaM2() * velocityMS(insideM, n, grade, depthM);
  }

  /** Velocity in m/s at a depth of flow in metres. */
  public static double velocityMS(double insideM, double n, double grade, double depthM) {
    double radius = CircularSection.at(insideM, depthM).radiusM();
    return Math.cbrt(radius * radius) * Math.sqrt(Math.max(0, grade)) / n;
  }

  /**
   * Normal depth in metres: that at which the given flow runs uniformly.
   *
   * @param flowM3S flow in m³/s, 0 or more
   * @return the depth, between 0 and the diameter; the diameter where the full pipe can not carry
   *     the flow. Flows a little above full, which a pipe nearly full could carry, count as full:
   *     such a depth is not stable
   */
  public static double normalDepthM(Pipe pipe, double grade, double flowM3S) {
    if (flowM3S <= 0) {
      return 0;
    }
    if (flowM3S >= fullM3S(pipe, grade)) {
      return pipe.insideM();
    }
    return rising(
        depth -> flowM3S(pipe.insideM(), pipe.n(), grade, depth),
        flowM3S,
        0,
        DEPTH_OF_MOST * pipe.insideM());
  }

  /**
   * Critical depth in metres: that at which Q² T = g A³.
   *
   * @param flowM3S flow in m³/s, 0 or more
   */
  public static double criticalDepthM(double insideM, double flowM3S) {
    if (flowM3S <= 0) {
      return 0;
    }
    return rising(
        depth -> {
          CircularSection section = CircularSection.at(insideM, depth);
          double area = section.areaM2();
          return Math.sqrt(GRAVITY * area * area * area / Math.max(section.surfaceM(), 1e-12));
        },
        flowM3S,
        0,
        insideM);
  }

  /** Slope of friction, metres per metre, of a flow in m³/s at a depth of flow in metres. */
  public static double frictionSlope(Pipe pipe, double flowM3S, double depthM) {
    CircularSection section = CircularSection.at(pipe.insideM(), depthM);
    double radius = section.radiusM();
    double root = flowM3S * pipe.n() / (section.areaM2() * Math.cbrt(radius * radius));
    return root * root;
  }

  /** Where a rising function reaches a value, by bisection to the last bits. */
  static double rising(DoubleUnaryOperator function, double value, double from, double to) {
    double low = from;
    double high = to;
    for (int i = 0; i < 60; i++) {
      double middle = (low + high) / 2;
      if (function.applyAsDouble(middle) < value) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return (low + high) / 2;
  }
}
