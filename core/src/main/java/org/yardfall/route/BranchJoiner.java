package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;

/**
 * Leads further collecting lines to a drain that is laid, one after the other, the one that is
 * cheapest to join first; each joins whichever line it reaches at the least cost, the main line or
 * another that has joined before. No two of them lie in one trench: what of a line runs in the
 * trench of another is not dug again, and a branch that comes to a trench joins it there.
 *
 * <p>Each branch is the least-cost one on the graph to the drain as it lies when its turn comes,
 * which is not always the least for all of them together; how much dearer the whole can be has not
 * been measured. One that lies too low for the drain as it is gets the drain laid lower, where that
 * is possible.
 */
final class BranchJoiner {

  /** A line is broken so often before what is left of it stays unserved. */
  private static final int MOST_SPLITS = 2;

  /** So many lines are looked on for at once. */
  private static final int AT_ONCE = 2;

  private final RouteGround ground;
  private final Bounds bounds;
  private final StepCost cost;
  private final DrainTree tree;
  private final SharedTrench trench;

  /** The places where lines can join each line as it was laid first. */
  private final List<Junctions> junctions = new ArrayList<>();

  /** A line, or a part of one, that waits to be joined. */
  private final class Waiting {
    private final LineString line;
    private final CollectorArms arms;

    /** Number of the whole line, and how often that was broken. */
    private final int whole;

    private final int splits;

    /** As many lines of the tree are among those that it may join so far. */
    private int seen;

    /** Its ends, from which it can be led on. */
    private final List<CollectorArms.Exit> ends;

    /** The places where it may join. */
    private final List<Place> places = new ArrayList<>();

    private final BranchSearch search;

    Waiting(LineString line, CollectorArms arms, int whole, int splits) {
      this.line = line;
      this.arms = arms;
      this.whole = whole;
      this.splits = splits;
      this.ends = arms.ends(bounds, cost);
      this.search = new BranchSearch(ground, bounds, cost, ends);
    }
  }

  /** A place of a line of the tree. */
  private record Place(OutletTarget target, int line, double stationM) {}

  BranchJoiner(RouteGround ground, Bounds bounds, StepCost cost, DrainTree tree) {
    this.ground = ground;
    this.bounds = bounds;
    this.cost = cost;
    this.tree = tree;
    this.trench = new SharedTrench(ground, tree);
  }

