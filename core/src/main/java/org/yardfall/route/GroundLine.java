package org.yardfall.route;

import java.util.Arrays;

/**
 * The ground along a line, as close as it must be looked at for a pipe to be judged everywhere and
 * not only at the line's ends.
 *
 * <p>Between two neighbouring places the true ground is a parabola. {@link #lowM} lies below the
 * ground by at least the parabola's bow and {@link #highM} above it, so a pipe that keeps cover
 * under the low and depth under the high ground at both places keeps them in between.
 */
@SuppressWarnings("ArrayRecordComponent")
public final class GroundLine {

  private static final double EPSILON_M = 1e-9;

  final double[] stationM;
  final double[] x;
  final double[] y;
  final double[] groundM;
  final double[] lowM;
  final double[] highM;

  /** Elevation that the pipe's top must stay under, apart from cover; infinite where none. */
  final double[] ceilingM;

  /** Elevation that the invert must not lie below, apart from depth; −infinite where none. */
  final double[] floorM;

  /** How the stretch from each place to the next is built; one shorter than the rest. */
  final Station.Span[] span;

  /** Places that are bends of the line, its ends included. */
  final boolean[] vertex;

  /** Places where neither cover nor depth is asked: an outlet and the daylight before it. */
  final boolean[] free;

  GroundLine(
      double[] stationM,
      double[] x,
      double[] y,
      double[] groundM,
      double[] lowM,
      double[] highM,
      double[] ceilingM,
      double[] floorM,
      Station.Span[] span,
      boolean[] vertex,
      boolean[] free) {
    this.stationM = stationM;
    this.x = x;
    this.y = y;
    this.groundM = groundM;
    this.lowM = lowM;
    this.highM = highM;
    this.ceilingM = ceilingM;
    this.floorM = floorM;
    this.span = span;
    this.vertex = vertex;
    this.free = free;
  }

  /** Number of places. */
  public int size() {
    return stationM.length;
  }

  /** Length in metres. */
  public double lengthM() {
    return stationM[stationM.length - 1];
  }

  /** Distance of a place from the upper end in metres. */
  public double stationM(int i) {
    return stationM[i];
  }

  /** Ground at a place in metres. */
  public double groundM(int i) {
    return groundM[i];
  }

  /** Length of the longest bore in metres. */
  double boredM() {
    double longest = 0;
    double run = 0;
    for (int i = 0; i < span.length; i++) {
      run = bored(i) ? run + stationM[i + 1] - stationM[i] : 0;
      longest = Math.max(longest, run);
    }
    return longest;
  }

  /** Whether every bore is as long as it must be at least and at most. */
  boolean boresWithin(double leastM, double mostM) {
    double run = 0;
    for (int i = 0; i < span.length; i++) {
      if (bored(i)) {
        run += stationM[i + 1] - stationM[i];
      }
      boolean ends = run > 0 && (i + 1 == span.length || !bored(i + 1));
      if (ends && (run < leastM || run > mostM + EPSILON_M)) {
        return false;
      }
      run = ends ? 0 : run;
    }
    return true;
  }

  boolean bored(int i) {
    return span[i] == Station.Span.BORED;
  }

  /** Whether the place lies within a bore, not at its end. */
  boolean inBore(int i) {
    return i > 0 && i < span.length && bored(i - 1) && bored(i);
  }

  /** Highest invert at a place in metres. */
  public double highestM(int i, Bounds b) {
    boolean touches = (i > 0 && bored(i - 1)) || (i < span.length && bored(i));
    double ceiling = ceilingM[i] - (touches ? b.crossingOutsideM() : b.outsideM());
    if (free[i]) {
      return ceiling;
    }
    double cover = lowM[i] - b.minCoverM() - (inBore(i) ? b.crossingOutsideM() : b.outsideM());
    return Math.min(cover, ceiling);
  }

  /** Lowest invert at a place in metres: the depth limit is one of open trench, not of bores. */
  public double lowestM(int i, Bounds b) {
    return free[i] || inBore(i)
        ? Double.NEGATIVE_INFINITY
        : Math.max(highM[i] - b.maxDepthM(), floorM[i]);
  }

