package org.yardfall.route;

/**
 * Between which inverts a pipe must run along a line, and at which grades.
 *
 * @param stationM stations in metres, rising
 * @param lowM lowest invert at each station in metres; −infinity where none is asked
 * @param highM highest invert at each station in metres; +infinity where none is asked
 * @param breakable whether the grade may change there: not within a bore
 * @param minGrade least fall per metre
 * @param maxGrade greatest fall per metre
 */
@SuppressWarnings("ArrayRecordComponent")
record Corridor(
    double[] stationM,
    double[] lowM,
    double[] highM,
    boolean[] breakable,
    double minGrade,
    double maxGrade) {

  /**
   * The corridor of a line.
   *
   * @param endInvertM lowest invert at the lower end in metres
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
    if (!Double.isNaN(endInvertM)) {
      low[n - 1] = Math.max(low[n - 1], endInvertM);
    }
    return new Corridor(line.stationM, low, high, breakable, b.minGrade(), b.maxGrade());
  }

  int size() {
    return stationM.length;
  }
}
