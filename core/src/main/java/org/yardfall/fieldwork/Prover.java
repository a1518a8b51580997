package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.yardfall.elevation.Shot;
import org.yardfall.route.Route;
import org.yardfall.route.Station;

/** Holds shots on a laid pipe against the plan. */
final class Prover {

  /** Shots closer together than this along the line are one place; their mean counts. */
  private static final double ONE_PLACE_M = 0.05;

  private static final double ROUNDING_M = 1e-6;

  private final Route route;
  private final List<PlannedLine> lines;
  private final List<Shot> given;
  private final ProofLimits limits;
  private final Winter winter;
  private final List<ProofShot> used = new ArrayList<>();
  private final List<Shot> strays = new ArrayList<>();
  private final List<Blunder> blunders = new ArrayList<>();
  private final List<Belly> bellies = new ArrayList<>();
  private final List<Gap> gaps = new ArrayList<>();
  private final List<String> notes = new ArrayList<>();
  private double worstRiseM = Double.NEGATIVE_INFINITY;
  private ProofCheck.Where worstRiseAt;

  Prover(Route route, List<Shot> shots, ProofLimits limits, Winter winter) {
    this.route = route;
    this.lines = PlannedLine.of(route);
    this.given = List.copyOf(shots);
    this.limits = limits;
    this.winter = winter;
  }

  AsBuiltProof prove() {
    ShotSense.check(lines, given, limits);
    for (PlannedLine line : lines) {
      prove(line, onLine(line));
    }
    lines.forEach(this::findGaps);
    for (Shot shot : given) {
      if (distanceM(shot) > ShotSense.FAR_M) {
        strays.add(shot);
      }
    }
    addNotes();
    return new AsBuiltProof(
        route,
        limits,
        used,
        strays,
        blunders,
        bellies,
        gaps,
        winter,
        winter.places(used, bellies, limits, lines.get(0).lengthM()),
        checks(),
        notes);
  }

  private double distanceM(Shot shot) {
    return nearest(shot).beside(shot.x(), shot.y()).distanceM();
  }

  private PlannedLine nearest(Shot shot) {
    return ShotSense.nearest(lines, shot, limits.rodToInvertM());
  }

  private List<ProofShot> onLine(PlannedLine line) {
    List<ProofShot> shots = new ArrayList<>();
    for (Shot shot : given) {
      boolean here = nearest(shot).name().equals(line.name());
      if (here && distanceM(shot) <= ShotSense.FAR_M) {
        shots.add(place(shot, line));
      }
    }
    shots.sort(Comparator.comparingDouble(ProofShot::stationM).thenComparing(s -> s.shot().id()));
    return shots;
  }

  private ProofShot place(Shot shot, PlannedLine line) {
    PlannedLine.Beside beside = line.beside(shot.x(), shot.y());
    Station plan = line.at(beside.stationM());
    double built = shot.z() - limits.rodToInvertM();
    double planned = plan.invertM();
    for (Station station : line.stations()) {
      // By a drop either invert may have been shot.
      boolean here = Math.abs(station.stationM() - beside.stationM()) <= ONE_PLACE_M;
      if (here && Math.abs(station.invertM() - built) < Math.abs(planned - built) - 0.01) {
        planned = station.invertM();
      }
    }
    return new ProofShot(
        shot,
        line.name(),
        beside.stationM(),
        beside.offsetM(),
        planned,
        built,
        plan.groundM() - built - limits.pipeOutsideM(),
        Double.NaN);
  }

  private void prove(PlannedLine line, List<ProofShot> shots) {
    blunders.addAll(BlunderFinder.takeOut(shots, limits.blunderM()));
    for (int i = 0; i < shots.size(); i++) {
      used.add(i + 1 < shots.size() ? graded(shots.get(i), shots.get(i + 1)) : shots.get(i));
    }
    List<double[]> places = places(shots);
    double[] stationM = places.stream().mapToDouble(p -> p[0]).toArray();
    double[] invertM = places.stream().mapToDouble(p -> p[1]).toArray();
    for (int i = 0; i + 1 < invertM.length; i++) {
      double rise = invertM[i + 1] - invertM[i];
      if (rise > worstRiseM) {
        worstRiseM = rise;
        worstRiseAt = stretch(line.name(), stationM[i], stationM[i + 1]);
      }
    }
    if (stationM.length > 1) {
      bellies.addAll(BellyFinder.find(line.name(), stationM, invertM, limits.pipeInsideM()));
    }
  }

  private static ProofShot graded(ProofShot shot, ProofShot next) {
    double run = next.stationM() - shot.stationM();
    return new ProofShot(
        shot.shot(),
        shot.line(),
        shot.stationM(),
        shot.offsetM(),
        shot.plannedM(),
        shot.builtM(),
        shot.coverM(),
        run < ONE_PLACE_M ? Double.NaN : (shot.builtM() - next.builtM()) / run);
  }

  /** Station and invert of each place shot; shots at one place make one, by their mean. */
  private static List<double[]> places(List<ProofShot> shots) {
    List<double[]> places = new ArrayList<>();
    int count = 0;
    for (ProofShot shot : shots) {
      double[] last = places.isEmpty() ? null : places.get(places.size() - 1);
      if (last != null && shot.stationM() - last[0] < ONE_PLACE_M) {
        count++;
        last[1] += (shot.builtM() - last[1]) / count;
      } else {
        places.add(new double[] {shot.stationM(), shot.builtM()});
        count = 1;
      }
    }
    return places;
  }

