package org.yardfall.route;

/**
 * All straight grades through a stretch of a corridor: a convex polygon of (invert at its upper
 * end, fall per metre), cut smaller by every station it has to pass.
 */
final class FallPolygon {

  private double[] v;
  private double[] g;
  private double[] nextV = new double[16];
  private double[] nextG = new double[16];
  private int n;

  private FallPolygon(double[] v, double[] g, int n) {
    this.v = v;
    this.g = g;
    this.n = n;
  }

  /** Every grade from low to high and every invert from low to high. */
  FallPolygon(double lowM, double highM, double minGrade, double maxGrade) {
    this(new double[16], new double[16], 4);
    v[0] = lowM;
    g[0] = minGrade;
    v[1] = highM;
    g[1] = minGrade;
    v[2] = highM;
    g[2] = maxGrade;
    v[3] = lowM;
    g[3] = maxGrade;
  }

  boolean isEmpty() {
    return n == 0;
  }

  /** Keeps the grades that pass a station so far down between the given inverts. */
  void pass(double distanceM, double lowM, double highM) {
    if (highM != Double.POSITIVE_INFINITY) {
      cut(distanceM, highM, 1);
    }
    if (lowM != Double.NEGATIVE_INFINITY) {
      cut(distanceM, lowM, -1);
    }
  }

  /** Keeps the part where sign · (v − g · distance − limit) is at most 0. */
  private void cut(double distanceM, double limitM, int sign) {
    if (n == 0) {
      return;
    }
    if (n + 2 > nextV.length) {
      nextV = new double[2 * n + 4];
      nextG = new double[2 * n + 4];
    }
    int m = 0;
    double lastOver = sign * (v[n - 1] - g[n - 1] * distanceM - limitM);
    for (int i = 0; i < n; i++) {
      int last = i == 0 ? n - 1 : i - 1;
      double over = sign * (v[i] - g[i] * distanceM - limitM);
      if ((over > EPSILON_M) != (lastOver > EPSILON_M)) {
        double share = (EPSILON_M - lastOver) / (over - lastOver);
        nextV[m] = v[last] + share * (v[i] - v[last]);
        nextG[m++] = g[last] + share * (g[i] - g[last]);
      }
      if (over <= EPSILON_M) {
        nextV[m] = v[i];
        nextG[m++] = g[i];
      }
      lastOver = over;
    }
    double[] swapV = v;
    double[] swapG = g;
    v = nextV;
    g = nextG;
    nextV = swapV;
    nextG = swapG;
    n = m;
  }

  private static final double EPSILON_M = 1e-9;

  /** Another polygon with the same grades. */
  FallPolygon copy() {
    return new FallPolygon(v.clone(), g.clone(), n);
  }

  /**
   * Gives the corners of the part of the polygon that starts between two inverts, each as an invert
   * at the upper end and a fall per metre.
   */
  void corners(double lowM, double highM, Corners to) {
    for (int i = 0; i < n; i++) {
      int last = i == 0 ? n - 1 : i - 1;
      if (v[i] >= lowM - EPSILON_M && v[i] <= highM + EPSILON_M) {
        to.corner(v[i], g[i]);
      }
      cross(last, i, lowM, to);
      cross(last, i, highM, to);
    }
  }

  /** Takes corners. */
  interface Corners {
    /** Takes one. */
    void corner(double invertM, double grade);
  }

  private void cross(int a, int b, double invertM, Corners to) {
    if ((v[a] < invertM) != (v[b] < invertM) && v[a] != v[b]) {
      to.corner(invertM, g[a] + (invertM - v[a]) / (v[b] - v[a]) * (g[b] - g[a]));
    }
  }

  /** Lowest invert so far down. */
  double lowestAt(double distanceM) {
    double best = Double.POSITIVE_INFINITY;
    for (int i = 0; i < n; i++) {
      best = Math.min(best, v[i] - g[i] * distanceM);
    }
    return best;
  }

  /** Highest invert so far down. */
  double highestAt(double distanceM) {
    double best = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < n; i++) {
      best = Math.max(best, v[i] - g[i] * distanceM);
    }
    return best;
  }
}
