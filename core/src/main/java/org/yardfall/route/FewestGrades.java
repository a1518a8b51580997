package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Lays a pipe through a corridor in the fewest straight grades.
 *
 * <p>For every station the inverts that can be reached with one grade, with two, with three … are
 * kept as intervals; the first round that reaches the lower end has the fewest. A round starts a
 * {@link FallPolygon} at each station reached so far and lets it run until no straight grade is
 * left. This is a minimum-link path through a monotone corridor (Suri 1986, "A linear time
 * algorithm for minimum link paths inside a simple polygon", gives the windows from one round to
 * the next), with the grade limited as well and breaks at the corridor's stations. O(n²) a round.
 *
 * <p>Where no pipe keeps under the greatest grade, drops are allowed: at a break the pipe may go on
 * lower than it came.
 */
final class FewestGrades {

  /**
   * A place where the grade changes, or an end.
   *
   * @param at index of the station
   * @param arriveM invert at which the pipe arrives
   * @param leaveM invert at which it goes on; lower than it arrives at a drop
   */
  record Knot(int at, double arriveM, double leaveM) {}

  /** An interval of inverts at a station. */
  private record Reached(double lowM, double highM) {}

  private static final double EPSILON_M = 1e-7;

  private final Corridor c;
  private final boolean drops;
  private final int n;
  private final boolean[] breakable;

  private FewestGrades(Corridor corridor, boolean[] breakable, boolean drops) {
    this.c = corridor;
    this.drops = drops;
    this.n = corridor.size();
    this.breakable = breakable;
  }

  /**
   * The pipe's ends and breaks, upper end first; empty where no pipe falls through the corridor.
   */
  static Optional<List<Knot>> find(Corridor corridor) {
    Optional<List<Knot>> without =
        passable(corridor, false) ? find(corridor, false) : Optional.empty();
    return without.isPresent() || !passable(corridor, true) ? without : find(corridor, true);
  }

  /** Whether a pipe that may bend, or drop, anywhere gets through: a quick no in O(n). */
  private static boolean passable(Corridor c, boolean drops) {
    double low = c.lowM()[0];
    double high = c.highM()[0];
    for (int i = 1; i < c.size(); i++) {
      double d = c.stationM()[i] - c.stationM()[i - 1];
      low = drops ? c.lowM()[i] : Math.max(low - c.maxGrade() * d, c.lowM()[i]);
      high = Math.min(high - c.minGrade() * d, c.highM()[i]);
      if (low > high + EPSILON_M) {
        return false;
      }
    }
    return true;
  }

  private static Optional<List<Knot>> find(Corridor corridor, boolean drops) {
    return new FewestGrades(corridor, corridor.breakable(), drops).search();
  }

  private Optional<List<Knot>> search() {
    List<List<List<Reached>>> rounds = rounds(n);
    int last = rounds.size() - 1;
    return last > 0 && !rounds.get(last).get(n - 1).isEmpty()
        ? Optional.of(trace(rounds, last))
        : Optional.empty();
  }

  /**
   * What is reached with at most 0, 1, 2 … grades, until the lower end is, or as many rounds as
   * asked are made, or nothing more is reached.
   */
  private List<List<List<Reached>>> rounds(int most) {
    List<List<List<Reached>>> rounds = new ArrayList<>();
    List<List<Reached>> start = nothing();
    rounds.add(start);
    if (!(c.lowM()[0] <= c.highM()[0] + EPSILON_M)) {
      return rounds;
    }
    start.get(0).add(new Reached(Math.min(c.lowM()[0], c.highM()[0]), c.highM()[0]));
    boolean more = true;
    for (int round = 1; round <= most && more; round++) {
      List<List<Reached>> before = rounds.get(round - 1);
      List<List<Reached>> now = nothing();
      for (int j = 0; j < n - 1; j++) {
        for (Reached from : before.get(j)) {
          spread(j, from, now);
        }
      }
      more = false;
      for (int i = 0; i < n; i++) {
        now.get(i).addAll(before.get(i));
        List<Reached> merged = merged(now.get(i));
        more |= !merged.equals(before.get(i));
        now.set(i, merged);
      }
      rounds.add(now);
      more &= now.get(n - 1).isEmpty();
    }
    return rounds;
  }

  /** The inverts that a pipe of so many grades at most can reach. */
  static final class Reach {
    private final List<List<List<Reached>>> rounds;

