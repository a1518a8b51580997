package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;

/**
 * The least-cost trunk by the plainest of searches: labels in the order of their cost alone, with
 * no bound on what is to come, no gravity reach, and no comparison but of those that came to a cell
 * in the same direction. It shares the graph and the price of a step with the search that it
 * checks.
 */
final class PlainTrunkSearch {

  private record Label(int cell, int came, double invertM, double cost) {}

  private final RouteGround ground;
  private final StepGraph graph;
  private final Bounds bounds;
  private final StepCost cost;
  private final List<OutletTarget> outlets;
  private final Map<Integer, List<Map.Entry<OutletTarget, GroundLine>>> arrivals = new HashMap<>();
  private final Map<Integer, List<Label>> settled = new HashMap<>();
  private final PriorityQueue<Label> queue =
      new PriorityQueue<>(Comparator.comparingDouble(Label::cost));

  PlainTrunkSearch(RouteGround ground, Bounds bounds, StepCost cost, List<OutletTarget> outlets) {
    this.ground = ground;
    this.graph = ground.graph();
    this.bounds = bounds;
    this.cost = cost;
    this.outlets = outlets;
    for (OutletTarget outlet : outlets) {
      for (StepGraph.Link link : GravityReachFinder.outletLinks(ground, outlet)) {
        arrivals
            .computeIfAbsent(link.cell(), n -> new ArrayList<>())
            .add(Map.entry(outlet, link.line()));
      }
    }
  }

  /** The least cost; infinite where nothing arrives. */
  double leastCost(List<TrunkFinder.Start> starts) {
    for (TrunkFinder.Start start : starts) {
      for (StepGraph.Link link : start.links(ground)) {
        go(link.cell(), -1, link.line(), start.invertM(), start.cost());
      }
      for (OutletTarget outlet : outlets) {
        GroundLine line =
            TrunkFinder.straightIn(ground, start.at(), start.invertM(), outlet, bounds);
        if (line != null) {
          arrive(outlet, line, start.invertM(), start.cost());
        }
      }
    }
    while (!queue.isEmpty()) {
      Label label = queue.remove();
      if (label.cell < 0) {
        return label.cost;
      }
      List<Label> here =
          settled.computeIfAbsent(
              label.cell * (graph.stencil.steps + 1) + label.came + 1, n -> new ArrayList<>());
      if (here.stream().noneMatch(other -> other.invertM >= label.invertM)) {
        here.add(label); // those before it are no dearer
        leave(label);
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  private void leave(Label at) {
    arrivals
        .getOrDefault(at.cell, List.of())
        .forEach(way -> arrive(way.getKey(), way.getValue(), at.invertM, at.cost));
    for (int k = 0; k < graph.stencil.steps; k++) {
      if ((graph.out[at.cell] >> k & 1) != 0) {
        double v = graph.falls(bounds).highestAtEnd(at.cell, k, at.invertM, bounds);
        if (v != Double.NEGATIVE_INFINITY) {
          double step = cost.step(at.cell, k, at.invertM, v);
          queue.add(new Label(graph.target(at.cell, k), k, v, at.cost + turn(at.came, k) + step));
        }
      }
    }
    for (StepGraph.Bore bore : graph.boresFrom(at.cell)) {
      double sum = at.cost + turn(at.came, bore.direction());
      go(bore.to(), bore.direction(), bore.line(), at.invertM, sum);
    }
  }

  private double turn(int came, int k) {
    return came < 0 ? 0 : cost.turn(came, k);
  }

  private void go(int to, int came, GroundLine line, double invertM, double sum) {
    double v = StepGraph.highestAtEnd(line, invertM, bounds);
    if (v != Double.NEGATIVE_INFINITY) {
      queue.add(new Label(to, came, v, sum + cost.line(line, invertM, v)));
    }
  }

  private void arrive(OutletTarget outlet, GroundLine line, double invertM, double sum) {
    double v = StepGraph.highestAtEnd(line, invertM, bounds);
    if (v >= outlet.invertM() - bounds.outletLoweredM() - 1e-9) {
      queue.add(new Label(-1, 0, v, sum + cost.line(line, invertM, v)));
    }
  }
}
