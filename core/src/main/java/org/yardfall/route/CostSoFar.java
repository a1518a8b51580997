package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The least that a trunk has cost when it comes to a cell, if the pipe lay everywhere as high as
 * its cover lets it and no turn cost anything: never more than the truth, since a metre never gets
 * dearer by being higher. Found from the starts outward by Dijkstra's algorithm, only as far as is
 * asked: where a trunk is sought that costs no more than a limit, no cell beyond that limit is
 * needed, whatever the ground, the prices or the obstacles there.
 */
final class CostSoFar {

  /** Share of room for rounding, so that no cell is ever left out that a trunk may need. */
  private static final double ROUNDING = 1e-9;

  /** Cells known at the first stage. */
  private static final int FIRST_CELLS = 512;

  private final StepGraph graph;
  private final StepCost cost;
  private final Bounds bounds;
  private final double[] least;
  private final CellHeap heap = new CellHeap();
  private final List<Double> limits = new ArrayList<>();
  private int known;

  CostSoFar(RouteGround ground, List<TrunkFinder.Start> starts, Bounds bounds, StepCost cost) {
    this.graph = ground.graph();
    this.cost = cost;
    this.bounds = bounds;
    this.least = new double[graph.frame.size()];
    Arrays.fill(least, Double.POSITIVE_INFINITY);
    for (TrunkFinder.Start start : starts) {
      for (StepGraph.Link link : start.links(ground)) {
        double v = Math.min(start.invertM(), highestM(link.cell()));
        propose(link.cell(), start.cost() + cost.line(link.line(), start.invertM(), v));
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

  /** Takes the next cell and proposes those after it. */
  private void next() {
    double key = heap.topKey();
    int n = heap.remove();
    if (key > least[n]) {
      return;
    }
    known++;
    double top = highestM(n);
    for (int left = graph.out[n]; left != 0; left &= left - 1) {
      int k = Integer.numberOfTrailingZeros(left);
      int to = graph.target(n, k);
      if (key < least[to]) {
        propose(to, key + cost.step(n, k, top, highestM(to)));
      }
    }
    for (StepGraph.Bore bore : graph.boresFrom(n)) {
      propose(bore.to(), key + cost.line(bore.line(), top, highestM(bore.to())));
    }
  }

  private double highestM(int cell) {
    return bounds.highest(graph.groundM(cell));
  }

  private void propose(int n, double sum) {
    if (sum < least[n]) {
      least[n] = sum;
      heap.add(n, sum);
    }
  }
}
