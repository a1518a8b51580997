package org.yardfall.elevation;

/** A plane through weighted points by least squares: z = c + a·x + b·y. */
final class PlaneFit {

  /** Below this share of its scale the determinant is that of points on a line. */
  private static final double DEGENERATE = 1e-6;

  private double w;
  private double wx;
  private double wy;
  private double wxx;
  private double wxy;
  private double wyy;
  private double wz;
  private double wzx;
  private double wzy;

  void add(double weight, double x, double y, double z) {
    w += weight;
    wx += weight * x;
    wy += weight * y;
    wxx += weight * x * x;
    wxy += weight * x * y;
    wyy += weight * y * y;
    wz += weight * z;
    wzx += weight * z * x;
    wzy += weight * z * y;
  }

  /** Whether the points span a plane. */
  boolean determined() {
    return determinant() > DEGENERATE * w * wxx * wyy;
  }

  private double determinant() {
    return w * (wxx * wyy - wxy * wxy) - wx * (wx * wyy - wxy * wy) + wy * (wx * wxy - wxx * wy);
  }

  /** The weighted mean of the points' z. */
  double mean() {
    return wz / w;
  }

  /** The plane's z at the origin; the mean where the points span none. */
  double atOrigin() {
    return determined()
        ? (wz * (wxx * wyy - wxy * wxy)
                - wx * (wzx * wyy - wxy * wzy)
                + wy * (wzx * wxy - wxx * wzy))
            / determinant()
        : mean();
  }

  /** Rise along x; 0 where the points span no plane. */
  double slopeX() {
    return determined()
        ? (w * (wzx * wyy - wzy * wxy) - wz * (wx * wyy - wxy * wy) + wy * (wx * wzy - wzx * wy))
            / determinant()
        : 0;
  }

  /** Rise along y; 0 where the points span no plane. */
  double slopeY() {
    return determined()
        ? (w * (wxx * wzy - wxy * wzx) - wx * (wx * wzy - wzx * wy) + wz * (wx * wxy - wxx * wy))
            / determinant()
        : 0;
  }
}
