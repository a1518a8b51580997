package org.yardfall.route;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.linearref.LengthIndexedLine;

/**
 * A drawn line and its drawn branches, graded as drawn: each line no higher at a junction than the
 * branch can arrive there, each branch no lower than the line that it joins as then laid.
 *
 * @param main the main line
 * @param branches the branches in the order given
 * @param joins number of the line that each branch joins: 0 is the main line, 1 the first branch
 * @param junctionsM station in metres of each branch's junction on that line
 * @param heldDown whether the main line would fall to the outlet but for its branches
 */
record DrawnGrading(
    PinnedRoute main,
    List<PinnedRoute> branches,
    List<Integer> joins,
    List<Double> junctionsM,
    boolean heldDown) {

  /** A junction this near to a bend of the line joined, in metres, is put there. */
  private static final double AT_BEND_M = 0.05;

  private static final double ROUNDING_M = 1e-4;
  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** Keeps the lists to itself. */
  DrawnGrading {
    branches = List.copyOf(branches);
    joins = List.copyOf(joins);
    junctionsM = List.copyOf(junctionsM);
  }

  /**
   * Brings the nearer end of each branch onto the line that it joins, turns the branch toward it,
   * and gives that line a vertex there.
   *
   * @param lines the main line, upstream to downstream, and the branches, each after the line that
   *     it joins; changed
   * @param joins number of the line that each branch joins
   */
  static void join(List<List<Coordinate>> lines, List<Integer> joins) {
    for (int i = 0; i < joins.size(); i++) {
      List<Coordinate> branch = lines.get(i + 1);
      List<Coordinate> onto = lines.get(joins.get(i));
      LengthIndexedLine line = line(onto);
      double first = toLine(line, branch.get(0));
      if (first < toLine(line, branch.get(branch.size() - 1))) {
        Collections.reverse(branch);
      }
      double station = line.project(branch.get(branch.size() - 1));
      Coordinate at = vertexAt(onto, station, line.extractPoint(station));
      branch.set(branch.size() - 1, new Coordinate(at.x, at.y));
    }
  }

  private static double toLine(LengthIndexedLine line, Coordinate place) {
    return line.extractPoint(line.project(place)).distance(place);
  }

  private static Coordinate vertexAt(List<Coordinate> onto, double stationM, Coordinate at) {
    double station = 0;
    int next = 1;
    while (next < onto.size() - 1
        && station + onto.get(next).distance(onto.get(next - 1)) < stationM) {
      station += onto.get(next).distance(onto.get(next - 1));
      next++;
    }
    for (int i = next - 1; i <= next; i++) {
      if (onto.get(i).distance(at) <= AT_BEND_M) {
        return onto.get(i);
      }
    }
    onto.add(next, new Coordinate(at.x, at.y));
    return at;
  }

  private static LengthIndexedLine line(List<Coordinate> points) {
    return new LengthIndexedLine(FACTORY.createLineString(points.toArray(Coordinate[]::new)));
  }

  /**
   * Grades a drain.
   *
   * @param lines the main line and the branches, upstream to downstream, each branch after the line
   *     that it joins and ending at a vertex of it
   * @param joins number of the line that each branch joins
   * @param outlet the outlet of the main line
   */
  static DrawnGrading grade(
      RouteGround ground,
      List<List<Coordinate>> lines,
      List<Integer> joins,
      OutletTarget outlet,
      Bounds b) {
    int n = joins.size();
    double[] junctionsM = new double[n];
    double[] arrivesM = new double[n];
    List<Map<Double, Double>> highestM = new ArrayList<>();
    lines.forEach(line -> highestM.add(new HashMap<>()));
    for (int i = n - 1; i >= 0; i--) { // those that join a branch come after it
      List<Coordinate> branch = lines.get(i + 1);
      junctionsM[i] = line(lines.get(joins.get(i))).project(branch.get(branch.size() - 1));
      arrivesM[i] =
          PinnedRoute.highestAtEnd(ground, branch, b, highestM.get(i + 1))
              .orElse(Double.POSITIVE_INFINITY);
      highestM.get(joins.get(i)).merge(junctionsM[i], arrivesM[i], Math::min);
    }
    List<PinnedRoute> graded = new ArrayList<>();
    graded.add(PinnedRoute.grade(ground, lines.get(0), outlet, b, highestM.get(0)));
    for (int i = 0; i < n && graded.get(joins.get(i)).line().isPresent(); i++) {
      double there = DrainRouter.invertAt(graded.get(joins.get(i)).line().get(), junctionsM[i]);
      // The line joined was held as low as the branch needs; rounding must not undo that.
      double invertM = there - arrivesM[i] < ROUNDING_M ? Math.min(there, arrivesM[i]) : there;
      List<Coordinate> branch = lines.get(i + 1);
      OutletTarget junction =
          new OutletTarget(
              "junction", branch.get(branch.size() - 1), invertM, OutletTarget.End.PIPE);
      graded.add(PinnedRoute.grade(ground, branch, junction, b, highestM.get(i + 1)));
    }
    boolean heldDown =
        graded.get(0).line().isEmpty()
            && n > 0
            && PinnedRoute.grade(ground, lines.get(0), outlet, b).line().isPresent();
    return new DrawnGrading(
        graded.get(0),
        graded.subList(1, graded.size()),
        joins,
        DoubleStream.of(junctionsM).boxed().toList(),
        heldDown);
  }

  /** Whether pipes fall along all of it. */
  boolean laid() {
    return main.line().isPresent()
        && branches.size() == joins.size()
        && branches.stream().allMatch(b -> b.line().isPresent());
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

  /** The branches as laid, each after the line that it joins, by their junctions' stations. */
  List<Route.Branch> laidBranches() {
    List<Route.Branch> laid = new ArrayList<>();
    for (int i = 0; i < branches.size(); i++) {
      laid.add(
          new Route.Branch(branches.get(i).line().orElseThrow(), joins.get(i), junctionsM.get(i)));
    }
    return BranchOrder.downTheLines(laid);
  }
}
