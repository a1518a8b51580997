package org.yardfall.route;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

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

  /** Room for rounding where steps are passed over unseen. */
  private static final double ROUNDING_M = 1e-9;

  private static final Among ANY = (cell, leastM) -> true;

  private final StepGraph graph;
  private final RouteGround ground;
  private final Bounds bounds;
  private final StepFalls falls;
  private final double[] invertM;
  private final int[] outlet;
  private final CellHeap heap = new CellHeap();

  /** What is looked at. */
  interface Among {

    /** Whether a pipe may come to a cell no lower than an invert in metres. */
    boolean test(int cell, double leastM);
  }

  /** Where the search may end; null where it finds the whole reach. */
  private final ExitCells exits;

  /** Cells of which any one is enough; null where the search goes on. */
  private final boolean[] enough;

  private final Among among;

  private boolean arrived;

  private GravityReachFinder(
      RouteGround ground, Bounds bounds, ExitCells exits, boolean[] enough, Among among) {
    this.ground = ground;
    this.enough = enough;
    this.exits = exits;
    this.among = among;
    this.graph = ground.graph();
    this.bounds = bounds;
    this.falls = graph.falls(bounds);
    this.invertM = new double[graph.frame.size()];
    this.outlet = new int[graph.frame.size()];
    Arrays.fill(invertM, Double.NaN);
    Arrays.fill(outlet, -1);
  }

  /**
   * The gravity reach of the outlets together; where several are reached the lowest invert wins.
   */
  public static GravityReach find(RouteGround ground, List<OutletTarget> outlets, Bounds bounds) {
    return find(ground, outlets, bounds, ANY);
  }

  /** The gravity reach of what is looked at only. */
  static GravityReach find(
      RouteGround ground, List<OutletTarget> outlets, Bounds bounds, Among among) {
    GravityReachFinder finder = new GravityReachFinder(ground, bounds, null, null, among);
    finder.search(outlets);
    return new GravityReach(
        ground.frame(),
        outlets.stream().map(OutletTarget::id).toList(),
        finder.invertM,
        finder.outlet,
        Optional.empty());
  }

  /**
   * Whether the reach meets any of the exits. The same search, but it looks toward the exits first
   * (Hart, Nilsson &amp; Raphael 1968), ends at the first one met, and leaves out what lies too
   * high for all of them.
   */
  static boolean meets(
      RouteGround ground, List<OutletTarget> outlets, Bounds bounds, ExitCells exits) {
    GravityReachFinder finder = new GravityReachFinder(ground, bounds, exits, null, ANY);
    finder.search(outlets);
    return finder.arrived;
  }

  /** Whether the reach holds any of the cells marked; the search ends at the first of them. */
  static boolean reachesAny(
      RouteGround ground, List<OutletTarget> outlets, Bounds bounds, boolean[] cells) {
    GravityReachFinder finder = new GravityReachFinder(ground, bounds, null, cells, ANY);
    finder.search(outlets);
    return finder.arrived;
  }

  private void search(List<OutletTarget> outlets) {
    for (int i = 0; i < outlets.size(); i++) {
      start(outlets.get(i), i);
    }
    climb();
  }

  private void start(OutletTarget target, int index) {
    for (StepGraph.Link link : outletLinks(ground, target)) {
      reach(
          link.cell(),
          link.line().lowestAtTop(target.invertM() - bounds.outletLoweredM(), bounds),
          index);
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
    while (!heap.isEmpty() && !arrived) {
      double rank = heap.topKey();
      int c = heap.remove();
      double key = invertM[c];
      if (rank > rank(c, key)) {
        continue;
      }
      for (int left = graph.in[c]; left != 0; left &= left - 1) {
        int k = Integer.numberOfTrailingZeros(left);
        int n = graph.source(c, k);
        if (!asLow(n, k, key + falls.fallM(k))) {
          reach(n, falls.lowestAtTop(n, k, key, bounds), outlet[c]);
        }
      }
      for (StepGraph.Bore bore : graph.boresTo(c)) {
        reach(bore.from(), bore.line().lowestAtTop(key, bounds), outlet[c]);
      }
    }
  }

  /** Whether a cell is reached so low already that no step with so much fall betters it. */
  private boolean asLow(int n, int k, double fallen) {
    return invertM[n] <= fallen - ROUNDING_M
        || ((graph.special[n] >> k & 1) == 0 && invertM[n] <= bounds.lowest(graph.groundM(n)));
  }

  private void reach(int n, double invert, int to) {
    if (invert == Double.POSITIVE_INFINITY || invertM[n] <= invert || !among.test(n, invert)) {
      return;
    }
    double rank = rank(n, invert);
    if (exits == null || exits.within(rank)) {
      invertM[n] = invert;
      outlet[n] = to;
      heap.add(n, rank);
      arrived |= exits != null && exits.at(n, invert);
      arrived |= enough != null && enough[n];
    }
  }

  private double rank(int n, double invert) {
    return exits == null ? invert : invert + exits.leastRiseM(n);
  }
}
