package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;

/**
 * Leads further collecting lines to a drain that is laid, one after the other, the one that is
 * cheapest to join first; each joins whichever line it reaches at the least cost, the main line or
 * another that has joined before. No two of them lie in one trench: what of a line runs in the
 * trench of another is not dug again, and a branch that comes to a trench joins it there.
 *
 * <p>Each branch is the least-cost one on the graph to the drain as it lies when its turn comes,
 * which is not always the least for all of them together. One that lies too low for the drain as it
 * is gets the drain laid lower, where that is possible.
 */
final class BranchJoiner {

  /** A line is broken so often before what is left of it stays unserved. */
  private static final int MOST_SPLITS = 2;

  private final RouteGround ground;
  private final Bounds bounds;
  private final StepCost cost;
  private final DrainTree tree;
  private final SharedTrench trench;

  /** The places where lines can join each line as it was laid first. */
  private final List<Junctions> junctions = new ArrayList<>();

  /** A line, or a part of one, that waits to be joined. */
  private static final class Waiting {
    private final LineString line;
    private final CollectorArms arms;

    /** Number of the whole line, and how often that was broken. */
    private final int whole;

    private final int splits;

    /** As many lines of the tree have been looked at for the cheapest way so far. */
    private int seen;

    private Optional<Way> way = Optional.empty();

    Waiting(LineString line, CollectorArms arms, int whole, int splits) {
      this.line = line;
      this.arms = arms;
      this.whole = whole;
      this.splits = splits;
    }

    double costs() {
      return way.map(Way::cost).orElse(Double.POSITIVE_INFINITY);
    }

    double waysM() {
      return way.map(w -> PlanLine.length(w.to().plan())).orElse(Double.POSITIVE_INFINITY);
    }
  }

  /** A way to a line of the tree. */
  private record Way(SharedTrench.Junction to, double cost) {}

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
      Waiting next = waiting.stream().min(Comparator.comparingDouble(Waiting::costs)).get();
      waiting.remove(next);
      if (next.way.isPresent() && add(next.way.get())) {
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

  /** Finds the cheapest way of each line, of those to lines laid since it was last looked at. */
  private void look(List<Waiting> waiting) {
    for (int i = junctions.size(); i < tree.size(); i++) {
      junctions.add(new Junctions(ground, tree.laid(i), bounds));
    }
    waiting.parallelStream()
        .forEach(
            each -> {
              Optional<Way> found = way(each, each.seen, junctions::get);
              if (found.isPresent() && found.get().cost() < each.costs()) {
                each.way = found;
              }
              each.seen = tree.size();
            });
  }

  /**
   * The cheapest way to a line of the tree, from the given one on, the near ones first. One that is
   * farther off than a way found is long is not looked at.
   */
  private Optional<Way> way(Waiting line, int from, IntFunction<Junctions> places) {
    List<CollectorArms.Exit> ends = line.arms.ends(bounds, cost);
    double[] apartM = new double[tree.size()];
    for (int i = from; i < tree.size(); i++) {
      apartM[i] = tree.plan(i).distance(line.line);
    }
    List<Integer> nearFirst =
        IntStream.range(from, tree.size())
            .boxed()
            .sorted(Comparator.comparingDouble(i -> apartM[i]))
            .toList();
    Optional<Way> best = Optional.empty();
    double longM = from == 0 ? Double.POSITIVE_INFINITY : line.waysM();
    for (int i : nearFirst) {
      if (apartM[i] >= longM) {
        break;
      }
      Optional<Way> found = way(ends, i, places.apply(i));
      if (found.isPresent() && (best.isEmpty() || found.get().cost() < best.get().cost())) {
        best = found;
        longM = Math.min(longM, PlanLine.length(found.get().to().plan()));
      }
    }
    return best;
  }

  private Optional<Way> way(List<CollectorArms.Exit> ends, int joins, Junctions places) {
    if (ends.stream().noneMatch(places::mayTake)) {
      return Optional.empty();
    }
    List<TrunkFinder.Start> starts =
        ends.stream().map(e -> new TrunkFinder.Start(e.at(), e.invertM(), e.cost())).toList();
    return TrunkFinder.find(ground, starts, places.targets(), bounds, cost, places.reach())
        .map(
            trunk -> {
              CollectorArms.Exit exit = ends.get(trunk.start());
              OutletTarget target = places.targets().get(trunk.outlet());
              List<Coordinate> straight =
                  Straightener.straighten(
                      ground, bounds, cost, target, exit.invertM(), trunk.points());
              List<Coordinate> plan = new ArrayList<>(exit.longer());
              plan.addAll(straight.subList(1, straight.size()));
              return new Way(
                  new SharedTrench.Junction(
                      PlanLine.tidy(plan), joins, places.stationM(trunk.outlet())),
                  trunk.cost());
            });
  }

  /** The cheapest way to where the drain could lie at its lowest. */
  private Optional<Way> lowered(Waiting line) {
    return way(
        line,
        0,
        i -> new Junctions(ground, tree.laid(i), bounds, s -> tree.lowestM(i, s.stationM())));
  }

  private boolean add(Way way) {
    return trench
        .of(way.to())
        .flatMap(
            to -> ground.line(to.plan()).map(line -> tree.add(line, to.joins(), to.junctionM())))
        .orElse(false);
  }

  /** A line broken at its high ground, where it has any. */
  private List<LineString> highGround(Waiting waiting) {
    return new HighGround(ground.ground()).broken(List.of(waiting.line));
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
