package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The least that a trunk has cost when it comes to a cell, if the pipe lay everywhere as high as
 * its cover and its fall straight from the starts let it, and no turn cost anything: never more
 * than the truth, since a metre never gets dearer by being higher. Found from the starts outward by
 * Dijkstra's algorithm, only as far as is asked: where a trunk is sought that costs no more than a
 * limit, no cell beyond that limit is needed, whatever the ground, the prices or the obstacles
 * there.
 */
final class CostSoFar {

  /** Share of room for rounding, so that no cell is ever left out that a trunk may need. */
  private static final double ROUNDING = 1e-9;

  private static final double ROUNDING_M = 1e-7;

  /** Cells known at the first stage. */
  private static final int FIRST_CELLS = 512;

  private final StepGraph graph;
  private final StepCost cost;
  private final Bounds bounds;
  private final List<TrunkFinder.Start> starts;
  private final double[] least;

  /** Highest invert that a pipe can have, of the cells that were come to. */
  private final double[] topM;

  private final CellHeap heap = new CellHeap();
  private final List<Double> limits = new ArrayList<>();
  private int known;

  CostSoFar(RouteGround ground, List<TrunkFinder.Start> starts, Bounds bounds, StepCost cost) {
    this.graph = ground.graph();
    this.cost = cost;
    this.bounds = bounds;
    this.starts = starts;
    this.topM = new double[graph.frame.size()];
    this.least = new double[graph.frame.size()];
    Arrays.fill(least, Double.POSITIVE_INFINITY);
    for (TrunkFinder.Start start : starts) {
      for (StepGraph.Link link : start.links(ground)) {
        if (mayCome(link.cell())) {
          double v = Math.min(start.invertM(), topM[link.cell()]);
          propose(link.cell(), start.cost() + cost.line(link.line(), start.invertM(), v));
        }
      }
    }
  }

  /**
   * The cost up to which cells are known at a stage; each knows twice as many as the one before.
   *
   * @return infinite where every cell is known to which there is a way at all
   */
  double upTo(int stage) {
    while (limits.size() <= stage) {
      while (!heap.isEmpty() && known < FIRST_CELLS << limits.size()) {
        next();
      }
      limits.add(heap.isEmpty() ? Double.POSITIVE_INFINITY : heap.topKey());
    }
    return limits.get(stage);
  }

  /** Whether a trunk can have come to a cell for less than a cost up to which cells are known. */
  boolean within(int cell, double limit) {
    return least[cell] <= limit * (1 + ROUNDING);
  }

  /** The same, and as high as asked. */
  boolean within(int cell, double limit, double askedM) {
    return within(cell, limit) && topM[cell] >= askedM - ROUNDING_M;
  }

  /** Takes the next cell and proposes those after it. */
  private void next() {
    double key = heap.topKey();
    int n = heap.remove();
    if (key > least[n]) {
      return;
    }
    known++;
    for (int left = graph.out[n]; left != 0; left &= left - 1) {
      int k = Integer.numberOfTrailingZeros(left);
      int to = graph.target(n, k);
      if (key < least[to] && mayCome(to)) {
        propose(to, key + cost.step(n, k, topM[n], topM[to]));
      }
    }
    for (StepGraph.Bore bore : graph.boresFrom(n)) {
      if (mayCome(bore.to())) {
        propose(bore.to(), key + cost.line(bore.line(), topM[n], topM[bore.to()]));
      }
    }
  }

  /** Whether a pipe may come to a cell so high that it is not too deep. */
  private boolean mayCome(int cell) {
    if (least[cell] == Double.POSITIVE_INFINITY) {
      topM[cell] = Math.min(bounds.highest(graph.groundM(cell)), straightM(cell));
    }
    return topM[cell] >= bounds.lowest(graph.groundM(cell)) - ROUNDING_M;
  }

  /** Highest invert of a pipe that falls at the least grade straight from a start. */
  private double straightM(int cell) {
    double x = graph.frame.x(cell % graph.frame.cols());
    double y = graph.frame.y(cell / graph.frame.cols());
    double highest = Double.NEGATIVE_INFINITY;
    for (TrunkFinder.Start start : starts) {
      double dx = x - start.at().x;
      double dy = y - start.at().y;
      double fallM = bounds.minGrade() * Math.sqrt(dx * dx + dy * dy);
      highest = Math.max(highest, start.invertM() - fallM + ROUNDING_M);
    }
    return highest;
  }

  private void propose(int n, double sum) {
    if (sum < least[n]) {
      least[n] = sum;
      heap.add(n, sum);
    }
  }
}
