package org.yardfall.route;

import java.util.Arrays;
import java.util.List;

/**
 * The least that a trunk can cost from a cell to an outlet, its turns included, if the pipe lay at
 * every cell as high as any pipe can lie there: never more than the truth.
 *
 * <p>A way is known by the cell and the direction in which it leaves. Whoever arrives in that
 * direction goes on by it without a turn; whoever arrives in another direction goes on by the least
 * way of all, and turns for no less than the cheapest turn there is. So of the ways of a cell only
 * those count that cost less than the least one and a turn; found from the outlets upstream by
 * Dijkstra's algorithm.
 */
final class CostToGo {

  private final StepGraph graph;
  private final StepCost cost;
  private final double[] highestM;
  private final int steps;
  private final double turn;

  /** Cost of the least way by cell, found or not yet. */
  private final double[] least;

  /** Cost of the ways that go on without a turn, by cell and direction of arrival. */
  private final double[][] onward;

  private final CellHeap heap = new CellHeap();

  /**
   * An arrival at an outlet from a cell.
   *
   * @param cell the cell
   * @param cost cost of the rest, no less than the truth
   */
  record End(int cell, double cost) {}

  private CostToGo(StepGraph graph, StepCost cost, double[] highestM) {
    this.graph = graph;
    this.cost = cost;
    this.highestM = highestM;
    this.steps = graph.stencil.steps;
    this.turn = cost.leastTurn();
    this.least = new double[graph.frame.size()];
    Arrays.fill(least, Double.POSITIVE_INFINITY);
    this.onward = new double[graph.frame.size()][];
  }

  /** The costs to go to the given ends, with the highest inverts of {@link HighestInverts}. */
  static CostToGo of(StepGraph graph, StepCost cost, double[] highestM, List<End> ends) {
    CostToGo toGo = new CostToGo(graph, cost, highestM);
    for (End end : ends) {
      toGo.propose(end.cell(), toGo.steps, end.cost());
    }
    toGo.climb();
    return toGo;
  }

  /** Whether any way leads on from a cell. */
  boolean any(int n) {
    return least[n] < Double.POSITIVE_INFINITY;
  }

  /** Least cost from a cell to an outlet for a pipe that arrives in a direction; −1: in none. */
  double from(int n, int came) {
    return came < 0 ? least[n] : arrived(n, came);
  }

  private double arrived(int n, int came) {
    double turned = least[n] + turn;
    return onward[n] == null ? turned : Math.min(turned, onward[n][came]);
  }

  private void climb() {
    while (!heap.isEmpty()) {
      double key = heap.topKey();
      int item = heap.remove();
      int n = item / (steps + 1);
      int k = item % (steps + 1);
      boolean first = onward[n] == null;
      if (first) {
        onward[n] = new double[steps];
        Arrays.fill(onward[n], Double.POSITIVE_INFINITY);
      } else if (key >= least[n] + turn) {
        continue;
      }
      for (int came = 0; came < steps; came++) {
        boolean straight = k == steps || cost.turn(came, k) == 0;
        if (straight && key < onward[n][came]) {
          onward[n][came] = key;
          comeFrom(n, came, key);
        } else if (first) {
          comeFrom(n, came, key + turn);
        }
      }
    }
  }

  /** Proposes the ways of those that come to a cell in a direction, and go on for so much. */
  private void comeFrom(int n, int k, double goOn) {
    if ((graph.in[n] >> k & 1) != 0) {
      int m = graph.source(n, k);
      if (usable(m)) {
        propose(m, k, goOn + cost.step(m, k, highestM[m], highestM[n]));
      }
    }
    for (StepGraph.Bore bore : graph.boresTo(n)) {
      int m = bore.from();
      if (bore.direction() == k && usable(m)) {
        propose(m, k, goOn + cost.line(bore.line(), highestM[m], highestM[n]));
      }
    }
  }

  private boolean usable(int n) {
    return highestM[n] != Double.NEGATIVE_INFINITY;
  }

  private void propose(int n, int k, double way) {
    if (way < least[n] + turn || way < least[n]) {
      least[n] = Math.min(least[n], way);
      heap.add(n * (steps + 1) + k, way);
    }
  }
}