  /** Joins lines; returns those, or the parts of them, that cannot be joined. */
  List<LineString> join(List<LineString> lines, List<CollectorArms> arms) {
    List<Waiting> waiting = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      waiting.add(new Waiting(lines.get(i), arms.get(i), i, 0));
    }
    boolean[] served = new boolean[lines.size()];
    List<Waiting> left = new ArrayList<>();
    while (true) {
      waiting = outside(waiting, served);
      if (waiting.isEmpty()) {
        return unserved(lines, left, served);
      }
      look(waiting);
      Waiting next = cheapest(waiting);
      waiting.remove(next);
      if (next.search
          .way()
          .map(trunk -> way(next, trunk, next.places))
          .filter(this::add)
          .isPresent()) {
        served[next.whole] = true;
        continue;
      }
      List<LineString> parts = next.splits < MOST_SPLITS ? highGround(next) : List.of(next.line);
      if (parts.size() == 1 && lowered(next).filter(this::add).isPresent()) {
        served[next.whole] = true;
        continue;
      }
      parts = parts.size() == 1 && next.splits < MOST_SPLITS ? arms(next) : parts;
      if (parts.size() > 1) {
        for (LineString part : parts) {
          waiting.add(
              new Waiting(part, new CollectorArms(ground, part), next.whole, next.splits + 1));
        }
      } else {
        left.add(next);
      }
    }
  }

  /** A line of which no part could be joined is told as a whole. */
  private static List<LineString> unserved(
      List<LineString> lines, List<Waiting> left, boolean[] served) {
    return left.stream()
        .map(each -> served[each.whole] ? each.line : lines.get(each.whole))
        .distinct()
        .toList();
  }

  /** The lines without what runs in the trench of a line laid since they were last looked at. */
  private List<Waiting> outside(List<Waiting> waiting, boolean[] served) {
    List<Waiting> rest = new ArrayList<>();
    for (Waiting each : waiting) {
      List<LineString> parts = trench.outside(each.line, each.seen);
      double length = parts.stream().mapToDouble(LineString::getLength).sum();
      if (length > each.line.getLength() - 1e-6) {
        rest.add(each);
        continue;
      }
      served[each.whole] = true;
      for (LineString part : parts) {
        if (part.getLength() >= Stubs.LEAST_M) {
          rest.add(new Waiting(part, new CollectorArms(ground, part), each.whole, each.splits));
        }
      }
    }
    return rest;
  }

  /** The places of lines laid since then are added to what each line may join. */
  private void look(List<Waiting> waiting) {
    for (int i = junctions.size(); i < tree.size(); i++) {
      junctions.add(new Junctions(ground, tree.laid(i), bounds));
    }
    waiting.parallelStream()
        .forEach(
            each -> {
              List<Place> places =
                  places(each, each.seen, junctions.subList(each.seen, tree.size()));
              each.places.addAll(places);
              each.search.add(places.stream().map(Place::target).toList());
              each.seen = tree.size();
            });
  }

  /** The line that is cheapest to join, once its way is known; the first of those alike. */
  private static Waiting cheapest(List<Waiting> waiting) {
    Comparator<Waiting> cheaper = Comparator.comparingDouble(each -> each.search.atLeast());
    while (true) {
      Waiting least = waiting.stream().min(cheaper).get();
      if (least.search.known()) {
        return least;
      }
      double known =
          waiting.stream()
              .filter(each -> each.search.known())
              .mapToDouble(each -> each.search.atLeast())
              .min()
              .orElse(Double.POSITIVE_INFINITY);
      waiting.stream()
          .filter(each -> !each.search.known() && each.search.atLeast() <= known)
          .sorted(cheaper)
          .limit(AT_ONCE)
          .toList()
          .parallelStream()
          .forEach(each -> each.search.goOn());
    }
  }

  /** The places of some lines of the tree, from the given number on, that may take a line. */
  private static List<Place> places(Waiting line, int first, List<Junctions> lines) {
    List<Place> places = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      Junctions along = lines.get(i);
      for (int k = 0; k < along.targets().size(); k++) {
        int target = k;
        if (line.ends.stream().anyMatch(end -> along.mayTake(end, target))) {
          places.add(new Place(along.targets().get(k), first + i, along.stationM(k)));
        }
      }
    }
    return places;
  }

  private SharedTrench.Junction way(Waiting line, TrunkFinder.Trunk trunk, List<Place> places) {
    CollectorArms.Exit exit = line.ends.get(trunk.start());
    Place to = places.get(trunk.outlet());
    List<Coordinate> straight =
        Straightener.straighten(ground, bounds, cost, to.target(), exit.invertM(), trunk.points());
    List<Coordinate> plan = new ArrayList<>(exit.longer());
    plan.addAll(straight.subList(1, straight.size()));
    return new SharedTrench.Junction(PlanLine.tidy(plan), to.line(), to.stationM());
  }

  /** The cheapest way to where the drain could lie at its lowest. */
  private Optional<SharedTrench.Junction> lowered(Waiting line) {
    List<Junctions> lowest = new ArrayList<>();
    for (int i = 0; i < tree.size(); i++) {
      DoubleUnaryOperator lowestM = tree.lowestM(i);
      lowest.add(
          new Junctions(
              ground, tree.laid(i), bounds, place -> lowestM.applyAsDouble(place.stationM())));
    }
    List<Place> places = places(line, 0, lowest);
    BranchSearch search = line.search.elsewhere();
    search.add(places.stream().map(Place::target).toList());
    return search.toTheEnd().map(trunk -> way(line, trunk, places));
  }

  private boolean add(SharedTrench.Junction way) {
    return trench
        .of(way)
        .flatMap(
            to -> ground.line(to.plan()).map(line -> tree.add(line, to.joins(), to.junctionM())))
        .orElse(false);
  }

  /** A line broken at its high ground, where it has any. */
  private List<LineString> highGround(Waiting waiting) {
    return new HighGround(ground.ground(), ground.site().crossings()).broken(List.of(waiting.line));
  }

  /** A line broken at the place to which both its arms fall for the least. */
  private List<LineString> arms(Waiting waiting) {
    return waiting.arms.exits(bounds, cost).stream()
        .filter(exit -> !exit.shorter().isEmpty())
        .filter(exit -> PlanLine.length(exit.shorter()) >= Stubs.LEAST_M)
        .min(Comparator.comparingDouble(CollectorArms.Exit::cost))
        .map(exit -> List.of(part(waiting.line, exit.longer()), part(waiting.line, exit.shorter())))
        .orElse(List.of());
  }

  /** A part of a line by its points. */
  static LineString part(LineString of, List<Coordinate> points) {
    return of.getFactory().createLineString(points.toArray(Coordinate[]::new));
  }
}
