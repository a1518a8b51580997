package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.DrainLimits;

/**
 * Takes collecting lines to an outlet: finds where the first line's water should leave it and the
 * least-cost trunk from there, straightens the trunk, lays the pipe in the fewest grades or with
 * the least digging, and joins the other lines to it.
 *
 * <p>The exit and the trunk are chosen together, so the first line's drain is the least-cost one on
 * the graph before straightening. Further lines join in the order given, each at its own least cost
 * with the main line as it lies; that is not always the least for all of them together. Safe for
 * use by several threads.
 */
public final class DrainRouter {

  private static final double EPSILON_M = 1e-6;

  /** A line is broken so often before what is left of it stays unserved. */
  private static final int MOST_SPLITS = 2;

  /** Less of a drop at a junction is taken up in the fitting and not said, in metres. */
  private static final double SAID_DROP_M = 0.02;

  private final RouteGround ground;
  private final List<LineString> collectors;
  private final List<CollectorArms> lines = new ArrayList<>();

  private DrainRouter(RouteGround ground, List<LineString> collectors) {
    this.ground = ground;
    this.collectors = List.copyOf(collectors);
    for (LineString line : collectors) {
      lines.add(new CollectorArms(ground, line));
    }
  }

  /**
   * A router for the given collecting lines.
   *
   * @param collectors lines on permitted ground, the one that gets the main line first; a closed
   *     one is a ring
   */
  public static DrainRouter of(RouteGround ground, List<LineString> collectors) {
    if (collectors.isEmpty()) {
      throw new IllegalArgumentException("no collecting line");
    }
    return new DrainRouter(ground, collectors);
  }

  /** Whether the first line's water can fall to one of the outlets: exact on the graph. */
  public boolean feasible(List<OutletTarget> outlets, Bounds b) {
    List<CollectorArms.Exit> exits = lines.get(0).exits(b, null);
    if (exits.isEmpty()) {
      return false;
    }
    for (OutletTarget outlet : outlets) {
      for (CollectorArms.Exit exit : exits) {
        if (TrunkFinder.straightIn(ground, exit.at(), exit.invertM(), outlet, b) != null) {
          return true;
        }
      }
    }
    return GravityReachFinder.meets(ground, outlets, b, ExitCells.of(ground, exits, b));
  }

  /**
   * The least-cost drain to any of the outlets.
   *
   * @param cost what is to be least
   * @return empty where the first line's water can not fall to any of them within the bounds
   */
  public Optional<Draft> route(List<OutletTarget> outlets, Bounds b, TrenchCost cost) {
    StepCost stepCost = new StepCost(ground, cost);
    List<CollectorArms.Exit> all = lines.get(0).exits(b, stepCost);
    GravityReach reach = ground.reach(outlets, b);
    List<CollectorArms.Exit> exits = all.stream().filter(e -> !e.leavesStub()).toList();
    return route(exits, outlets, b, stepCost, reach)
        .or(
            () ->
                route(
                    all.stream().filter(CollectorArms.Exit::leavesStub).toList(),
                    outlets,
                    b,
                    stepCost,
                    reach));
  }

  private Optional<Draft> route(
      List<CollectorArms.Exit> exits,
      List<OutletTarget> outlets,
      Bounds b,
      StepCost cost,
      GravityReach reach) {
    return trunk(exits, outlets, b, cost, reach)
        .flatMap(
            trunk -> lay(exits.get(trunk.start()), outlets.get(trunk.outlet()), trunk, b, cost));
  }

  private Optional<TrunkFinder.Trunk> trunk(
      List<CollectorArms.Exit> exits,
      List<OutletTarget> outlets,
      Bounds b,
      StepCost cost,
      GravityReach reach) {
    if (exits.isEmpty()) {
      return Optional.empty();
    }
    List<TrunkFinder.Start> starts =
        exits.stream().map(e -> new TrunkFinder.Start(e.at(), e.invertM(), e.cost())).toList();
    return TrunkFinder.find(ground, starts, outlets, b, cost, reach);
  }

