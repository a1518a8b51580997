package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Every pipe through a small corridor whose ends and breaks lie on a ladder of inverts, tried one
 * by one. It shares nothing with the search but the corridor.
 */
final class LadderPipes {

  private final Corridor c;
  private final double slackM;
  private final boolean drops;
  private final List<double[]> rungs = new ArrayList<>();

  /**
   * @param rungM distance of the inverts tried; corridors are to begin and end on rungs
   * @param slackM by so much the corridor is wider, and the grades' limits with it
   * @param drops whether the pipe may go on lower than it comes at a break
   */
  LadderPipes(Corridor corridor, double rungM, double slackM, boolean drops) {
    this.c = corridor;
    this.slackM = slackM;
    this.drops = drops;
    for (int i = 0; i < c.size(); i++) {
      int low = (int) Math.ceil((c.lowM()[i] - slackM) / rungM - 1e-6);
      int high = (int) Math.floor((c.highM()[i] + slackM) / rungM + 1e-6);
      double[] inverts = new double[Math.max(0, high - low + 1)];
      for (int r = 0; r < inverts.length; r++) {
        inverts[r] = (low + r) * rungM;
      }
      rungs.add(inverts);
    }
  }

  /** Fewest grades of any such pipe; {@code Integer.MAX_VALUE} where there is none. */
  int fewest() {
    for (int grades = 1; grades < c.size(); grades++) {
      if (mostM2(grades) > Double.NEGATIVE_INFINITY) {
        return grades;
      }
    }
    return Integer.MAX_VALUE;
  }

  /** Greatest area that is dug above no more than it must, of the pipes with so many grades. */
  double mostM2(int grades) {
    double[][] area = nowhere();
    Arrays.fill(area[0], 0);
    for (int round = 0; round < grades; round++) {
      double[][] next = nowhere();
      for (int j = 0; j < c.size() - 1; j++) {
        if (j == 0 || c.breakable()[j]) {
          lay(j, drops && j > 0 ? dropped(area[j]) : area[j], next);
        }
      }
      area = next;
    }
    return Arrays.stream(area[c.size() - 1]).max().orElse(Double.NEGATIVE_INFINITY);
  }

  private double[][] nowhere() {
    double[][] area = new double[c.size()][];
    for (int i = 0; i < c.size(); i++) {
      area[i] = new double[rungs.get(i).length];
      Arrays.fill(area[i], Double.NEGATIVE_INFINITY);
    }
    return area;
  }

  private static double[] dropped(double[] area) {
    double[] after = area.clone();
    for (int r = after.length - 2; r >= 0; r--) {
      after[r] = Math.max(after[r], after[r + 1]);
    }
    return after;
  }

  private void lay(int j, double[] from, double[][] next) {
    for (int a = 0; a < from.length; a++) {
      for (int i = j + 1; i < c.size() && from[a] > Double.NEGATIVE_INFINITY; i++) {
        for (int b = 0; b < rungs.get(i).length; b++) {
          double top = rungs.get(j)[a];
          double end = rungs.get(i)[b];
          if (fits(c, j, i, top, end, slackM)) {
            next[i][b] = Math.max(next[i][b], from[a] + areaM2(c, j, i, top, end));
          }
        }
      }
    }
  }

  /** Whether a straight pipe keeps within the corridor and its grades, each wider by a slack. */
  static boolean fits(Corridor c, int j, int i, double from, double to, double slackM) {
    double d = c.stationM()[i] - c.stationM()[j];
    double grade = (from - to) / d;
    double more = 2 * Math.max(0, slackM) / d;
    if (grade < c.minGrade() - more - 1e-6 || grade > c.maxGrade() + more + 1e-6) {
      return false;
    }
    for (int s = j; s <= i; s++) {
      double v = from - grade * (c.stationM()[s] - c.stationM()[j]);
      if (v < c.lowM()[s] - slackM - 1e-6 || v > c.highM()[s] + slackM + 1e-6) {
        return false;
      }
    }
    return true;
  }

  /** Area under a straight pipe where a trench is dug. */
  static double areaM2(Corridor c, int j, int i, double from, double to) {
    double area = 0;
    double d = c.stationM()[i] - c.stationM()[j];
    for (int s = j; s < i; s++) {
      double middle = (c.stationM()[s] + c.stationM()[s + 1]) / 2 - c.stationM()[j];
      double length = c.stationM()[s + 1] - c.stationM()[s];
      area += c.dug()[s] ? length * (from + (to - from) * middle / d) : 0;
    }
    return area;
  }
}
