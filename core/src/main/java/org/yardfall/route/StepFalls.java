package org.yardfall.route;

/**
 * How a pipe falls along each of the stencil's steps at one least grade, worked out from all the
 * ground that the step crosses.
 *
 * <p>With F the fall from a step's top to a place on it, three figures say for any bounds of that
 * grade where the pipe can lie: the greatest of ground + F (what the depth allows), the least of
 * ground + F (what the cover allows), and the greatest rise of the first above the second on the
 * way down. So a step costs a few comparisons however much ground it crosses.
 *
 * <p>The figures of a cell may be kept from the first search that comes by; then several threads
 * may use them. Figures that are not kept belong to one search.
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

  private final StepGraph graph;
  private final double minGrade;
  private final double[] fallM;
  private final double[] one = new double[FIGURES];
  private final double[] low;
  private final double[] high;

  /**
   * Figures of a cell's steps. A final field, so that another thread that sees them at all sees
   * them whole; no search waits for another.
   */
  @SuppressWarnings("ArrayRecordComponent") // read in hot loops, never handed out
  private record Kept(double[] figures) {}

  /** Figures by cell; without a place for a cell they are worked out each time. */
  private final Kept[] kept;

  private StepFalls(StepGraph graph, double minGrade, int keep) {
    this.graph = graph;
    this.minGrade = minGrade;
    this.fallM = new double[graph.stencil.steps];
    for (int k = 0; k < fallM.length; k++) {
      fallM[k] = minGrade * graph.stencil.length[k] * graph.frame.cellM();
    }
    this.low = new double[graph.mostLooks()];
    this.high = new double[graph.mostLooks()];
    this.kept = new Kept[keep];
  }

  /** Falls at a grade that many searches use, also at once. */
  static StepFalls kept(StepGraph graph, double minGrade) {
    return new StepFalls(graph, minGrade, graph.frame.size());
  }

  /** Falls at a grade, for one search. */
  static StepFalls once(StepGraph graph, double minGrade) {
    return new StepFalls(graph, minGrade, 0);
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
    double[] figures = figures(n, k);
    int at = kept.length == 0 ? 0 : FIGURES * k;
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
    double[] figures = figures(n, k);
    int at = kept.length == 0 ? 0 : FIGURES * k;
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

  /** Figures of a cell's steps, or of the one asked for. */
  private double[] figures(int n, int k) {
    if (kept.length == 0) {
      work(n, k, one, 0, low, high);
      return one;
    }
    Kept known = kept[n];
    if (known == null) {
      known = new Kept(work(n));
      kept[n] = known;
    }
    return known.figures;
  }

  private double[] work(int n) {
    double[] figures = new double[FIGURES * fallM.length];
    double[] lowest = new double[low.length];
    double[] highest = new double[high.length];
    int steps = graph.out[n] & ~graph.special[n];
    for (int k = 0; k < fallM.length; k++) {
      if ((steps >> k & 1) != 0) {
        work(n, k, figures, FIGURES * k, lowest, highest);
      }
    }
    return figures;
  }

  private void work(int n, int k, double[] figures, int at, double[] lowest, double[] highest) {
    int last = graph.look(n, k, lowest, highest) - 1;
    double[] share = graph.stencil.share[k];
    double peak = Double.NEGATIVE_INFINITY;
    double floor = Double.POSITIVE_INFINITY;
    double hump = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < last; i++) {
      double fall = fallM[k] * share[i];
      floor = Math.min(floor, lowest[i] + fall);
      peak = Math.max(peak, highest[i] + fall);
      hump = Math.max(hump, highest[i] + fall - floor);
    }
    figures[at + PEAK] = peak;
    figures[at + FLOOR] = floor;
    figures[at + HUMP] = hump;
    figures[at + END_HIGH] = highest[last];
    figures[at + END_LOW] = lowest[last];
  }
}