  private Optional<Draft> lay(
      CollectorArms.Exit whole,
      OutletTarget outlet,
      TrunkFinder.Trunk trunk,
      Bounds b,
      StepCost cost) {
    List<String> notes = new ArrayList<>();
    List<LineString> unserved = new ArrayList<>();
    CollectorArms.Exit exit = whole;
    if (whole.leavesStub()) {
      unserved.add(lineString(collectors.get(0), whole.shorter()));
      exit = whole.withoutShorter();
    }
    if (trunk.stepM() > 0) {
      notes.add(
          text(
              "inverts were compared in steps of %.0f mm, so the drain may cost a little more than"
                  + " the least",
              1000 * trunk.stepM()));
    }
    List<Coordinate> straight =
        Straightener.straighten(ground, b, cost, outlet, exit.invertM(), trunk.points());
    GroundLine line = mainLine(exit, straight, outlet, b);
    double lowest = outlet.invertM() - b.outletLoweredM();
    Optional<DrainLine> main = GradeLine.lay(line, b, lowest, kind());
    if (main.isEmpty()) {
      return Optional.empty();
    }
    double total = cost.laid(main.get());
    List<Route.Branch> branches = new ArrayList<>();
    if (!exit.shorter().isEmpty()) {
      double junction = PlanLine.length(exit.longer());
      Optional<DrainLine> branch =
          GradeLine.lay(
              ground.line(exit.shorter()).orElseThrow(),
              b,
              Math.min(invertAt(main.get(), junction), exit.shorterM()),
              kind());
      if (branch.isEmpty()) {
        return Optional.empty();
      }
      branches.add(new Route.Branch(branch.get(), junction));
      total += cost.laid(branch.get());
    }
    Junctions junctions = new Junctions(ground, main.get(), b);
    List<Served> served =
        IntStream.range(1, lines.size())
            .parallel()
            .mapToObj(i -> serve(collectors.get(i), lines.get(i), junctions, b, cost, 0))
            .toList();
    for (Served each : served) {
      unserved.addAll(each.unserved());
      for (Route.Branch branch : each.branches()) {
        branches.add(branch);
        total += cost.laid(branch.line());
      }
    }
    branches.sort(Comparator.comparingDouble(Route.Branch::junctionM));
    notes.addAll(LineNotes.of(line, b, lowest, main.get(), kind()));
    branches.forEach(branch -> notes.addAll(LineNotes.drops(branch.line())));
    junctionDrops(main.get(), branches, notes);
    return Optional.of(new Draft(outlet.id(), main.get(), branches, total, unserved, notes));
  }

  private DrainLimits.GradeLine kind() {
    return ground.site().drain().gradeLine();
  }

  private GroundLine mainLine(
      CollectorArms.Exit exit, List<Coordinate> trunk, OutletTarget outlet, Bounds b) {
    List<Coordinate> plan = new ArrayList<>(exit.longer());
    plan.addAll(trunk.subList(1, trunk.size()));
    boolean joined = !exit.shorter().isEmpty();
    List<Coordinate> points = joined ? PlanLine.withoutRepeats(plan) : PlanLine.tidy(plan);
    GroundLine line = outlet.ending(ground.line(points).orElseThrow(), ground);
    return joined
        ? line.noHigherAt(PlanLine.length(exit.longer()), exit.shorterM(), b.outsideM())
        : line;
  }

  /** The branches that join a further line, and what of it cannot be joined. */
  private record Served(List<Route.Branch> branches, List<LineString> unserved) {}

