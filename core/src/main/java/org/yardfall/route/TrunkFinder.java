package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;

/**
 * Finds the least-cost trunk from any of several starts to any of several outlets, where cost
 * depends on depth.
 *
 * <p>A label is a place, the highest invert a pipe can have there coming this way, and the cost so
 * far. It lives while that invert is not below the {@linkplain GravityReachFinder gravity reach},
 * so what lives can still arrive. Since a metre never gets dearer by being higher, a label that is
 * neither dearer nor lower makes another at the same cell needless; where the two arrive from
 * different directions, the most by which a turn can be dearer from the one is added first. Labels
 * are taken in order of cost plus a lower bound of the cost to come (the cost if the pipe lay at
 * every cell as high as any pipe from any start can lie there: one pass of Dijkstra's algorithm
 * downstream for that invert, one upstream for the cost), so the first to arrive is the best there
 * is on the graph. This is multi-objective label setting (Martins 1984, "On a multicriteria
 * shortest path problem") with the bound of Hart, Nilsson &amp; Raphael 1968.
 */
final class TrunkFinder {

  /**
   * Where a trunk may start.
   *
   * @param at the place
   * @param invertM highest invert that the pipe can have there
   * @param cost cost of what lies upstream
   */
  record Start(Coordinate at, double invertM, double cost) {

    /** Ways to the cells around. */
    List<StepGraph.Link> links(RouteGround ground) {
      return ground
          .graph()
          .links(at, ground.settings().daylightWithinM(ground.frame().cellM()), false);
    }
  }

  /**
   * A trunk found.
   *
   * @param start index of its start
   * @param outlet index of its outlet
   * @param points its plan, start and outlet included
   * @param cost its cost, with that of its start
   * @param invertM its invert at the outlet by the highest line
   * @param stepM step in metres to which inverts were rounded when labels were compared; 0: exact
   */
  record Trunk(
      int start, int outlet, List<Coordinate> points, double cost, double invertM, double stepM) {

    /** The same with another number for its outlet. */
    Trunk to(int other) {
      return new Trunk(start, other, points, cost, invertM, stepM);
    }
  }

  /** With every so many labels more, inverts are compared by a wider step. */
  private static final int MANY_LABELS = 400_000;

  private static final double EPSILON_M = 1e-9;

  /** Room for rounding where steps are passed over unseen. */
  private static final double ROUNDING_M = 1e-9;

  /** Share of room for rounding where a label is left out as too dear. */
  private static final double ROUNDING = 1e-9;

  private final RouteGround ground;
  private final StepGraph graph;
  private final List<OutletTarget> outlets;
  private final Bounds bounds;
  private final StepCost cost;
  private final GravityReach reach;
  private final double most;
  private final double[] reachM;
  private CostToGo toGo;
  private final StepFalls falls;
  private final Arrival[][] arrivals;

  /** Step in metres to which inverts are rounded when labels are compared; 0: exact. */
  private double stepM;

  private double[] labelCost = new double[1024];
  private double[] labelInvert = new double[1024];
  private int[] labelCell = new int[1024];
  private int[] labelDirection = new int[1024];
  private int[] labelParent = new int[1024];
  private int[] labelNext = new int[1024];
  private boolean[] labelDead = new boolean[1024];
  private boolean[] labelDone = new boolean[1024];
  private int labels;
  private final int[] first;
  private final CellHeap heap = new CellHeap();

  /** A way from a cell into an outlet. */
  private record Arrival(int outlet, GroundLine line) {}

  private TrunkFinder(
      RouteGround ground,
      List<OutletTarget> outlets,
      Bounds bounds,
      StepCost cost,
      GravityReach reach,
      double most) {
    this.most = most;
    this.ground = ground;
    this.graph = ground.graph();
    this.outlets = outlets;
    this.bounds = bounds;
    this.cost = cost;
    this.reach = reach;
    this.reachM = reach.invertM();
    this.falls = graph.falls(bounds);
    int n = graph.frame.size();
    first = new int[n];
    Arrays.fill(first, -1);
    arrivals = new Arrival[n][];
    findArrivals();
  }

  /**
   * The best trunk, or empty where no start can reach an outlet.
   *
   * @param reach gravity reach of the same outlets within the same bounds
   */
  static Optional<Trunk> find(
      RouteGround ground,
      List<Start> starts,
      List<OutletTarget> outlets,
      Bounds bounds,
      StepCost cost,
      GravityReach reach) {
    return find(ground, starts, outlets, bounds, cost, reach, Double.POSITIVE_INFINITY);
  }