  /**
   * Lowest invert at the upper end from which a pipe falls to the given invert at the lower end;
   * infinite where none does. Non-decreasing in the argument and never below it.
   */
  double lowestAtTop(double endInvertM, Bounds b) {
    double v = endInvertM;
    for (int i = stationM.length - 1; i > 0; ) {
      int up = bored(i - 1) ? boreTop(i - 1) : i - 1;
      double lower = v;
      v = Math.max(v + b.minGrade() * (stationM[i] - stationM[up]), lowestM(up, b));
      if (v > highestM(up, b) + EPSILON_M) {
        return Double.POSITIVE_INFINITY;
      }
      for (int k = up + 1; k < i; k++) {
        double run = stationM[i] - stationM[up];
        double there = run == 0 ? v : v - (v - lower) * (stationM[k] - stationM[up]) / run;
        if (there > highestM(k, b) + EPSILON_M) {
          return Double.POSITIVE_INFINITY;
        }
      }
      i = up;
    }
    return v;
  }

  /**
   * Inverts of the lowest line that falls to the given invert at the lower end; NaN upstream of
   * where none does.
   */
  double[] lowestUp(double endInvertM, Bounds b) {
    int n = stationM.length;
    double[] v = new double[n];
    Arrays.fill(v, Double.NaN);
    v[n - 1] = Math.max(endInvertM, lowestM(n - 1, b));
    for (int i = n - 1; i > 0; ) {
      int up = bored(i - 1) ? boreTop(i - 1) : i - 1;
      double run = stationM[i] - stationM[up];
      double top = Math.max(v[i] + b.minGrade() * run, lowestM(up, b));
      for (int k = up; k < i; k++) {
        double share = run == 0 ? 0 : (stationM[k] - stationM[up]) / run;
        v[k] = top + share * (v[i] - top);
        if (v[k] > highestM(k, b) + EPSILON_M) {
          Arrays.fill(v, up, i, Double.NaN);
          return v;
        }
      }
      i = up;
    }
    return v;
  }

  private int boreTop(int from) {
    int i = from;
    while (i > 0 && bored(i - 1)) {
      i--;
    }
    return i;
  }

  /**
   * Inverts of the highest line that falls along the whole line and starts no higher than given, or
   * null where none stays within the depth. Bores are straight.
   */
  double[] highestDown(double topInvertM, Bounds b) {
    double[] v = highestAsFar(topInvertM, b);
    return Double.isNaN(v[v.length - 1]) ? null : v;
  }

  /** The same as far as it gets; NaN from where it does not stay within the depth. */
  double[] highestAsFar(double topInvertM, Bounds b) {
    int n = stationM.length;
    double[] v = new double[n];
    Arrays.fill(v, Double.NaN);
    double top = Math.min(topInvertM, highestM(0, b));
    if (top < lowestM(0, b) - EPSILON_M) {
      return v;
    }
    v[0] = top;
    for (int i = 0; i < n - 1; ) {
      int from = i;
      if (bored(i)) {
        i = boreDown(v, i, b);
        if (i < 0) {
          return v;
        }
      } else {
        v[i + 1] =
            Math.min(v[i] - b.minGrade() * (stationM[i + 1] - stationM[i]), highestM(i + 1, b));
        i++;
      }
      if (v[i] < lowestM(i, b) - EPSILON_M) {
        Arrays.fill(v, from + 1, n, Double.NaN);
        return v;
      }
    }
    return v;
  }

  /** Lays a straight bore from a place; returns its lower end, or −1 where it does not fit. */
  private int boreDown(double[] v, int top, Bounds b) {
    int end = top + 1;
    while (end < span.length && bored(end)) {
      end++;
    }
    double start = v[top];
    for (int k = top + 1; k <= end; k++) {
      start = Math.min(start, highestM(k, b) + b.minGrade() * (stationM[k] - stationM[top]));
    }
    start = Math.max(start, lowestM(top, b));
    if (start > v[top] + EPSILON_M) {
      return -1;
    }
    double run = stationM[end] - stationM[top];
    double last = start - b.minGrade() * run;
    for (int k = top + 1; k <= end; k++) {
      double share = (stationM[k] - stationM[top]) / run;
      last = Math.min(last, (highestM(k, b) - start * (1 - share)) / share);
    }
    v[top] = start;
    for (int k = top + 1; k <= end; k++) {
      v[k] = start + (last - start) * (stationM[k] - stationM[top]) / run;
    }
    return end;
  }

