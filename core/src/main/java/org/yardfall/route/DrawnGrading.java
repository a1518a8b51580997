package org.yardfall.route;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.linearref.LengthIndexedLine;

/**
 * A drawn line and its drawn branches, graded as drawn: the main line no higher at a junction than
 * the branch can arrive there, each branch no lower than the main line as then laid.
 *
 * @param main the main line
 * @param branches the branches in the order given
 * @param junctionsM station in metres of each branch's junction on the main line
 * @param heldDown whether the main line would fall to the outlet but for its branches
 */
record DrawnGrading(
    PinnedRoute main, List<PinnedRoute> branches, List<Double> junctionsM, boolean heldDown) {

  /** A junction this near to a bend of the main line, in metres, is put there. */
  private static final double AT_BEND_M = 0.05;

  private static final double ROUNDING_M = 1e-4;
  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** Keeps the lists to itself. */
  DrawnGrading {
    branches = List.copyOf(branches);
    junctionsM = List.copyOf(junctionsM);
  }

  /**
   * Brings the nearer end of each branch onto the main line, turns the branch toward it, and gives
   * the main line a vertex there.
   *
   * @param main the main line, upstream to downstream; changed
   * @param branches the branches; changed
   */
  static void join(List<Coordinate> main, List<List<Coordinate>> branches) {
    for (List<Coordinate> branch : branches) {
      LengthIndexedLine line = line(main);
      double first = toLine(line, branch.get(0));
      if (first < toLine(line, branch.get(branch.size() - 1))) {
        Collections.reverse(branch);
      }
      double station = line.project(branch.get(branch.size() - 1));
      Coordinate at = vertexAt(main, station, line.extractPoint(station));
      branch.set(branch.size() - 1, new Coordinate(at.x, at.y));
    }
  }

  private static double toLine(LengthIndexedLine line, Coordinate place) {
    return line.extractPoint(line.project(place)).distance(place);
  }

  private static Coordinate vertexAt(List<Coordinate> main, double stationM, Coordinate at) {
    double station = 0;
    int next = 1;
    while (next < main.size() - 1
        && station + main.get(next).distance(main.get(next - 1)) < stationM) {
      station += main.get(next).distance(main.get(next - 1));
      next++;
    }
    for (int i = next - 1; i <= next; i++) {
      if (main.get(i).distance(at) <= AT_BEND_M) {
        return main.get(i);
      }
    }
    main.add(next, new Coordinate(at.x, at.y));
    return at;
  }

  private static LengthIndexedLine line(List<Coordinate> points) {
    return new LengthIndexedLine(FACTORY.createLineString(points.toArray(Coordinate[]::new)));
  }

  /**
   * Grades a drain.
   *
   * @param main the main line, upstream to downstream
   * @param branches lines that end at vertices of the main line, upstream to downstream
   * @param outlet the outlet of the main line
   */
  static DrawnGrading grade(
      RouteGround ground,
      List<Coordinate> main,
      List<List<Coordinate>> branches,
      OutletTarget outlet,
      Bounds b) {
    List<Double> junctions = new ArrayList<>();
    List<Double> arrives = new ArrayList<>();
    Map<Double, Double> highest = new HashMap<>();
    for (List<Coordinate> branch : branches) {
      double station = line(main).project(branch.get(branch.size() - 1));
      junctions.add(station);
      double invert = PinnedRoute.highestAtEnd(ground, branch, b).orElse(Double.POSITIVE_INFINITY);
      arrives.add(invert);
      highest.merge(station, invert, Math::min);
    }
    PinnedRoute trunk = PinnedRoute.grade(ground, main, outlet, b, highest);
    List<PinnedRoute> graded = new ArrayList<>();
    for (int i = 0; i < branches.size() && trunk.line().isPresent(); i++) {
      List<Coordinate> branch = branches.get(i);
      double there = DrainRouter.invertAt(trunk.line().get(), junctions.get(i));
      // The main line was held as low as the branch needs; rounding must not undo that.
      double invertM =
          there - arrives.get(i) < ROUNDING_M ? Math.min(there, arrives.get(i)) : there;
      OutletTarget junction =
          new OutletTarget(
              "junction", branch.get(branch.size() - 1), invertM, OutletTarget.End.PIPE);
      graded.add(PinnedRoute.grade(ground, branch, junction, b));
    }
    boolean heldDown =
        trunk.line().isEmpty()
            && !branches.isEmpty()
            && PinnedRoute.grade(ground, main, outlet, b).line().isPresent();
    return new DrawnGrading(trunk, graded, junctions, heldDown);
  }

  /** Whether pipes fall along all of it. */
  boolean laid() {
    return main.line().isPresent() && branches.stream().allMatch(b -> b.line().isPresent());
  }

  /** What is wrong with it, in sentences. */
  List<String> faults() {
    List<String> faults = new ArrayList<>();
    if (heldDown) {
      faults.add("alone it falls, but not from low enough for its branches to run into it");
    }
    faults.addAll(main.faults());
    for (int i = 0; i < branches.size(); i++) {
      for (String fault : branches.get(i).faults()) {
        faults.add("branch " + (i + 1) + ": " + fault);
      }
    }
    return faults;
  }

  /** The changes of a limit that mend it; a junction cannot be lowered as an outlet can. */
  List<Rejection.Relaxation> relax() {
    List<Rejection.Relaxation> relax = new ArrayList<>(main.relax());
    branches.stream()
        .flatMap(branch -> branch.relax().stream())
        .filter(each -> !each.limit().equals("outlet"))
        .forEach(relax::add);
    return relax;
  }

  /** What the builder should know. */
  List<String> notes() {
    List<String> notes = new ArrayList<>(main.notes());
    notes.addAll(LineNotes.junctionDrops(main.line().orElseThrow(), laidBranches()));
    return notes;
  }

  /** The main line and the branches as laid. */
  List<DrainLine> lines() {
    List<DrainLine> lines = new ArrayList<>(List.of(main.line().orElseThrow()));
    laidBranches().forEach(branch -> lines.add(branch.line()));
    return lines;
  }

  /** The branches as laid, by their junctions' stations. */
  List<Route.Branch> laidBranches() {
    List<Route.Branch> laid = new ArrayList<>();
    for (int i = 0; i < branches.size(); i++) {
      laid.add(new Route.Branch(branches.get(i).line().orElseThrow(), junctionsM.get(i)));
    }
    laid.sort(Comparator.comparingDouble(Route.Branch::junctionM));
    return laid;
  }
}