  /** The best trunk that costs no more than a limit. */
  static Optional<Trunk> find(
      RouteGround ground,
      List<Start> starts,
      List<OutletTarget> outlets,
      Bounds bounds,
      StepCost cost,
      GravityReach reach,
      double most) {
    return new TrunkFinder(ground, outlets, bounds, cost, reach, most).search(starts);
  }

  private void findArrivals() {
    for (int o = 0; o < outlets.size(); o++) {
      for (StepGraph.Link link : GravityReachFinder.outletLinks(ground, outlets.get(o))) {
        Arrival[] here = arrivals[link.cell()];
        here = here == null ? new Arrival[1] : Arrays.copyOf(here, here.length + 1);
        here[here.length - 1] = new Arrival(o, link.line());
        arrivals[link.cell()] = here;
      }
    }
  }

  /** Whether a pipe with so much fall may still be as high as asked; the step tells exactly. */
  static boolean mayBe(double fallen, double askedM) {
    return fallen >= askedM - EPSILON_M - ROUNDING_M;
  }

  /** The arrivals, each with what it costs at least. */
  private List<CostToGo.End> ends(double[] highestM) {
    List<CostToGo.End> ends = new ArrayList<>();
    for (int n = 0; n < highestM.length; n++) {
      if (highestM[n] != Double.NEGATIVE_INFINITY && arrivals[n] != null) {
        for (Arrival arrival : arrivals[n]) {
          double v = StepGraph.highestAtEnd(arrival.line(), highestM[n], bounds);
          if (v >= outlets.get(arrival.outlet()).invertM() - bounds.outletLoweredM() - EPSILON_M) {
            ends.add(new CostToGo.End(n, cost.line(arrival.line(), highestM[n], v)));
          }
        }
      }
    }
    return ends;
  }

  private Optional<Trunk> search(List<Start> starts) {
    double[] highestM = HighestInverts.of(ground, starts, bounds, reach);
    toGo = CostToGo.of(graph, cost, highestM, ends(highestM));
    for (int s = 0; s < starts.size(); s++) {
      Start start = starts.get(s);
      expandStart(label(-1 - s, -1, start.invertM(), start.cost(), -1), start);
    }
    int many = MANY_LABELS;
    while (!heap.isEmpty()) {
      int at = heap.remove();
      if (labelDead[at] || (stepM > 0 && settled(at))) {
        continue;
      }
      if (labelDirection[at] <= -2) {
        return Optional.of(extract(at, starts));
      }
      labelDone[at] = true;
      expand(at);
      if (labels > many) {
        many += MANY_LABELS;
        stepM = Math.max(0.005, 4 * stepM);
      }
    }
    return Optional.empty();
  }

  /** Starts lie off the cells: from there to the cells around, or straight into an outlet. */
  private void expandStart(int from, Start start) {
    for (StepGraph.Link link : start.links(ground)) {
      double v = StepGraph.highestAtEnd(link.line(), start.invertM(), bounds);
      offer(
          link.cell(),
          -1,
          v,
          labelCost[from] + (v > -1e300 ? cost.line(link.line(), start.invertM(), v) : 0),
          from);
    }
    for (int o = 0; o < outlets.size(); o++) {
      GroundLine line = straightIn(ground, start.at(), start.invertM(), outlets.get(o), bounds);
      if (line != null) {
        arrive(from, o, line, start.invertM());
      }
    }
  }

  /** Whether a place is so near an outlet that a way may lead straight into it. */
  static boolean mayGoStraight(RouteGround ground, Coordinate from, OutletTarget target) {
    return from.distance(target.at())
        <= 3 * ground.settings().daylightWithinM(ground.frame().cellM());
  }

  /** The ground straight from a place near an outlet into it, or null where no pipe falls there. */
  static GroundLine straightIn(
      RouteGround ground, Coordinate from, double invertM, OutletTarget target, Bounds b) {
    if (!mayGoStraight(ground, from, target)) {
      return null;
    }
    GroundLine line = ground.graph().admitted(from, target.at());
    if (line == null) {
      return null;
    }
    GroundLine ending = target.ending(line, ground);
    double v = StepGraph.highestAtEnd(ending, invertM, b);
    return v >= target.invertM() - b.outletLoweredM() - EPSILON_M ? ending : null;
  }