  /** This line followed by another that starts where it ends. */
  GroundLine then(GroundLine next) {
    int n = stationM.length;
    int m = next.stationM.length;
    double[] s = Arrays.copyOf(stationM, n + m - 1);
    for (int i = 1; i < m; i++) {
      s[n - 1 + i] = lengthM() + next.stationM[i];
    }
    double[] low = join(lowM, next.lowM);
    double[] high = join(highM, next.highM);
    double[] ceiling = join(ceilingM, next.ceilingM);
    double[] floor = join(floorM, next.floorM);
    low[n - 1] = Math.min(lowM[n - 1], next.lowM[0]);
    high[n - 1] = Math.max(highM[n - 1], next.highM[0]);
    ceiling[n - 1] = Math.min(ceilingM[n - 1], next.ceilingM[0]);
    floor[n - 1] = Math.max(floorM[n - 1], next.floorM[0]);
    Station.Span[] spans = Arrays.copyOf(span, n + m - 2);
    System.arraycopy(next.span, 0, spans, n - 1, m - 1);
    boolean[] bends = Arrays.copyOf(vertex, n + m - 1);
    System.arraycopy(next.vertex, 1, bends, n, m - 1);
    boolean[] frees = Arrays.copyOf(free, n + m - 1);
    System.arraycopy(next.free, 1, frees, n, m - 1);
    return new GroundLine(
        s,
        join(x, next.x),
        join(y, next.y),
        join(groundM, next.groundM),
        low,
        high,
        ceiling,
        floor,
        spans,
        bends,
        frees);
  }

  private static double[] join(double[] a, double[] b) {
    double[] joined = Arrays.copyOf(a, a.length + b.length - 1);
    System.arraycopy(b, 1, joined, a.length, b.length - 1);
    return joined;
  }

  /** The same with the pipe kept no higher than given at the place nearest to a station. */
  GroundLine noHigherAt(double station, double invertM, double outsideM) {
    int at = nearest(station);
    double[] lower = ceilingM.clone();
    lower[at] = Math.min(lower[at], invertM + outsideM);
    return new GroundLine(stationM, x, y, groundM, lowM, highM, lower, floorM, span, vertex, free);
  }

  /** The place nearest to a station. */
  int nearest(double station) {
    int at = 0;
    for (int i = 1; i < stationM.length; i++) {
      if (Math.abs(stationM[i] - station) < Math.abs(stationM[at] - station)) {
        at = i;
      }
    }
    return at;
  }

  /** The same, ending at an outlet: nothing is asked there, nor in the last metres before. */
  GroundLine endingFree(double lastM) {
    boolean[] frees = free.clone();
    for (int i = 0; i < frees.length; i++) {
      // the first place within the free metres still counts: the pipe before it leads up to it
      frees[i] |=
          i == frees.length - 1 || (i > 0 && stationM[i - 1] >= lengthM() - lastM - EPSILON_M);
    }
    return new GroundLine(
        stationM, x, y, groundM, lowM, highM, ceilingM, floorM, span, vertex, frees);
  }

  /**
   * The same with the pipe's top, where nothing is asked, kept under the ground or under a line
   * that falls to the given elevation at the end, whichever is higher.
   */
  GroundLine lowWhereFree(double endTopM, double grade) {
    double[] lower = ceilingM.clone();
    for (int i = 0; i < lower.length; i++) {
      if (free[i]) {
        double least = endTopM + grade * (lengthM() - stationM[i]);
        lower[i] = Math.min(lower[i], Math.max(lowM[i], least));
      }
    }
    return new GroundLine(stationM, x, y, groundM, lowM, highM, lower, floorM, span, vertex, free);
  }
}
