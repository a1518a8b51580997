package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The greatest area that a pipe can have under it up to a station, by the invert at which it
 * arrives there: straight stretches, with gaps where no pipe arrives. A pipe that lies higher has
 * more area under it and less digging above.
 */
final class AreaByInvert {

  /** A straight stretch from one invert to a higher one. */
  record Stretch(double fromM, double fromM2, double toM, double toM2) {

    double at(double invertM) {
      return fromM2 + slope() * (invertM - fromM);
    }

    double widthM() {
      return toM - fromM;
    }

    double slope() {
      return (toM2 - fromM2) / (toM - fromM);
    }
  }

  /** Areas in m² that differ by less are the same. */
  private static final double SAME = 1e-11;

  /**
   * A new area is taken only where it is greater by more, in m², so that near ties do not pile up:
   * a pipe found with these areas lacks no more than this a grade.
   */
  private static final double GAIN_M2 = 1e-6;

  /** Inverts in metres that differ by less are the same. */
  private static final double THIN_M = 1e-10;

  /** Half the width in metres that a single invert is given. */
  private static final double POINT_M = 1e-9;

  private final List<Stretch> stretches = new ArrayList<>();

  /** Nothing under any pipe yet, all inverts from low to high possible. */
  static AreaByInvert none(double lowM, double highM) {
    AreaByInvert area = new AreaByInvert();
    area.raise(List.of(new double[] {lowM, 0}, new double[] {highM, 0}));
    return area;
  }

  boolean isEmpty() {
    return stretches.isEmpty();
  }

  /** The straight stretches from low to high. */
  List<Stretch> stretches() {
    return stretches;
  }

  double lowestM() {
    return stretches.get(0).fromM;
  }

  double highestM() {
    return stretches.get(stretches.size() - 1).toM;
  }

  /** The straight stretches from low to high, by runs over which the area is concave. */
  List<List<Stretch>> concaveRuns() {
    List<List<Stretch>> runs = new ArrayList<>();
    for (Stretch s : stretches) {
      List<Stretch> run = runs.isEmpty() ? List.of() : runs.get(runs.size() - 1);
      Stretch before = run.isEmpty() ? null : run.get(run.size() - 1);
      boolean goesOn =
          before != null
              && before.toM == s.fromM
              && Math.abs(before.toM2 - s.fromM2) < SAME
              && (s.slope() - before.slope()) * Math.min(before.widthM(), s.widthM()) < SAME;
      if (!goesOn) {
        run = new ArrayList<>();
        runs.add(run);
      }
      run.add(s);
    }
    return runs;
  }

  /** The area at an invert, or at the nearest one that a pipe arrives at. */
  double at(double invertM) {
    double best = Double.NEGATIVE_INFINITY;
    double nearest = Double.POSITIVE_INFINITY;
    for (Stretch s : stretches) {
      double v = Math.min(Math.max(invertM, s.fromM), s.toM);
      double off = Math.abs(v - invertM);
      if (off < nearest || (off == nearest && s.at(v) > best)) {
        nearest = off;
        best = s.at(v);
      }
    }
    return best;
  }

  /** The invert of the greatest area; the highest of several. */
  double greatestAt() {
    double best = Double.NaN;
    double most = Double.NEGATIVE_INFINITY;
    for (Stretch s : stretches) {
      if (s.fromM2 >= most) {
        most = s.fromM2;
        best = s.fromM;
      }
      if (s.toM2 >= most) {
        most = s.toM2;
        best = s.toM;
      }
    }
    return best;
  }

  /** Raises the area to the upper hull of some points, each an invert and an area. */
  void raise(List<double[]> points) {
    List<Stretch> hull = hull(points);
    if (hull.isEmpty()) {
      return;
    }
    double low = hull.get(0).fromM;
    double high = hull.get(hull.size() - 1).toM;
    int first = firstEndingAbove(low);
    int last = first;
    while (last < stretches.size() && stretches.get(last).fromM < high) {
      last++;
    }
    List<Stretch> met = stretches.subList(first, last);
    List<Stretch> upper = met.isEmpty() ? hull : upper(met, hull);
    met.clear();
    stretches.addAll(first, upper);
  }

  private int firstEndingAbove(double invertM) {
    int low = 0;
    int high = stretches.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (stretches.get(middle).toM > invertM) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }

