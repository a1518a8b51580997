package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import org.yardfall.route.FewestGrades.Knot;

/**
 * Raises a pipe as far as it goes without adding a break. One knot after another is moved along and
 * up together with the inverts of the two next to it; one straight grade after another is raised
 * and tilted as a whole; until no such move gains anything. The number of breaks stays the least.
 * The digging is the least there is for a pipe of one grade or two, since one move then decides
 * everything; for three and more it is the least that such moves reach, on random corridors within
 * 10 mm of mean depth of the best.
 */
final class LeastDigging {

  private static final int ROUNDS = 12;

  /** No grade is lowered by more than this in one move, in metres. */
  private static final double FAR_M = 100;

  /** A move must raise the pipe by this much on average, or it is not worth a round. */
  private static final double GAIN_M = 1e-5;

  private static final double EPSILON_M = 1e-9;

  /** Room for rounding where only one invert fits. */
  private static final double ROUNDING_M = 1e-7;

  /** The golden section's share. */
  private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

  /** How near to the best invert the golden section stops, in metres. */
  private static final double PRECISION_M = 1e-6;

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
      for (int k = 1; k + 1 < digging.at.length; k++) {
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

  /**
   * Moves a knot along and up to where the area under the pipe is greatest, the knots next to it
   * going with it up or down; returns what was gained in m². With the knot at a place the area is
   * concave in its invert, so a golden section finds the best one.
   */
  private double move(int k) {
    double before = area(k, at[k], new double[] {v[k - 1], v[k], v[k + 1]});
    double most = before + EPSILON_M;
    int bestAt = at[k];
    double[] best = null;
    for (int i = at[k - 1] + 1; i < at[k + 1]; i++) {
      double[] inverts = c.breakable()[i] ? highest(k, i, most) : null;
      if (inverts != null && area(k, i, inverts) > most) {
        most = area(k, i, inverts);
        bestAt = i;
        best = inverts;
      }
    }
    if (best == null) {
      return 0;
    }
    at[k] = bestAt;
    v[k - 1] = best[0];
    v[k] = best[1];
    v[k + 1] = best[2];
    return most - before;
  }

  /** Area in m² of the grades that change when a knot and those next to it move. */
  private double area(int k, int i, double[] inverts) {
    double[] s = c.stationM();
    double area =
        (inverts[0] + inverts[1]) / 2 * (s[i] - s[at[k - 1]])
            + (inverts[1] + inverts[2]) / 2 * (s[at[k + 1]] - s[i]);
    if (k > 1) {
      area += inverts[0] / 2 * (s[at[k - 1]] - s[at[k - 2]]);
    }
    if (k + 2 < at.length) {
      area += inverts[2] / 2 * (s[at[k + 2]] - s[at[k + 1]]);
    }
    return area;
  }

  /**
   * The best inverts of a knot put at a station and of those next to it; null where none fit, or
   * none that give more than so much area.
   */
  private double[] highest(int k, int i, double least) {
    double[] up = range(k - 1, -1);
    double[] down = range(k + 1, 1);
    double[] here = {Math.max(c.lowM()[i], v[k] - FAR_M), Math.min(c.highM()[i], v[k] + FAR_M)};
    narrowFrom(up, at[k - 1], i, here);
    narrowTo(down, at[k + 1], i, here);
    if (!(here[0] <= here[1]) || area(k, i, new double[] {up[1], here[1], down[1]}) <= least) {
      return null;
    }
    double low = here[0];
    double high = here[1];
    double[] top = at(k, i, high, up, down);
    double[] best = top;
    double x1 = high - GOLDEN * (high - low);
    double x2 = low + GOLDEN * (high - low);
    double[] one = at(k, i, x1, up, down);
    double[] two = at(k, i, x2, up, down);
    while (high - low > PRECISION_M) {
      if (worth(k, i, one) >= worth(k, i, two)) {
        high = x2;
        x2 = x1;
        two = one;
        x1 = high - GOLDEN * (high - low);
        one = at(k, i, x1, up, down);
      } else {
        low = x1;
        x1 = x2;
        one = two;
        x2 = low + GOLDEN * (high - low);
        two = at(k, i, x2, up, down);
      }
      best = worth(k, i, one) > worth(k, i, best) ? one : best;
      best = worth(k, i, two) > worth(k, i, best) ? two : best;
    }
    return best;
  }

  private double worth(int k, int i, double[] inverts) {
    return inverts == null ? Double.NEGATIVE_INFINITY : area(k, i, inverts);
  }

  /** The knot at an invert with those next to it as high as they go; null where they do not fit. */
  private double[] at(int k, int i, double invertM, double[] up, double[] down) {
    double[] above = up.clone();
    above(invertM, i, at[k - 1], above);
    double[] below = down.clone();
    below(invertM, i, at[k + 1], below);
    return above[0] <= above[1] + ROUNDING_M && below[0] <= below[1] + ROUNDING_M
        ? new double[] {above[1], invertM, below[1]}
        : null;
  }

  /** Inverts that a knot may have, the next one on its other side held. */
  private double[] range(int knot, int side) {
    double[] range = {
      Math.max(c.lowM()[at[knot]], v[knot] - FAR_M), Math.min(c.highM()[at[knot]], v[knot] + FAR_M)
    };
    int other = knot + side;
    if (other >= 0 && other < at.length) {
      if (side < 0) {
        below(v[other], at[other], at[knot], range);
      } else {
        above(v[other], at[other], at[knot], range);
      }
    }
    return range;
  }

  /** Narrows the inverts at a station to those that a straight grade from a knot above reaches. */
  private void narrowFrom(double[] top, int knotAt, int i, double[] range) {
    FallPolygon grades = new FallPolygon(top[0], top[1], c.minGrade(), c.maxGrade());
    for (int s = knotAt + 1; s < i; s++) {
      grades.pass(c.stationM()[s] - c.stationM()[knotAt], c.lowM()[s], c.highM()[s]);
    }
    double d = c.stationM()[i] - c.stationM()[knotAt];
    grades.pass(d, range[0], range[1]);
    range[0] = grades.isEmpty() ? Double.NaN : grades.lowestAt(d);
    range[1] = grades.isEmpty() ? Double.NaN : grades.highestAt(d);
  }

  /** The same to those from which one reaches a knot below. */
  private void narrowTo(double[] end, int knotAt, int i, double[] range) {
    if (!(range[0] <= range[1])) {
      return;
    }
    FallPolygon grades = new FallPolygon(range[0], range[1], c.minGrade(), c.maxGrade());
    for (int s = i + 1; s < knotAt; s++) {
      grades.pass(c.stationM()[s] - c.stationM()[i], c.lowM()[s], c.highM()[s]);
    }
    grades.pass(c.stationM()[knotAt] - c.stationM()[i], end[0], end[1]);
    range[0] = grades.isEmpty() ? Double.NaN : grades.lowestAt(0);
    range[1] = grades.isEmpty() ? Double.NaN : grades.highestAt(0);
  }

  /** Raises one straight grade as a whole, its outer neighbours held; returns the gain in m². */
  private double tilt(int k) {
    double d = c.stationM()[at[k + 1]] - c.stationM()[at[k]];
    double[] top = {c.lowM()[at[k]], c.highM()[at[k]]};
    double[] end = {c.lowM()[at[k + 1]], c.highM()[at[k + 1]]};
    if (k > 0) {
      below(v[k - 1], at[k - 1], at[k], top);
    }
    if (k + 2 < at.length) {
      above(v[k + 2], at[k + 2], at[k + 1], end);
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

  /** Narrows the inverts at a station to those that a straight grade from one above can reach. */
  private void below(double invertM, int from, int i, double[] range) {
    double d = c.stationM()[i] - c.stationM()[from];
    range[0] = Math.max(range[0], invertM - c.maxGrade() * d);
    range[1] = Math.min(range[1], invertM - c.minGrade() * d);
    for (int s = from + 1; s < i; s++) {
      narrow(invertM, s, (c.stationM()[s] - c.stationM()[from]) / d, range);
    }
  }

  /** The same to those from which a straight grade reaches one below. */
  private void above(double invertM, int to, int i, double[] range) {
    double d = c.stationM()[to] - c.stationM()[i];
    range[0] = Math.max(range[0], invertM + c.minGrade() * d);
    range[1] = Math.min(range[1], invertM + c.maxGrade() * d);
    for (int s = i + 1; s < to; s++) {
      narrow(invertM, s, (c.stationM()[to] - c.stationM()[s]) / d, range);
    }
  }

  private void narrow(double invertM, int s, double share, double[] range) {
    range[0] = Math.max(range[0], (c.lowM()[s] - invertM * (1 - share)) / share);
    range[1] = Math.min(range[1], (c.highM()[s] - invertM * (1 - share)) / share);
  }
}
