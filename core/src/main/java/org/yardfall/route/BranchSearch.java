package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.yardfall.elevation.GridFrame;

/**
 * The cheapest way from any end of a line to any of many places of a drain, looked for only as far
 * as it must be known. A search up to a limit knows all cells to which a way can have come for no
 * more ({@link CostSoFar}), and that no pipe lies higher anywhere than its fall from the ends lets
 * it; within those it is exact. So a way that it finds is the cheapest of all, since every other
 * that is as cheap lies within the limit, too; and where it finds none, none costs less than the
 * limit, which is then raised if anyone asks on.
 *
 * <p>Time O(n log n) in the cells within the limit.
 */
final class BranchSearch {

  private final RouteGround ground;
  private final GridFrame frame;
  private final Bounds bounds;
  private final StepCost cost;
  private final List<TrunkFinder.Start> ends;
  private final double endCost;
  private final ExitCells exits;
  private final CostSoFar soFar;
  private final List<OutletTarget> places = new ArrayList<>();

  /** The places before this one can not be reached at all. */
  private int from;

  private Optional<TrunkFinder.Trunk> way = Optional.empty();

  /** No way costs less, but the one found. */
  private double limit = Double.POSITIVE_INFINITY;

  private int stage;

  /** Whether it is sure that a pipe falls to some place. */
  private boolean falls;

  BranchSearch(
      RouteGround ground, Bounds bounds, StepCost cost, List<CollectorArms.Exit> endsOfLine) {
    this(
        ground,
        bounds,
        cost,
        endsOfLine.stream().map(CollectorArms.Exit::start).toList(),
        Optional.empty());
  }

  private BranchSearch(
      RouteGround ground,
      Bounds bounds,
      StepCost cost,
      List<TrunkFinder.Start> ends,
      Optional<CostSoFar> known) {
    this.ground = ground;
    this.frame = ground.frame();
    this.bounds = bounds;
    this.cost = cost;
    this.ends = ends;
    this.endCost = ends.stream().mapToDouble(TrunkFinder.Start::cost).min().orElse(0);
    this.exits = ExitCells.of(ground, ends, bounds);
    this.soFar = known.orElseGet(() -> new CostSoFar(ground, ends, bounds, cost));
  }

  /** A search from the same ends to other places. */
  BranchSearch elsewhere() {
    return new BranchSearch(ground, bounds, cost, ends, Optional.of(soFar));
  }

  /** The way, its outlet the number of the place in the order in which they came; once known. */
  Optional<TrunkFinder.Trunk> way() {
    return way;
  }

  /** Whether the way is known, or that there is none. */
  boolean known() {
    return way.isPresent() || limit == Double.POSITIVE_INFINITY;
  }

  /** What a way costs at least; what it costs, once it is known; infinite where there is none. */
  double atLeast() {
    return way.map(TrunkFinder.Trunk::cost).orElse(limit);
  }

  /** More places to which a way may lead. */
  void add(List<OutletTarget> more) {
    int before = places.size();
    places.addAll(more);
    if (more.isEmpty()) {
      return;
    }
    if (limit == Double.POSITIVE_INFINITY && way.isEmpty()) {
      from = before;
      limit = endCost;
      stage = 0;
      falls = false;
    } else if (stage > 0) {
      within(atLeast(), before)
          .filter(found -> way.isEmpty() || found.cost() < way.get().cost())
          .ifPresent(found -> way = Optional.of(found));
    }
  }

  /** Looks on up to the next limit. */
  void goOn() {
    limit = soFar.upTo(stage);
    stage++;
    way = within(limit, from);
    if (way.isEmpty() && !falls && limit < Double.POSITIVE_INFINITY) {
      falls = GravityReachFinder.meets(ground, places.subList(from, places.size()), bounds, exits);
      limit = falls ? limit : Double.POSITIVE_INFINITY;
    }
  }

  /** Looks on until the way is known. */
  Optional<TrunkFinder.Trunk> toTheEnd() {
    while (!known()) {
      goOn();
    }
    return way;
  }

  /** The cheapest way to one of the places from the given one on, that costs no more than so. */
  private Optional<TrunkFinder.Trunk> within(double most, int first) {
    int[] near =
        IntStream.range(first, places.size()).filter(i -> near(places.get(i), most)).toArray();
    if (near.length == 0) {
      return Optional.empty();
    }
    List<OutletTarget> outlets = IntStream.of(near).mapToObj(places::get).toList();
    GravityReach reach =
        GravityReachFinder.find(
            ground, outlets, bounds, (cell, invertM) -> soFar.within(cell, most, invertM));
    return TrunkFinder.find(ground, ends, outlets, bounds, cost, reach, most)
        .map(trunk -> trunk.to(near[trunk.outlet()]));
  }

  /** Whether a way that costs no more than so may lead to a place, by a cell or straight. */
  private boolean near(OutletTarget place, double most) {
    if (ends.stream().anyMatch(end -> TrunkFinder.mayGoStraight(ground, end.at(), place))) {
      return true;
    }
    double withinM = ground.settings().daylightWithinM(frame.cellM());
    int west = Math.max(0, frame.col(place.at().x - withinM));
    int east = Math.min(frame.cols() - 1, frame.col(place.at().x + withinM));
    int north = Math.max(0, frame.row(place.at().y + withinM));
    int south = Math.min(frame.rows() - 1, frame.row(place.at().y - withinM));
    for (int row = north; row <= south; row++) {
      for (int col = west; col <= east; col++) {
        if (soFar.within(row * frame.cols() + col, most)) {
          return true;
        }
      }
    }
    return false;
  }
}