  /**
   * Joins a further line to the main line; one that cannot be joined whole is served in parts, each
   * by a branch of its own.
   */
  private Served serve(
      LineString line,
      CollectorArms arms,
      Junctions junctions,
      Bounds b,
      StepCost cost,
      int splits) {
    Optional<Route.Branch> whole = join(arms, junctions, b, cost);
    if (whole.isPresent()) {
      return new Served(List.of(whole.get()), List.of());
    }
    List<LineString> parts = splits < MOST_SPLITS ? parts(line, arms, b, cost) : List.of();
    if (parts.size() < 2) {
      return new Served(List.of(), List.of(line));
    }
    List<Route.Branch> branches = new ArrayList<>();
    List<LineString> left = new ArrayList<>();
    for (LineString part : parts) {
      Served served = serve(part, new CollectorArms(ground, part), junctions, b, cost, splits + 1);
      branches.addAll(served.branches());
      left.addAll(served.unserved());
    }
    return new Served(branches, branches.isEmpty() ? List.of(line) : left);
  }

  /** A line broken at its high ground, or else at the place to which both its arms fall. */
  private List<LineString> parts(LineString line, CollectorArms arms, Bounds b, StepCost cost) {
    List<LineString> parts = new HighGround(ground.ground()).broken(List.of(line));
    if (parts.size() > 1) {
      return parts;
    }
    return arms.exits(b, cost).stream()
        .filter(exit -> !exit.shorter().isEmpty())
        .filter(exit -> PlanLine.length(exit.shorter()) >= Stubs.LEAST_M)
        .min(Comparator.comparingDouble(CollectorArms.Exit::cost))
        .map(exit -> List.of(lineString(line, exit.longer()), lineString(line, exit.shorter())))
        .orElse(List.of());
  }

  private static LineString lineString(LineString like, List<Coordinate> points) {
    return like.getFactory().createLineString(points.toArray(Coordinate[]::new));
  }

  /** Leads a further line to the main line, where it must arrive no lower than the main lies. */
  private Optional<Route.Branch> join(
      CollectorArms arms, Junctions junctions, Bounds b, StepCost cost) {
    List<CollectorArms.Exit> ends = arms.ends(b, cost);
    if (ends.stream().noneMatch(junctions::mayTake)) {
      return Optional.empty();
    }
    return trunk(ends, junctions.targets(), b, cost, junctions.reach())
        .flatMap(
            trunk -> {
              CollectorArms.Exit exit = ends.get(trunk.start());
              OutletTarget target = junctions.targets().get(trunk.outlet());
              List<Coordinate> straight =
                  Straightener.straighten(ground, b, cost, target, exit.invertM(), trunk.points());
              return GradeLine.lay(mainLine(exit, straight, target, b), b, target.invertM(), kind())
                  .map(line -> new Route.Branch(line, junctions.stationM(trunk.outlet())));
            });
  }

  /** Invert of a line at a station; below a drop where there is one. */
  static double invertAt(DrainLine line, double stationM) {
    List<Station> s = line.stations();
    for (int i = s.size() - 1; i > 0; i--) {
      Station a = s.get(i - 1);
      Station b = s.get(i);
      if (b.stationM() <= stationM + EPSILON_M) {
        return b.invertM();
      }
      if (a.stationM() <= stationM + EPSILON_M) {
        double share = (stationM - a.stationM()) / (b.stationM() - a.stationM());
        return a.invertM() + share * (b.invertM() - a.invertM());
      }
    }
    return s.get(0).invertM();
  }

  /** Branches that arrive above the line that they join. */
  static void junctionDrops(DrainLine main, List<Route.Branch> branches, List<String> notes) {
    for (int i = 0; i < branches.size(); i++) {
      List<Station> stations = branches.get(i).line().stations();
      double by =
          stations.get(stations.size() - 1).invertM() - invertAt(main, branches.get(i).junctionM());
      if (by >= SAID_DROP_M) {
        notes.add(
            text(
                "branch %d joins at station %.1f m with a drop of %.2f m",
                i + 1, branches.get(i).junctionM(), by));
      }
    }
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
