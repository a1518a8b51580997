package org.yardfall.route;

/**
 * Between which inverts a pipe must run along a line, and at which grades.
 *
 * @param stationM stations in metres, rising
 * @param lowM lowest invert at each station in metres; −infinity where none is asked
 * @param highM highest invert at each station in metres; +infinity where none is asked
 * @param breakable whether the grade may change there: not within a bore
 * @param dug whether a trench is dug from each station to the next: not through a bore
 * @param minGrade least fall per metre
 * @param maxGrade greatest fall per metre
 */
@SuppressWarnings("ArrayRecordComponent")
record Corridor(
    double[] stationM,
    double[] lowM,
    double[] highM,
    boolean[] breakable,
    boolean[] dug,
    double minGrade,
    double maxGrade) {

  /** An end that nothing holds lies no farther than this from the ground, in metres. */
  private static final double FAR_M = 100;

  /**
   * The corridor of a line.
   *
   * @param endInvertM lowest invert at the lower end in metres; NaN where none is asked
   */
  static Corridor of(GroundLine line, Bounds b, double endInvertM) {
    int n = line.size();
    double[] low = new double[n];
    double[] high = new double[n];
    boolean[] breakable = new boolean[n];
    for (int i = 0; i < n; i++) {
      low[i] = line.lowestM(i, b);
      high[i] = line.highestM(i, b);
      breakable[i] = !line.inBore(i);
    }
    for (int end : new int[] {0, n - 1}) {
      low[end] = Math.max(low[end], line.groundM[end] - FAR_M);
      high[end] = Math.min(high[end], line.groundM[end] + FAR_M);
    }
    if (!Double.isNaN(endInvertM)) {
      low[n - 1] = Math.max(low[n - 1], endInvertM);
    }
    boolean[] dug = new boolean[n - 1];
    for (int i = 0; i < n - 1; i++) {
      dug[i] = !line.bored(i);
    }
    return new Corridor(line.stationM, low, high, breakable, dug, b.minGrade(), b.maxGrade());
  }

  /** The same, its grade changing only where it may and is asked to. */
  Corridor bending(boolean[] asked) {
    boolean[] bends = breakable.clone();
    for (int i = 0; i < bends.length; i++) {
      bends[i] &= asked[i];
    }
    return new Corridor(stationM, lowM, highM, bends, dug, minGrade, maxGrade);
  }

  /** The corridor upside down and from the other end: a pipe through it is one through this. */
  Corridor mirrored() {
    int n = size();
    double[] station = new double[n];
    double[] low = new double[n];
    double[] high = new double[n];
    boolean[] bends = new boolean[n];
    boolean[] trench = new boolean[n - 1];
    for (int i = 0; i < n; i++) {
      int k = n - 1 - i;
      station[i] = stationM[n - 1] - stationM[k];
      low[i] = -highM[k];
      high[i] = -lowM[k];
      bends[i] = breakable[k];
      if (i < n - 1) {
        trench[i] = dug[k - 1];
      }
    }
    return new Corridor(station, low, high, bends, trench, minGrade, maxGrade);
  }

  int size() {
    return stationM.length;
  }
}
