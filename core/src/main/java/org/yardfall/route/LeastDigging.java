package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import org.yardfall.route.FewestGrades.Knot;

/**
 * Raises a pipe as far as it goes without adding a break. One knot after another is moved along and
 * up to where the pipe lies highest, its neighbours held; one straight grade after another is
 * raised and tilted as a whole; until no such move gains anything. The number of breaks stays the
 * least. The digging is the least there is for a single grade, and for more the least that such
 * moves reach.
 */
final class LeastDigging {

  private static final int ROUNDS = 12;

  /** No grade is lowered by more than this in one move, in metres. */
  private static final double FAR_M = 100;

  /** A move must raise the pipe by this much on average, or it is not worth a round. */
  private static final double GAIN_M = 1e-5;

  private static final double EPSILON_M = 1e-9;

  private final Corridor c;
  private final int[] at;
  private final double[] v;

  private LeastDigging(Corridor corridor, List<Knot> knots) {
    c = corridor;
    at = knots.stream().mapToInt(Knot::at).toArray();
    v = knots.stream().mapToDouble(Knot::leaveM).toArray();
  }

  /** The raised pipe; as it is where it has drops, which are already where they must be. */
  static List<Knot> raise(Corridor corridor, List<Knot> knots) {
    if (knots.stream().anyMatch(k -> k.arriveM() > k.leaveM())) {
      return knots;
    }
    LeastDigging digging = new LeastDigging(corridor, knots);
    for (int round = 0; round < ROUNDS; round++) {
      double gain = 0;
      for (int k = 0; k < digging.at.length; k++) {
        gain += digging.move(k);
      }
      for (int k = 0; k + 1 < digging.at.length; k++) {
        gain += digging.tilt(k);
      }
      if (gain < GAIN_M * corridor.stationM()[corridor.size() - 1]) {
        break;
      }
    }
    List<Knot> raised = new ArrayList<>();
    for (int k = 0; k < digging.at.length; k++) {
      raised.add(new Knot(digging.at[k], digging.v[k], digging.v[k]));
    }
    return raised;
  }

  /** Moves a knot to where the area under the pipe is greatest; returns what was gained in m². */
  private double move(int k) {
    boolean end = k == 0 || k == at.length - 1;
    int first = end ? at[k] : at[k - 1] + 1;
    int last = end ? at[k] : at[k + 1] - 1;
    double before = area(k, at[k], v[k]);
    double best = before;
    int bestAt = at[k];
    double bestV = v[k];
    for (int i = first; i <= last; i++) {
      if (end || c.breakable()[i]) {
        double top = highest(k, i);
        double area = area(k, i, top);
        if (area > best + EPSILON_M) {
          best = area;
          bestAt = i;
          bestV = top;
        }
      }
    }
    at[k] = bestAt;
    v[k] = bestV;
    return best - before;
  }

  private double area(int k, int i, double invert) {
    double area = 0;
    if (k > 0) {
      area += (v[k - 1] + invert) / 2 * (c.stationM()[i] - c.stationM()[at[k - 1]]);
    }
    if (k < at.length - 1) {
      area += (v[k + 1] + invert) / 2 * (c.stationM()[at[k + 1]] - c.stationM()[i]);
    }
    return area;
  }

  /** Raises one straight grade as a whole, its outer neighbours held; returns the gain in m². */
  private double tilt(int k) {
    double d = c.stationM()[at[k + 1]] - c.stationM()[at[k]];
    double[] top = {c.lowM()[at[k]], c.highM()[at[k]]};
    double[] end = {c.lowM()[at[k + 1]], c.highM()[at[k + 1]]};
    if (k > 0) {
      below(k - 1, at[k], top);
    }
    if (k + 2 < at.length) {
      above(k + 2, at[k + 1], end);
    }
    // ends that nothing holds are held by the grades alone
    double highest = Math.min(top[1], end[1] + c.maxGrade() * d);
    double lowest = Math.max(top[0], v[k] - FAR_M);
    if (highest == Double.POSITIVE_INFINITY || lowest > highest) {
      return 0;
    }
    FallPolygon grades = new FallPolygon(lowest, highest, c.minGrade(), c.maxGrade());
    for (int i = at[k] + 1; i < at[k + 1]; i++) {
      grades.pass(c.stationM()[i] - c.stationM()[at[k]], c.lowM()[i], c.highM()[i]);
    }
    grades.pass(d, end[0], end[1]);
    double left = k > 0 ? c.stationM()[at[k]] - c.stationM()[at[k - 1]] : 0;
    double right = k + 2 < at.length ? c.stationM()[at[k + 2]] - c.stationM()[at[k + 1]] : 0;
    double topWeight = (left + d) / 2;
    double endWeight = (d + right) / 2;
    double[] best = grades.greatest(topWeight + endWeight, -endWeight * d);
    if (best == null) {
      return 0;
    }
    double gain = topWeight * (best[0] - v[k]) + endWeight * (best[0] - best[1] * d - v[k + 1]);
    if (gain <= EPSILON_M) {
      return 0;
    }
    v[k] = best[0];
    v[k + 1] = best[0] - best[1] * d;
    return gain;
  }

  /** Highest invert of a knot at a station, its neighbours held; −infinity where there is none. */
  private double highest(int k, int i) {
    double[] range = {c.lowM()[i], c.highM()[i]};
    if (k > 0) {
      below(k - 1, i, range);
    }
    if (k < at.length - 1) {
      above(k + 1, i, range);
    }
    return range[0] <= range[1] && range[1] != Double.POSITIVE_INFINITY
        ? range[1]
        : Double.NEGATIVE_INFINITY;
  }

  /**
   * Narrows the inverts at a station to those that a straight grade from a knot above can reach.
   */
  private void below(int knot, int i, double[] range) {
    double d = c.stationM()[i] - c.stationM()[at[knot]];
    range[0] = Math.max(range[0], v[knot] - c.maxGrade() * d);
    range[1] = Math.min(range[1], v[knot] - c.minGrade() * d);
    for (int s = at[knot] + 1; s < i; s++) {
      narrow(knot, s, (c.stationM()[s] - c.stationM()[at[knot]]) / d, range);
    }
  }

  /** The same to those from which a straight grade reaches a knot below. */
  private void above(int knot, int i, double[] range) {
    double d = c.stationM()[at[knot]] - c.stationM()[i];
    range[0] = Math.max(range[0], v[knot] + c.minGrade() * d);
    range[1] = Math.min(range[1], v[knot] + c.maxGrade() * d);
    for (int s = i + 1; s < at[knot]; s++) {
      narrow(knot, s, (c.stationM()[at[knot]] - c.stationM()[s]) / d, range);
    }
  }

  private void narrow(int knot, int s, double share, double[] range) {
    range[0] = Math.max(range[0], (c.lowM()[s] - v[knot] * (1 - share)) / share);
    range[1] = Math.min(range[1], (c.highM()[s] - v[knot] * (1 - share)) / share);
  }
}
