package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.yardfall.route.FewestGrades.Knot;

/**
 * Lays a pipe through a corridor with the least digging: of all pipes with a given number of
 * grades, or of all that may bend at every station.
 *
 * <p>Digging grows with depth, so the least digging is the greatest area under the pipe where a
 * trench is dug. For every station, and every number of grades up to it, the greatest area is kept
 * as a function of the invert ({@link AreaByInvert}). All straight grades from one station to
 * another are a {@link FallPolygon}; over the part of it where the area so far is concave, the area
 * gained is concave too, so its greatest values by the invert at the lower end are the upper hull
 * of those at the polygon's corners. Inverts are not rounded to a ladder, and no search is cut
 * short: up to {@link #MOST_PLACES} stations the pipe is the best one there is, but for a millionth
 * of a square metre a grade; beyond, the best of those that break at so many places evenly along
 * the line, or where the pipe found first has its breaks. O(m²) polygons a grade, m the places
 * tried.
 */
final class LeastDigging {

  /** Room for rounding where a pipe is followed back, in metres. */
  private static final double EPSILON_M = 1e-7;

  /** Breaks are tried at so many places along a line, evenly spread, or at all that there are. */
  private static final int MOST_PLACES = 120;

  private final Corridor c;
  private final boolean drops;
  private final int n;

  /** Length in metres dug up to each station, and its moment. */
  private final double[] dugM;

  private final double[] momentM2;

  /** Areas are measured from here, to keep the figures small. */
  private final double baseM;

  private LeastDigging(Corridor corridor, boolean drops) {
    this.c = corridor;
    this.drops = drops;
    this.n = corridor.size();
    dugM = new double[n];
    momentM2 = new double[n];
    for (int i = 1; i < n; i++) {
      double a = c.stationM()[i - 1];
      double b = c.stationM()[i];
      dugM[i] = dugM[i - 1] + (c.dug()[i - 1] ? b - a : 0);
      momentM2[i] = momentM2[i - 1] + (c.dug()[i - 1] ? (b * b - a * a) / 2 : 0);
    }
    baseM = c.highM()[0];
  }

  /**
   * Of all pipes with as many grades as the given one, which must be the fewest, the one with the
   * least digging; it has drops only where the given one has.
   */
  static List<Knot> of(Corridor corridor, List<Knot> fewest) {
    boolean drops = fewest.stream().anyMatch(k -> k.arriveM() > k.leaveM());
    return new LeastDigging(corridor, drops).inGrades(fewest).orElse(fewest);
  }

  /**
   * Of all pipes the one with the least digging, bent wherever that saves any; empty where none
   * falls through the corridor without drops.
   */
  static Optional<List<Knot>> bent(Corridor corridor) {
    return new LeastDigging(corridor, false).anyGrades();
  }

  private AreaByInvert start() {
    double low = c.lowM()[0];
    double high = c.highM()[0];
    return low <= high + EPSILON_M
        ? AreaByInvert.none(Math.min(low, high) - baseM, high - baseM)
        : new AreaByInvert();
  }

  private Optional<List<Knot>> inGrades(List<Knot> fewest) {
    int grades = fewest.size() - 1;
    boolean[] tried = tried(fewest);
    FewestGrades.Reach toEnd = FewestGrades.reach(c.mirrored(), drops, grades - 1);
    List<AreaByInvert[]> rounds = new ArrayList<>();
    AreaByInvert[] first = new AreaByInvert[n];
    first[0] = start();
    rounds.add(first);
    for (int round = 1; round <= grades; round++) {
      AreaByInvert[] before = rounds.get(round - 1);
      AreaByInvert[] now = new AreaByInvert[n];
      for (int j = 0; j < n - 1; j++) {
        if (before[j] != null && !before[j].isEmpty()) {
          spread(leaving(before[j], j), j, grades - round, tried, toEnd, now);
        }
      }
      rounds.add(now);
    }
    return trace(rounds);
  }

