package org.yardfall.route;

import java.util.Arrays;
import java.util.List;

/**
 * The highest invert that a pipe can have at each cell, from whichever start and by whichever way
 * it comes: found from the starts downstream by Dijkstra's algorithm for the highest invert. It
 * depends on where the pipe starts and on the bounds, not on what is to be least.
 */
final class HighestInverts {

  private static final double EPSILON_M = 1e-9;

  private final StepGraph graph;
  private final Bounds bounds;
  private final StepFalls falls;
  private final double[] reachM;
  private final double[] invertM;
  private final CellHeap heap = new CellHeap();

  private HighestInverts(StepGraph graph, Bounds bounds, GravityReach reach) {
    this.graph = graph;
    this.bounds = bounds;
    this.falls = graph.falls(bounds);
    this.reachM = reach.invertM();
    this.invertM = new double[graph.frame.size()];
    Arrays.fill(invertM, Double.NEGATIVE_INFINITY);
  }

  /**
   * The highest inverts in metres by cell; −infinity where no pipe comes that can still arrive.
   *
   * @param reach gravity reach of the outlets within the same bounds
   */
  static double[] of(
      RouteGround ground, List<TrunkFinder.Start> starts, Bounds bounds, GravityReach reach) {
    HighestInverts finder = new HighestInverts(ground.graph(), bounds, reach);
    for (TrunkFinder.Start start : starts) {
      for (StepGraph.Link link : start.links(ground)) {
        finder.raise(link.cell(), StepGraph.highestAtEnd(link.line(), start.invertM(), bounds));
      }
    }
    finder.descend();
    return finder.invertM;
  }

  private void descend() {
    while (!heap.isEmpty()) {
      double invert = -heap.topKey();
      int n = heap.remove();
      if (invert < invertM[n]) {
        continue;
      }
      for (int left = graph.out[n]; left != 0; left &= left - 1) {
        int k = Integer.numberOfTrailingZeros(left);
        int to = graph.target(n, k);
        double fallen = invert - falls.fallM(k);
        if (TrunkFinder.mayBe(fallen, reachM[to]) && TrunkFinder.mayBe(fallen, invertM[to])) {
          raise(to, falls.highestAtEnd(n, k, invert, bounds));
        }
      }
      for (StepGraph.Bore bore : graph.boresFrom(n)) {
        raise(bore.to(), StepGraph.highestAtEnd(bore.line(), invert, bounds));
      }
    }
  }

  private void raise(int n, double invert) {
    if (invert > invertM[n] && invert >= reachM[n] - EPSILON_M) {
      invertM[n] = invert;
      heap.add(n, -invert);
    }
  }
}
