package org.yardfall.route;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Finds from where, and how low, a pipe can fall to an outlet.
 *
 * <p>The lowest usable invert R is found from the outlets upstream, cell by cell in order of R: a
 * step from n down to c gives {@code R(n) = max(R(c) + grade · length, ground − greatest depth)}
 * taken over all ground between, and is usable while that stays under the ground by cover and pipe.
 * Each step is a non-decreasing function that never gives less than it was given, which is all that
 * Dijkstra's algorithm needs to be exact on the graph (Dijkstra 1959, "A note on two problems in
 * connexion with graphs"; the generalisation to such functions is Knuth 1977, "A generalization of
 * Dijkstra's algorithm").
 *
 * <p>Time O(n log n) in the cells, a constant number of steps each.
 */
public final class GravityReachFinder {

  private final StepGraph graph;
  private final RouteGround ground;
  private final Bounds bounds;
  private final double[] invertM;
  private final int[] outlet;
  private final CellHeap heap = new CellHeap();

  private GravityReachFinder(RouteGround ground, Bounds bounds) {
    this.ground = ground;
    this.graph = ground.graph();
    this.bounds = bounds;
    this.invertM = new double[graph.frame.size()];
    this.outlet = new int[graph.frame.size()];
    Arrays.fill(invertM, Double.NaN);
    Arrays.fill(outlet, -1);
  }

  /**
   * The gravity reach of the outlets together; where several are reached the lowest invert wins.
   */
  public static GravityReach find(RouteGround ground, List<OutletTarget> outlets, Bounds bounds) {
    GravityReachFinder finder = new GravityReachFinder(ground, bounds);
    for (int i = 0; i < outlets.size(); i++) {
      finder.start(outlets.get(i), i);
    }
    finder.climb();
    return new GravityReach(
        ground.frame(),
        outlets.stream().map(OutletTarget::id).toList(),
        finder.invertM,
        finder.outlet);
  }

  private void start(OutletTarget target, int index) {
    for (StepGraph.Link link : outletLinks(ground, target)) {
      OptionalDouble top =
          link.line().lowestAtTop(target.invertM() - bounds.outletLoweredM(), bounds);
      if (top.isPresent()) {
        reach(link.cell(), top.getAsDouble(), index);
      }
    }
  }

  /** Ways into an outlet from the cells around it. */
  static List<StepGraph.Link> outletLinks(RouteGround ground, OutletTarget target) {
    double within = ground.settings().daylightWithinM(ground.frame().cellM());
    return ground.graph().links(target.at(), within, true).stream()
        .map(link -> new StepGraph.Link(link.cell(), target.ending(link.line(), ground)))
        .toList();
  }

  private void climb() {
    int steps = graph.stencil.steps;
    while (!heap.isEmpty()) {
      double key = heap.topKey();
      int c = heap.remove();
      if (key > invertM[c]) {
        continue;
      }
      for (int k = 0; k < steps; k++) {
        int n = graph.source(c, k);
        if (n >= 0 && (graph.out[n] >> k & 1) != 0 && !(invertM[n] <= key)) {
          reach(n, graph.lowestAtTop(n, k, key, bounds), outlet[c]);
        }
      }
      for (StepGraph.Bore bore : graph.boresTo(c)) {
        OptionalDouble top = bore.line().lowestAtTop(key, bounds);
        if (top.isPresent()) {
          reach(bore.from(), top.getAsDouble(), outlet[c]);
        }
      }
    }
  }

  private void reach(int n, double invert, int to) {
    if (invert != Double.POSITIVE_INFINITY && !(invertM[n] <= invert)) {
      invertM[n] = invert;
      outlet[n] = to;
      heap.add(n, invert);
    }
  }
}