    private Reach(List<List<List<Reached>>> rounds) {
      this.rounds = rounds;
    }

    private List<Reached> at(int grades, int station) {
      return rounds.get(Math.min(grades, rounds.size() - 1)).get(station);
    }

    boolean meets(int grades, int station) {
      return !at(grades, station).isEmpty();
    }

    double lowestM(int grades, int station) {
      return at(grades, station).get(0).lowM;
    }

    double highestM(int grades, int station) {
      List<Reached> there = at(grades, station);
      return there.get(there.size() - 1).highM;
    }
  }

  /** What is reached of a corridor with up to so many grades. */
  static Reach reach(Corridor corridor, boolean drops, int grades) {
    return new Reach(new FewestGrades(corridor, corridor.breakable(), drops).rounds(grades));
  }

  private List<List<Reached>> nothing() {
    List<List<Reached>> lists = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      lists.add(new ArrayList<>());
    }
    return lists;
  }

  private double leaveLow(int j, Reached from) {
    return drops && c.lowM()[j] != Double.NEGATIVE_INFINITY
        ? Math.min(from.lowM, c.lowM()[j])
        : from.lowM;
  }

  private void spread(int j, Reached from, List<List<Reached>> now) {
    FallPolygon grades = new FallPolygon(leaveLow(j, from), from.highM, c.minGrade(), c.maxGrade());
    for (int i = j + 1; i < n && !grades.isEmpty(); i++) {
      double d = c.stationM()[i] - c.stationM()[j];
      grades.pass(d, c.lowM()[i], c.highM()[i]);
      if (!grades.isEmpty() && (breakable[i] || i == n - 1)) {
        now.get(i).add(new Reached(grades.lowestAt(d), grades.highestAt(d)));
      }
    }
  }

  private static List<Reached> merged(List<Reached> parts) {
    List<Reached> sorted = new ArrayList<>(parts);
    sorted.sort((a, b) -> Double.compare(a.lowM, b.lowM));
    List<Reached> merged = new ArrayList<>();
    for (Reached part : sorted) {
      Reached last = merged.isEmpty() ? null : merged.get(merged.size() - 1);
      if (last != null && part.lowM <= last.highM) {
        merged.set(merged.size() - 1, new Reached(last.lowM, Math.max(last.highM, part.highM)));
      } else {
        merged.add(part);
      }
    }
    return merged;
  }

  /** Goes back from the lower end, taking the highest invert that the round before can give. */
  private List<Knot> trace(List<List<List<Reached>>> rounds, int last) {
    List<Reached> ends = rounds.get(last).get(n - 1);
    List<Knot> knots = new ArrayList<>();
    int at = n - 1;
    double arrive = ends.get(ends.size() - 1).highM;
    double leave = arrive;
    for (int round = last; at > 0; round--) {
      knots.add(0, new Knot(at, arrive, leave));
      int from = -1;
      double best = Double.NEGATIVE_INFINITY;
      double came = 0;
      for (int j = 0; j < at; j++) {
        for (Reached reached : rounds.get(round - 1).get(j)) {
          double top = highestStart(j, reached, at, arrive);
          double rise = top - arrive - c.minGrade() * (c.stationM()[at] - c.stationM()[j]);
          if (top != Double.NEGATIVE_INFINITY && (from < 0 || rise > best)) {
            from = j;
            best = rise;
            came = reached.lowM;
          }
        }
      }
      if (from < 0) {
        throw new IllegalStateException("no way back to the round before");
      }
      leave = best + arrive + c.minGrade() * (c.stationM()[at] - c.stationM()[from]);
      arrive = drops ? Math.max(leave, came) : leave; // no drop where it can arrive as it leaves
      at = from;
    }
    knots.add(0, new Knot(0, leave, leave));
    return knots;
  }

  private double highestStart(int j, Reached from, int at, double arrive) {
    FallPolygon grades = new FallPolygon(leaveLow(j, from), from.highM, c.minGrade(), c.maxGrade());
    for (int i = j + 1; i < at && !grades.isEmpty(); i++) {
      grades.pass(c.stationM()[i] - c.stationM()[j], c.lowM()[i], c.highM()[i]);
    }
    double d = c.stationM()[at] - c.stationM()[j];
    grades.pass(d, arrive - EPSILON_M, arrive + EPSILON_M);
    return grades.isEmpty() ? Double.NEGATIVE_INFINITY : grades.highestAt(0);
  }
}