  private void expand(int at) {
    int n = labelCell[at];
    int came = labelDirection[at];
    double invert = labelInvert[at];
    if (arrivals[n] != null) {
      for (Arrival arrival : arrivals[n]) {
        arrive(at, arrival.outlet(), arrival.line(), invert);
      }
    }
    for (int left = graph.out[n]; left != 0; left &= left - 1) {
      int k = Integer.numberOfTrailingZeros(left);
      int to = graph.target(n, k);
      if (!toGo.any(to) || !mayBe(invert - falls.fallM(k), reachM[to])) {
        continue;
      }
      double v = falls.highestAtEnd(n, k, invert, bounds);
      if (v >= reachM[to] - EPSILON_M) {
        double turn = came < 0 ? 0 : cost.turn(came, k);
        offer(to, k, v, labelCost[at] + turn + cost.step(n, k, invert, v), at);
      }
    }
    for (StepGraph.Bore bore : graph.boresFrom(n)) {
      double v = StepGraph.highestAtEnd(bore.line(), invert, bounds);
      if (v >= reachM[bore.to()] - EPSILON_M) {
        double turn = came < 0 ? 0 : cost.turn(came, bore.direction());
        offer(
            bore.to(),
            bore.direction(),
            v,
            labelCost[at] + turn + cost.line(bore.line(), invert, v),
            at);
      }
    }
  }

  /** Whether a label from before the inverts' rounding is needless beside one gone on from. */
  private boolean settled(int at) {
    if (labelDirection[at] < -1 || labelCell[at] < 0) {
      return false;
    }
    for (int l = first[labelCell[at]]; l >= 0; l = labelNext[l]) {
      if (labelDone[l] && covers(l, labelDirection[at], rounded(labelInvert[at]), labelCost[at])) {
        return true;
      }
    }
    return false;
  }

  private void arrive(int from, int outlet, GroundLine line, double invert) {
    double v = StepGraph.highestAtEnd(line, invert, bounds);
    if (v >= outlets.get(outlet).invertM() - bounds.outletLoweredM() - EPSILON_M) {
      double total = labelCost[from] + cost.line(line, invert, v);
      if (total <= most) {
        heap.add(label(labelCell[from], -2 - outlet, v, total, from), total);
      }
    }
  }

  private void offer(int cell, int direction, double invert, double total, int parent) {
    if (!(invert >= reachM[cell] - EPSILON_M) || !toGo.any(cell)) {
      return;
    }
    double whole = total + toGo.from(cell, direction);
    if (whole > most * (1 + ROUNDING)) {
      return;
    }
    double least = rounded(invert);
    for (int l = first[cell]; l >= 0; l = labelNext[l]) {
      if (covers(l, direction, least, total)) {
        return;
      }
    }
    int before = -1;
    int mine = label(cell, direction, invert, total, parent);
    for (int l = first[cell]; l >= 0; l = labelNext[l]) {
      if (covers(mine, labelDirection[l], rounded(labelInvert[l]), labelCost[l])) {
        labelDead[l] = true;
        if (before < 0) {
          first[cell] = labelNext[l];
        } else {
          labelNext[before] = labelNext[l];
        }
      } else {
        before = l;
      }
    }
    labelNext[mine] = first[cell];
    first[cell] = mine;
    heap.add(mine, whole);
  }

  private boolean covers(int l, int direction, double roundedM, double total) {
    return labelInvert[l] >= roundedM
        && labelCost[l] <= total
        && labelCost[l] + cost.dearerTurn(labelDirection[l], direction) <= total;
  }

  /** The invert that a label must have to be counted as no lower than the given one. */
  private double rounded(double invertM) {
    return stepM == 0 ? invertM : Math.floor(invertM / stepM) * stepM;
  }

  private int label(int cell, int direction, double invert, double total, int parent) {
    if (labels == labelCost.length) {
      int more = 2 * labels;
      labelCost = Arrays.copyOf(labelCost, more);
      labelInvert = Arrays.copyOf(labelInvert, more);
      labelCell = Arrays.copyOf(labelCell, more);
      labelDirection = Arrays.copyOf(labelDirection, more);
      labelParent = Arrays.copyOf(labelParent, more);
      labelNext = Arrays.copyOf(labelNext, more);
      labelDead = Arrays.copyOf(labelDead, more);
      labelDone = Arrays.copyOf(labelDone, more);
    }
    labelCost[labels] = total;
    labelInvert[labels] = invert;
    labelCell[labels] = cell;
    labelDirection[labels] = direction;
    labelParent[labels] = parent;
    return labels++;
  }

  private Trunk extract(int arrived, List<Start> starts) {
    List<Coordinate> points = new ArrayList<>();
    int outlet = -2 - labelDirection[arrived];
    points.add(outlets.get(outlet).at());
    int start = -1;
    for (int l = labelParent[arrived]; l >= 0; l = labelParent[l]) {
      if (labelCell[l] < 0) {
        start = -1 - labelCell[l];
        points.add(starts.get(start).at());
      } else {
        points.add(graph.centre(labelCell[l]));
      }
    }
    Collections.reverse(points);
    return new Trunk(
        start, outlet, PlanLine.tidy(points), labelCost[arrived], labelInvert[arrived], stepM);
  }
}
