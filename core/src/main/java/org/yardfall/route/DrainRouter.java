package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.DrainLimits;

/**
 * Takes collecting lines to an outlet: finds where the first line's water should leave it and the
 * least-cost trunk from there, straightens the trunk, lays the pipe in the fewest grades or with
 * the least digging, and joins the other lines to it.
 *
 * <p>The exit and the trunk are chosen together, so the first line's drain is the least-cost one on
 * the graph before straightening. Further lines join it, or each other ({@link BranchJoiner}). Safe
 * for use by several threads.
 */
public final class DrainRouter {

  private static final double EPSILON_M = 1e-6;

  /** So many exits are tried, where no pipe can be laid from the best or it doubles back. */
  private static final int MOST_EXITS = 4;

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
    return GravityReachFinder.meets(ground, outlets, b, ExitCells.of(ground, starts(exits), b));
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
    List<CollectorArms.Exit> left = new ArrayList<>(exits);
    for (int i = 0; i < MOST_EXITS; i++) {
      Optional<TrunkFinder.Trunk> trunk = trunk(left, outlets, b, cost, reach);
      if (trunk.isEmpty()) {
        return Optional.empty();
      }
      CollectorArms.Exit exit = left.get(trunk.get().start());
      Optional<Draft> draft = lay(exit, outlets.get(trunk.get().outlet()), trunk.get(), b, cost);
      if (draft.isPresent()) {
        return draft;
      }
      left.remove(exit);
    }
    return Optional.empty();
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
    return TrunkFinder.find(ground, starts(exits), outlets, b, cost, reach);
  }

  private static List<TrunkFinder.Start> starts(List<CollectorArms.Exit> exits) {
    return exits.stream().map(CollectorArms.Exit::start).toList();
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
      unserved.add(BranchJoiner.part(collectors.get(0), whole.shorter()));
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
    if (doublesBack(straight, exit.shorter()) || doublesBack(straight, exit.longer())) {
      return Optional.empty();
    }
    GroundLine line = mainLine(exit, straight, outlet, b);
    double lowest = outlet.invertM() - b.outletLoweredM();
    Optional<DrainTree> laid = DrainTree.of(line, lowest, b, kind());
    if (laid.isEmpty()) {
      return Optional.empty();
    }
    DrainTree tree = laid.get();
    if (!exit.shorter().isEmpty()
        && !tree.add(
            ground.line(exit.shorter()).orElseThrow(), 0, PlanLine.length(exit.longer()))) {
      return Optional.empty();
    }
    unserved.addAll(
        new BranchJoiner(ground, b, cost, tree)
            .join(collectors.subList(1, lines.size()), lines.subList(1, lines.size())));
    if (tree.size() - (exit.shorter().isEmpty() ? 1 : 2) > 1) {
      notes.add(
          "its further lines were joined one after the other, the cheapest first; another order may"
              + " cost less, how much less is not known");
    }
    DrainLine main = tree.laid(0);
    List<Route.Branch> branches = tree.branches();
    double total =
        cost.laid(main) + branches.stream().mapToDouble(each -> cost.laid(each.line())).sum();
    notes.addAll(LineNotes.of(line, b, lowest, main, kind()));
    branches.forEach(branch -> notes.addAll(LineNotes.drops(branch.line())));
    notes.addAll(LineNotes.junctionDrops(main, branches));
    return Optional.of(new Draft(outlet.id(), main, branches, total, unserved, notes));
  }

  /** Whether a trunk runs in the trench of an arm that it comes from. */
  private boolean doublesBack(List<Coordinate> trunk, List<Coordinate> arm) {
    return arm.size() > 1
        && trunk.size() > 1
        && SharedTrench.together(
            BranchJoiner.part(collectors.get(0), trunk),
            BranchJoiner.part(collectors.get(0), arm),
            ground.site().drain().trenchWidthM());
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

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
