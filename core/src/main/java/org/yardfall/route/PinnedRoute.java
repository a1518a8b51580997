package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.route.Rejection.Relaxation;
import org.yardfall.site.DrainLimits;

/**
 * A line that the user drew: graded as drawn, or told what is wrong with it and the smallest change
 * of a limit that mends it.
 *
 * @param line the line as laid, where a pipe falls along it within the limits
 * @param faults what is wrong with it, in sentences; empty where it can be built
 * @param relax for each limit alone, the least change with which a pipe falls along it
 * @param notes what the builder should know, in words
 */
public record PinnedRoute(
    Optional<DrainLine> line, List<String> faults, List<Relaxation> relax, List<String> notes) {

  /** Keeps the lists to itself. */
  public PinnedRoute {
    faults = List.copyOf(faults);
    relax = List.copyOf(relax);
    notes = List.copyOf(notes);
  }

  /** Whether it can be built as drawn. */
  public boolean works() {
    return faults.isEmpty();
  }

  /**
   * Grades a drawn line.
   *
   * @param ground the ground
   * @param drawn the line, upstream to downstream, in metres of the working plane
   * @param outlet the outlet it must end at
   * @param b the limits
   */
  public static PinnedRoute grade(
      RouteGround ground, List<Coordinate> drawn, OutletTarget outlet, Bounds b) {
    return grade(ground, drawn, outlet, b, Map.of());
  }

  /**
   * The same where other lines join.
   *
   * @param highestM by station in metres, the invert in metres that the pipe must not exceed there
   */
  static PinnedRoute grade(
      RouteGround ground,
      List<Coordinate> drawn,
      OutletTarget outlet,
      Bounds b,
      Map<Double, Double> highestM) {
    List<String> faults = new ArrayList<>();
    List<Coordinate> points = PlanLine.withoutRepeats(drawn);
    Optional<GroundLine> along = points.size() < 2 ? Optional.empty() : ground.line(points);
    if (along.isEmpty()) {
      faults.add(points.size() < 2 ? "a line needs two points" : "it leaves the known ground");
      return new PinnedRoute(Optional.empty(), faults, List.of(), List.of());
    }
    faults.addAll(planFaults(ground, points));
    double gap = points.get(points.size() - 1).distance(outlet.at());
    if (gap > 0.05) {
      faults.add(
          String.format(
              Locale.ROOT, "it ends %.2f m from outlet %s; draw it on", gap, outlet.id()));
    }
    GroundLine line = outlet.ending(lowered(along.get(), highestM, b), ground);
    double invert = outlet.invertM() - b.outletLoweredM();
    DrainLimits.GradeLine kind = ground.site().drain().gradeLine();
    Optional<DrainLine> laid = GradeLine.lay(line, b, invert, kind);
    List<Relaxation> relax = List.of();
    if (laid.isEmpty()) {
      relax = RelaxationFinder.find(b, other -> falls(line, outlet, other));
      faults.add(noFall(line, outlet, b, relax));
    }
    List<String> notes =
        laid.map(pipe -> LineNotes.of(line, b, invert, pipe, kind)).orElse(List.of());
    return new PinnedRoute(laid, faults, relax, notes);
  }

  private static GroundLine lowered(GroundLine line, Map<Double, Double> highestM, Bounds b) {
    GroundLine lower = line;
    for (Map.Entry<Double, Double> at : highestM.entrySet()) {
      lower = lower.noHigherAt(at.getKey(), at.getValue(), b.outsideM());
    }
    return lower;
  }

  /**
   * The highest invert in metres at which a pipe can arrive at a line's end; empty: nowhere.
   *
   * @param highestM by station in metres, the invert in metres that the pipe must not exceed there
   */
  static OptionalDouble highestAtEnd(
      RouteGround ground, List<Coordinate> drawn, Bounds b, Map<Double, Double> highestM) {
    List<Coordinate> points = PlanLine.withoutRepeats(drawn);
    Optional<GroundLine> along = points.size() < 2 ? Optional.empty() : ground.line(points);
    double end =
        along
            .map(line -> lowered(line, highestM, b))
            .map(line -> StepGraph.highestAtEnd(line, Double.POSITIVE_INFINITY, b))
            .orElse(Double.NaN);
    return Double.isFinite(end) ? OptionalDouble.of(end) : OptionalDouble.empty();
  }

  /** What the line meets in plan and how far it must move to be clear of it. */
  private static List<String> planFaults(RouteGround ground, List<Coordinate> points) {
    LineString line = new GeometryFactory().createLineString(points.toArray(Coordinate[]::new));
    List<String> faults = new ArrayList<>();
    ground
        .rules()
        .intrusions(line)
        .forEach(
            (what, by) ->
                faults.add(
                    Double.isInfinite(by)
                        ? "it meets " + what + ", and no move leads past that"
                        : String.format(
                            Locale.ROOT,
                            "it meets %s: move it %.2f m there to be clear of it",
                            what,
                            PlanLine.centimetresUp(by))));
    String other = ground.whyNot(points);
    if (faults.isEmpty() && !other.isEmpty()) {
      double inward = other.contains("the setback") ? ground.rules().intoSetbackM(line) : 0;
      faults.add(
          inward > 0
              ? String.format(
                  Locale.ROOT, "%s: move it %.2f m inward", other, PlanLine.centimetresUp(inward))
              : other);
    }
    return faults;
  }

  private static boolean falls(GroundLine line, OutletTarget outlet, Bounds b) {
    return StepGraph.highestAtEnd(line, Double.POSITIVE_INFINITY, b)
        >= outlet.invertM() - b.outletLoweredM() - 1e-9;
  }

  private static String noFall(
      GroundLine line, OutletTarget outlet, Bounds b, List<Relaxation> relax) {
    double[] v = line.highestAsFar(Double.POSITIVE_INFINITY, b);
    int last = 0;
    while (last < v.length && !Double.isNaN(v[last])) {
      last++;
    }
    int at = Math.min(last, v.length - 1);
    boolean rock = line.floorM[at] > line.highM[at] - b.maxDepthM();
    String why =
        last == v.length
            ? String.format(
                Locale.ROOT,
                "the highest pipe that falls %.2f %% arrives at %.3f m, %.3f m below %s",
                100 * b.minGrade(),
                v[v.length - 1],
                outlet.invertM() - v[v.length - 1],
                outlet.end() == OutletTarget.End.PIPE
                    ? "the line that it joins"
                    : "outlet " + outlet.id())
            : String.format(
                Locale.ROOT,
                "at station %.1f m the highest pipe that falls %.2f %% is deeper than %.2f m%s",
                line.stationM[at],
                100 * b.minGrade(),
                rock ? line.groundM[at] - line.floorM[at] : b.maxDepthM(),
                rock ? ", all that the rock there allows" : "");
    return relax.isEmpty() && outlet.end() != OutletTarget.End.PIPE
        ? why + "; " + RelaxationFinder.togetherWords(b, other -> falls(line, outlet, other))
        : why;
  }
}