  private void findGaps(PlannedLine line) {
    double from = 0;
    for (double stationM : shownM(line)) {
      addGap(line, from, stationM);
      from = stationM;
    }
    addGap(line, from, line.lengthM());
    if (used.stream().noneMatch(shot -> shot.line().equals(line.name()))) {
      notes.add("No shot shows " + spoken(line.name()) + ".");
    }
  }

  /** Stations at which a shot shows the line; where two lines meet, one shot shows both. */
  private double[] shownM(PlannedLine line) {
    return used.stream()
        .filter(
            shot ->
                shot.line().equals(line.name())
                    || beside(line, shot).distanceM() <= limits.offsetM())
        .mapToDouble(shot -> beside(line, shot).stationM())
        .sorted()
        .toArray();
  }

  private static PlannedLine.Beside beside(PlannedLine line, ProofShot shot) {
    return line.beside(shot.shot().x(), shot.shot().y());
  }

  private void addGap(PlannedLine line, double from, double to) {
    if (to - from > limits.gapM() + ROUNDING_M) {
      gaps.add(new Gap(line.name(), from, to));
    }
  }

  private List<ProofCheck> checks() {
    List<ProofCheck> checks = new ArrayList<>();
    checks.add(worst("level", limits.levelM(), s -> Math.abs(s.differenceM())));
    checks.add(worst("line", limits.offsetM(), s -> Math.abs(s.offsetM())));
    checks.add(
        check("adverse grade", worstRiseM, limits.noiseM(), worstRiseM > 0 ? worstRiseAt : null));
    Belly deepest = bellies.stream().max(Comparator.comparingDouble(Belly::depthM)).orElse(null);
    checks.add(
        check(
            "belly",
            deepest == null ? 0 : deepest.depthM(),
            limits.bellyM(),
            deepest == null ? null : stretch(deepest.line(), deepest.fromM(), deepest.toM())));
    checks.add(worst("missing cover", limits.levelM(), this::coverShortM));
    Gap longest = gaps.stream().max(Comparator.comparingDouble(Gap::lengthM)).orElse(null);
    checks.add(
        check(
            "complete",
            longest == null ? longestSpacingM() : longest.lengthM(),
            limits.gapM(),
            longest == null ? null : stretch(longest.line(), longest.fromM(), longest.toM())));
    Blunder worst =
        blunders.stream().max(Comparator.comparingDouble(b -> Math.abs(b.offM()))).orElse(null);
    checks.add(
        check(
            "shots agree",
            worst == null ? 0 : Math.abs(worst.offM()),
            limits.blunderM(),
            worst == null ? null : place(worst.line(), worst.shot(), worst.stationM())));
    return checks;
  }

  private interface Measure {
    double of(ProofShot shot);
  }

  private ProofCheck worst(String name, double limitM, Measure measure) {
    ProofShot worst = used.stream().max(Comparator.comparingDouble(measure::of)).orElseThrow();
    return check(
        name, measure.of(worst), limitM, place(worst.line(), worst.shot(), worst.stationM()));
  }

  private static ProofCheck check(String name, double worstM, double limitM, ProofCheck.Where at) {
    return new ProofCheck(name, worstM <= limitM + ROUNDING_M, worstM, limitM, at);
  }

  /** What is missing of the least cover, or of the planned cover where that is less by design. */
  private double coverShortM(ProofShot shot) {
    double planned = shot.coverM() + shot.differenceM();
    return Math.max(0, Math.min(limits.minCoverM(), planned) - shot.coverM());
  }

  private double longestSpacingM() {
    double longest = 0;
    for (PlannedLine line : lines) {
      double from = 0;
      for (double stationM : shownM(line)) {
        longest = Math.max(longest, stationM - from);
        from = stationM;
      }
      longest = Math.max(longest, line.lengthM() - from);
    }
    return longest;
  }

  private void addNotes() {
    double[] off = used.stream().mapToDouble(ProofShot::differenceM).sorted().toArray();
    double median = (off[(off.length - 1) / 2] + off[off.length / 2]) / 2;
    double height = (limits.pipeInsideM() + limits.pipeOutsideM()) / 2;
    if (limits.held() == ProofLimits.Held.INVERT && Math.abs(median - height) < 0.015) {
      notes.add(
          "The shots lie a pipe's height above the planned invert: was the rod held on top of the"
              + " pipe?");
    } else if (limits.held() == ProofLimits.Held.TOP && Math.abs(median + height) < 0.015) {
      notes.add(
          "The shots lie a pipe's height below the planned top: was the rod held on the invert?");
    } else if (Math.abs(median) > limits.levelM()
        && off[off.length - 1] - off[0] < Math.abs(median)) {
      notes.add(
          "All shots lie %s: check the benchmark and the height of instrument before the pipe."
              .formatted(median > 0 ? "high" : "low"));
    }
    double[] sides = used.stream().mapToDouble(ProofShot::offsetM).sorted().toArray();
    double side = (sides[(sides.length - 1) / 2] + sides[sides.length / 2]) / 2;
    if (Math.abs(side) > limits.offsetM()) {
      notes.add(
          "The pipe lies to the %s of its line throughout.".formatted(side > 0 ? "right" : "left"));
    }
  }

  private static ProofCheck.Where stretch(String line, double from, double to) {
    return new ProofCheck.Where(line, "", from, to);
  }

  private static ProofCheck.Where place(String line, Shot shot, double stationM) {
    return new ProofCheck.Where(line, shot.id(), stationM, stationM);
  }

  /** The line's name in a sentence. */
  static String spoken(String line) {
    return "main".equals(line) ? "the main line" : line;
  }
}