  /** Where breaks are tried: where the given pipe has its own, and evenly along the line. */
  private boolean[] tried(List<Knot> fewest) {
    boolean[] tried = new boolean[n];
    double apart = c.stationM()[n - 1] / MOST_PLACES;
    double last = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < n; i++) {
      if (c.breakable()[i] && c.stationM()[i] - last >= apart) {
        tried[i] = true;
        last = c.stationM()[i];
      }
    }
    fewest.forEach(knot -> tried[knot.at()] = true);
    return tried;
  }

  /** Adds what straight grades from a station reach, where as few more as left lead to the end. */
  private void spread(
      AreaByInvert from,
      int j,
      int left,
      boolean[] tried,
      FewestGrades.Reach toEnd,
      AreaByInvert[] now) {
    FallPolygon grades = grades(from);
    for (int i = j + 1; i < n && !grades.isEmpty(); i++) {
      pass(grades, j, i);
      boolean may = left == 0 ? i == n - 1 : i < n - 1 && tried[i];
      if (may && !grades.isEmpty() && toEnd.meets(left, n - 1 - i)) {
        FallPolygon useful = grades.copy();
        useful.pass(
            c.stationM()[i] - c.stationM()[j],
            -toEnd.highestM(left, n - 1 - i) - EPSILON_M - baseM,
            drops ? Double.POSITIVE_INFINITY : -toEnd.lowestM(left, n - 1 - i) + EPSILON_M - baseM);
        if (!useful.isEmpty()) {
          now[i] = now[i] == null ? new AreaByInvert() : now[i];
          extend(from, useful, j, i, now[i]);
        }
      }
    }
  }

  private Optional<List<Knot>> anyGrades() {
    AreaByInvert[] areas = new AreaByInvert[n];
    List<Integer> stops = new ArrayList<>();
    areas[0] = start();
    stops.add(0);
    for (int j = 0, i = 1; i < n; i++) {
      if (areas[j].isEmpty()) {
        return Optional.empty();
      }
      if (c.breakable()[i] || i == n - 1) {
        areas[i] = new AreaByInvert();
        FallPolygon grades = grades(areas[j]);
        for (int s = j + 1; s <= i; s++) {
          pass(grades, j, s);
        }
        extend(areas[j], grades, j, i, areas[i]);
        stops.add(i);
        j = i;
      }
    }
    List<AreaByInvert[]> rounds = new ArrayList<>();
    for (int stop : stops) {
      AreaByInvert[] round = new AreaByInvert[n];
      round[stop] = areas[stop];
      rounds.add(round);
    }
    return trace(rounds).map(this::withoutStraightOnes);
  }

  private AreaByInvert leaving(AreaByInvert arriving, int j) {
    return drops && j > 0 && c.lowM()[j] != Double.NEGATIVE_INFINITY
        ? arriving.dropped(c.lowM()[j] - baseM)
        : arriving;
  }

  private FallPolygon grades(AreaByInvert from) {
    return new FallPolygon(from.lowestM(), from.highestM(), c.minGrade(), c.maxGrade());
  }

  private void pass(FallPolygon grades, int j, int i) {
    grades.pass(c.stationM()[i] - c.stationM()[j], c.lowM()[i] - baseM, c.highM()[i] - baseM);
  }

  /** Raises the areas at a station by those of straight grades from one above. */
  private void extend(AreaByInvert from, FallPolygon grades, int j, int i, AreaByInvert to) {
    double d = c.stationM()[i] - c.stationM()[j];
    for (List<AreaByInvert.Stretch> run : from.concaveRuns()) {
      List<double[]> points = new ArrayList<>();
      for (AreaByInvert.Stretch stretch : run) {
        grades.corners(
            stretch.fromM(),
            stretch.toM(),
            (v, g) -> points.add(new double[] {v - g * d, stretch.at(v) + area(j, i, v, g)}));
      }
      to.raise(points);
    }
  }

  /** Area in m² under a straight pipe where a trench is dug. */
  private double area(int j, int i, double invertM, double grade) {
    double w = dugM[i] - dugM[j];
    return invertM * w - grade * (momentM2[i] - momentM2[j] - c.stationM()[j] * w);
  }

  /** Follows the pipe of the greatest area back from the lower end. */
  private Optional<List<Knot>> trace(List<AreaByInvert[]> rounds) {
    AreaByInvert end = rounds.get(rounds.size() - 1)[n - 1];
    if (end == null || end.isEmpty()) {
      return Optional.empty();
    }
    List<Knot> knots = new ArrayList<>();
    int at = n - 1;
    double arrive = end.greatestAt();
    double leave = arrive;
    for (int round = rounds.size() - 1; round > 0; round--) {
      knots.add(0, new Knot(at, arrive + baseM, leave + baseM));
      AreaByInvert[] before = rounds.get(round - 1);
      double most = Double.NEGATIVE_INFINITY;
      int from = -1;
      for (int j = 0; j < at; j++) {
        if (before[j] == null || before[j].isEmpty()) {
          continue;
        }
        AreaByInvert leaving = leaving(before[j], j);
        FallPolygon grades = grades(leaving);
        for (int i = j + 1; i < at && !grades.isEmpty(); i++) {
          pass(grades, j, i);
        }
        double d = c.stationM()[at] - c.stationM()[j];
        grades.pass(d, arrive - EPSILON_M, arrive + EPSILON_M);
        Best best = best(leaving, grades, j, at);
        if (best.area > most) {
          most = best.area;
          from = j;
          leave = best.invertM;
        }
      }
      if (from < 0) {
        return Optional.empty();
      }
      at = from;
      arrive = arriving(before[from], at, leave);
    }
    knots.add(0, new Knot(0, leave + baseM, leave + baseM));
    return Optional.of(knots);
  }

  private static final class Best {
    private double area = Double.NEGATIVE_INFINITY;
    private double invertM;
  }

  private Best best(AreaByInvert from, FallPolygon grades, int j, int i) {
    Best best = new Best();
    for (AreaByInvert.Stretch stretch : from.stretches()) {
      grades.corners(
          stretch.fromM(),
          stretch.toM(),
          (v, g) -> {
            double area = stretch.at(v) + area(j, i, v, g);
            if (area > best.area) {
              best.area = area;
              best.invertM = v;
            }
          });
    }
    return best;
  }

  /** The invert at which a pipe arrives that goes on at the given one: higher only at a drop. */
  private double arriving(AreaByInvert area, int at, double leave) {
    if (!drops) {
      return leave;
    }
    double from = area.lowestFrom(leave, leaving(area, at).at(leave));
    return Double.isNaN(from) ? leave : from;
  }

  private List<Knot> withoutStraightOnes(List<Knot> knots) {
    List<Knot> kept = new ArrayList<>(knots.subList(0, 1));
    for (int k = 1; k < knots.size(); k++) {
      Knot last = kept.get(kept.size() - 1);
      boolean straight = k + 1 < knots.size();
      if (straight) {
        double before = grade(last, knots.get(k));
        double after = grade(knots.get(k), knots.get(k + 1));
        straight = Math.abs(before - after) < 1e-6;
      }
      if (!straight) {
        kept.add(knots.get(k));
      }
    }
    return kept;
  }

  private double grade(Knot a, Knot b) {
    return (a.leaveM() - b.arriveM()) / (c.stationM()[b.at()] - c.stationM()[a.at()]);
  }
}
