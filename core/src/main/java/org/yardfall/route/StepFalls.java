package org.yardfall.route;

import java.util.concurrent.atomic.AtomicReferenceArray;

/**
 * How a pipe falls along each of the stencil's steps at one least grade, worked out from all the
 * ground that the step crosses.
 *
 * <p>With F the fall from a step's top to a place on it, three figures say for any bounds of that
 * grade where the pipe can lie: the greatest of ground + F (what the depth allows), the least of
 * ground + F (what the cover allows), and the greatest rise of the first above the second on the
 * way down. So a step costs a few comparisons however much ground it crosses; the figures of a cell
 * are kept from the first search that comes by.
 *
 * <p>Safe for use by several threads.
 */
final class StepFalls {

  private static final double EPSILON_M = 1e-9;

  /** Figures of a step: the last place is kept apart, as only the way down looks at it. */
  private static final int FIGURES = 5;

  private static final int PEAK = 0;
  private static final int FLOOR = 1;
  private static final int HUMP = 2;
  private static final int END_HIGH = 3;
  private static final int END_LOW = 4;

  /** Figures of more cells than this would take too much memory and are worked out each time. */
  private static final int MOST_KEPT = 1_000_000;

  private final StepGraph graph;
  private final double minGrade;
  private final double[] fallM;
  private final AtomicReferenceArray<double[]> kept;

  StepFalls(StepGraph graph, double minGrade) {
    this.graph = graph;
    this.minGrade = minGrade;
    this.fallM = new double[graph.stencil.steps];
    for (int k = 0; k < fallM.length; k++) {
      fallM[k] = minGrade * graph.stencil.length[k] * graph.frame.cellM();
    }
    this.kept = new AtomicReferenceArray<>(Math.min(MOST_KEPT, graph.frame.size()));
  }

  /** The least grade. */
  double minGrade() {
    return minGrade;
  }

  /** Least fall along a step in metres. */
  double fallM(int k) {
    return fallM[k];
  }

  /**
   * Lowest invert at the upper end of a step from which a pipe falls to the given invert at its
   * lower end; infinite where none does.
   */
  double lowestAtTop(int n, int k, double endInvertM, Bounds b) {
    if ((graph.special[n] >> k & 1) != 0) {
      return graph.specialLine(n, k).lowestAtTop(endInvertM, b);
    }
    double[] figures = figures(n);
    int at = FIGURES * k;
    double covered = b.minCoverM() + b.outsideM();
    double v = endInvertM + fallM[k];
    if (v > figures[at + FLOOR] - covered + EPSILON_M
        || figures[at + HUMP] - b.maxDepthM() > EPSILON_M - covered) {
      return Double.POSITIVE_INFINITY;
    }
    return Math.max(v, figures[at + PEAK] - b.maxDepthM());
  }

  /**
   * Highest invert at the lower end of a step for a pipe that starts no higher than given;
   * −infinity where none stays within the depth.
   */
  double highestAtEnd(int n, int k, double topInvertM, Bounds b) {
    if ((graph.special[n] >> k & 1) != 0) {
      return StepGraph.highestAtEnd(graph.specialLine(n, k), topInvertM, b);
    }
    double[] figures = figures(n);
    int at = FIGURES * k;
    double covered = b.minCoverM() + b.outsideM();
    double fall = fallM[k];
    double endHigh = figures[at + END_HIGH] + fall;
    double floor = Math.min(figures[at + FLOOR], figures[at + END_LOW] + fall);
    double peak = Math.max(figures[at + PEAK], endHigh);
    double hump = Math.max(figures[at + HUMP], endHigh - floor);
    if (topInvertM < peak - b.maxDepthM() - EPSILON_M
        || hump - b.maxDepthM() > EPSILON_M - covered) {
      return Double.NEGATIVE_INFINITY;
    }
    return Math.min(topInvertM, floor - covered) - fall;
  }

  private double[] figures(int n) {
    if (n >= kept.length()) {
      return work(n);
    }
    double[] known = kept.getAcquire(n);
    if (known == null) {
      known = work(n);
      kept.setRelease(n, known);
    }
    return known;
  }

  private double[] work(int n) {
    int steps = fallM.length;
    double[] figures = new double[FIGURES * steps];
    double[] low = new double[graph.mostLooks()];
    double[] high = new double[graph.mostLooks()];
    for (int k = 0; k < steps; k++) {
      if (((graph.out[n] & ~graph.special[n]) >> k & 1) == 0) {
        continue;
      }
      int last = graph.look(n, k, low, high) - 1;
      double[] share = graph.stencil.share[k];
      double peak = Double.NEGATIVE_INFINITY;
      double floor = Double.POSITIVE_INFINITY;
      double hump = Double.NEGATIVE_INFINITY;
      for (int i = 0; i < last; i++) {
        double fall = fallM[k] * share[i];
        floor = Math.min(floor, low[i] + fall);
        peak = Math.max(peak, high[i] + fall);
        hump = Math.max(hump, high[i] + fall - floor);
      }
      int at = FIGURES * k;
      figures[at + PEAK] = peak;
      figures[at + FLOOR] = floor;
      figures[at + HUMP] = hump;
      figures[at + END_HIGH] = high[last];
      figures[at + END_LOW] = low[last];
    }
    return figures;
  }
}