  private static List<Stretch> hull(List<double[]> points) {
    if (points.isEmpty()) {
      return List.of();
    }
    List<double[]> sorted = new ArrayList<>(points);
    sorted.sort((a, b) -> a[0] == b[0] ? Double.compare(a[1], b[1]) : Double.compare(a[0], b[0]));
    List<double[]> hull = new ArrayList<>();
    for (double[] p : sorted) {
      if (!hull.isEmpty() && p[0] - last(hull)[0] < THIN_M) {
        if (p[1] <= last(hull)[1]) {
          continue;
        }
        hull.remove(hull.size() - 1);
      }
      while (turnsUp(hull, p)) {
        hull.remove(hull.size() - 1);
      }
      hull.add(p);
    }
    List<Stretch> stretches = new ArrayList<>();
    if (hull.size() == 1) {
      double[] p = hull.get(0);
      stretches.add(new Stretch(p[0] - POINT_M, p[1], p[0] + POINT_M, p[1]));
    }
    for (int i = 1; i < hull.size(); i++) {
      double[] a = hull.get(i - 1);
      double[] b = hull.get(i);
      stretches.add(new Stretch(a[0], a[1], b[0], b[1]));
    }
    return stretches;
  }

  private static double[] last(List<double[]> list) {
    return list.get(list.size() - 1);
  }

  private static boolean turnsUp(List<double[]> hull, double[] p) {
    if (hull.size() < 2) {
      return false;
    }
    double[] a = hull.get(hull.size() - 2);
    double[] b = last(hull);
    return (b[0] - a[0]) * (p[1] - a[1]) >= (b[1] - a[1]) * (p[0] - a[0]);
  }

  /** The upper of two, between every two ends of stretches the one or the other. */
  private static List<Stretch> upper(List<Stretch> one, List<Stretch> other) {
    double[] ends = new double[2 * (one.size() + other.size())];
    int n = 0;
    for (List<Stretch> list : List.of(one, other)) {
      for (Stretch s : list) {
        ends[n++] = s.fromM;
        ends[n++] = s.toM;
      }
    }
    Arrays.sort(ends);
    Pieces upper = new Pieces();
    int i = 0;
    int k = 0;
    for (int e = 1; e < n; e++) {
      double a = ends[e - 1];
      double b = ends[e];
      if (b - a < THIN_M / 100) {
        continue;
      }
      while (i < one.size() && one.get(i).toM <= a) {
        i++;
      }
      while (k < other.size() && other.get(k).toM <= a) {
        k++;
      }
      Stretch f = i < one.size() && one.get(i).fromM <= a ? one.get(i) : null;
      Stretch g = k < other.size() && other.get(k).fromM <= a ? other.get(k) : null;
      if (f == null || g == null) {
        upper.add(f == null ? g : f, a, b);
        continue;
      }
      double moreA = f.at(a) - g.at(a);
      double moreB = f.at(b) - g.at(b);
      if (moreA >= -GAIN_M2 && moreB >= -GAIN_M2) {
        upper.add(f, a, b);
      } else if (moreA * moreB >= 0) {
        upper.add(g, a, b);
      } else {
        double cross = Math.min(b, Math.max(a, a + (b - a) * moreA / (moreA - moreB)));
        upper.add(moreA > 0 ? f : g, a, cross);
        upper.add(moreA > 0 ? g : f, cross, b);
      }
    }
    return upper.list;
  }

  /** Pieces of stretches in a row; those of one stretch that touch are one piece. */
  private static final class Pieces {
    private final List<Stretch> list = new ArrayList<>();
    private Stretch source;

    void add(Stretch s, double a, double b) {
      if (s == null || !(b > a)) {
        return;
      }
      int last = list.size() - 1;
      if (s.equals(source) && list.get(last).toM == a) {
        Stretch before = list.get(last);
        list.set(last, new Stretch(before.fromM, before.fromM2, b, s.at(b)));
      } else {
        list.add(new Stretch(a, s.at(a), b, s.at(b)));
      }
      source = s;
    }
  }

  /**
   * The same after a drop: the pipe goes on at any invert from {@code lowM} up to the one at which
   * it arrives.
   */
  AreaByInvert dropped(double lowM) {
    AreaByInvert dropped = new AreaByInvert();
    for (Stretch s : stretches) {
      dropped.raise(List.of(new double[] {s.fromM, s.fromM2}, new double[] {s.toM, s.toM2}));
      double low = Math.min(lowM, lowestM());
      boolean falls = s.fromM2 >= s.toM2;
      double top = falls ? s.fromM : s.toM;
      double area = Math.max(s.fromM2, s.toM2);
      if (low < top) {
        dropped.raise(List.of(new double[] {low, area}, new double[] {top, area}));
      }
    }
    return dropped;
  }

  /** Lowest invert, at least the given one, at which a pipe of at least such an area arrives. */
  double lowestFrom(double invertM, double areaM2) {
    double best = Double.NaN;
    for (Stretch s : stretches) {
      for (double v : new double[] {Math.min(Math.max(invertM, s.fromM), s.toM), s.toM}) {
        if (v >= invertM && s.at(v) >= areaM2 - 1e-9 && !(best <= v)) {
          best = v;
        }
      }
    }
    return best;
  }
}
