package org.yardfall.route;

import java.util.Arrays;

/** Where a segment crosses the lines through cell centres. */
final class LatticeCuts {

  private LatticeCuts() {}

  /**
   * Shares of a segment's length at its start, at each crossing with a whole-number line of either
   * axis, at its end, and half way between each of these: so an even place is a crossing or an end,
   * an odd one the middle of the piece around it.
   */
  static double[] shares(double u0, double v0, double u1, double v1) {
    double[] cuts = new double[span(u0, u1) + span(v0, v1) + 2];
    int n = 0;
    cuts[n++] = 0;
    n = cross(u0, u1, cuts, n);
    n = cross(v0, v1, cuts, n);
    cuts[n++] = 1;
    Arrays.sort(cuts, 0, n);
    double[] shares = new double[2 * n - 1];
    int m = 0;
    shares[m++] = 0;
    for (int i = 1; i < n; i++) {
      if (cuts[i] - shares[m - 1] > 1e-9 || (i == n - 1 && m == 1)) {
        double from = shares[m - 1];
        shares[m++] = (from + cuts[i]) / 2;
        shares[m++] = cuts[i];
      }
    }
    shares[m - 1] = 1;
    return Arrays.copyOf(shares, m);
  }

  private static int span(double a, double b) {
    return (int) Math.abs(Math.floor(b) - Math.floor(a)) + 2;
  }

  private static int cross(double a, double b, double[] cuts, int from) {
    int n = from;
    double low = Math.min(a, b);
    double high = Math.max(a, b);
    for (double line = Math.floor(low) + 1; line < high; line++) {
      cuts[n++] = (line - a) / (b - a);
    }
    return n;
  }
}
