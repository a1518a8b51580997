package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.trench.TrenchSection;

/** Sets the stakes of one line. */
final class Staker {

  /** A change of grade from which a stake is set, 0.005 %: less cannot be laid. */
  private static final double GRADE_BREAK = 5e-5;

  private static final double DROP_M = 0.002;
  private static final double BEND_DEG = 1;
  private static final double SAME_M = 0.005;

  private final Route route;
  private final PlannedLine line;
  private final StakeSettings settings;
  private final List<LaidPipe> pipes;
  private final TreeMap<Double, List<String>> stakes = new TreeMap<>();

  Staker(Route route, PlannedLine line, StakeSettings settings, List<LaidPipe> pipes) {
    this.route = route;
    this.line = line;
    this.settings = settings;
    this.pipes = pipes;
  }

  List<CutRow> rows() {
    add(0, "upper end");
    add(line.lengthM(), end());
    addChanges();
    addPipes();
    for (int i = 0; i < route.branches().size(); i++) {
      if (route.branches().get(i).joins() == line.number()) {
        add(route.branches().get(i).junctionM(), "junction of branch " + (i + 1));
      }
    }
    fillIn();
    List<Double> places = List.copyOf(stakes.keySet());
    List<CutRow> rows = new ArrayList<>();
    for (int i = 0; i < places.size(); i++) {
      rows.add(row(places.get(i), i == places.size() - 1, stakes.get(places.get(i))));
    }
    return rows;
  }

  private String end() {
    if (line.number() == 0) {
      return "outlet " + route.outletId();
    }
    int joins = route.branches().get(line.number() - 1).joins();
    return "joins " + (joins == 0 ? "main line" : PlannedLine.name(joins));
  }

  private void addChanges() {
    List<Station> stations = line.stations();
    for (int i = 1; i + 1 < stations.size(); i++) {
      Station before = stations.get(i - 1);
      Station here = stations.get(i);
      if (here.stationM() - before.stationM() < 1e-6) {
        if (before.invertM() - here.invertM() > DROP_M) {
          add(here.stationM(), "drop");
        }
        continue;
      }
      double turn = turnDeg(here.stationM());
      if (Math.abs(turn) >= BEND_DEG) {
        add(
            here.stationM(),
            String.format(
                Locale.ROOT, "bend %.0f° %s", Math.abs(turn), turn > 0 ? "left" : "right"));
      }
      if (Math.abs(here.grade() - before.grade()) > GRADE_BREAK) {
        add(here.stationM(), "grade break");
      }
      if (here.span() != before.span()) {
        add(here.stationM(), change(before.span(), here.span()));
      }
    }
  }

  /** Where another pipe begins, which may ask for a deeper trench. */
  private void addPipes() {
    for (int i = 1; i < pipes.size(); i++) {
      if (!pipes.get(i).words().equals(pipes.get(i - 1).words())) {
        add(pipes.get(i).fromM(), pipes.get(i).words() + " begins");
      }
    }
  }

  private static String change(Station.Span before, Station.Span here) {
    return switch (here) {
      case BORED -> "crossing begins (bore)";
      case SOLID ->
          before == Station.Span.BORED ? "crossing ends, solid pipe" : "solid pipe begins";
      case OPEN -> before == Station.Span.BORED ? "crossing ends" : "solid pipe ends";
    };
  }

  /** Stakes between the others, evenly, none farther apart than the interval. */
  private void fillIn() {
    List<Double> fixed = List.copyOf(stakes.keySet());
    for (int i = 0; i + 1 < fixed.size(); i++) {
      double from = fixed.get(i);
      double to = fixed.get(i + 1);
      // On whole multiples of the interval, as a tape reads them.
      double step = settings.intervalM();
      for (long k = (long) Math.floor(from / step) + 1; k * step < to - SAME_M; k++) {
        if (k * step > from + SAME_M) {
          add(k * step, "interval");
        }
      }
    }
  }

  private void add(double stationM, String why) {
    Double key = stationM;
    Double near = stakes.ceilingKey(stationM - SAME_M);
    if (near != null && near <= stationM + SAME_M) {
      key = near;
    }
    List<String> reasons = stakes.computeIfAbsent(key, k -> new ArrayList<>());
    if (!reasons.contains(why)) {
      reasons.add(why);
    }
  }

  private CutRow row(double stationM, boolean last, List<String> why) {
    Station here = line.at(stationM);
    double depthM = here.groundM() - here.invertM();
    LaidPipe pipe = LaidPipe.at(pipes, stationM);
    TrenchSection section = pipe == null ? settings.section() : pipe.in(settings.section());
    double cutM = section.dugDepthM(depthM);
    double bottomM = here.groundM() - cutM;
    Optional<LaserSetup> setup = settings.setup();
    return new CutRow(
        stationM,
        why,
        pipe == null ? "" : pipe.words(),
        new Coordinate(here.x(), here.y()),
        here.groundM(),
        here.invertM(),
        bottomM,
        cutM,
        dropM(here),
        last ? Double.NaN : here.grade(),
        stake(here, StakeSettings.Side.LEFT),
        stake(here, StakeSettings.Side.RIGHT),
        setup.map(s -> OptionalDouble.of(s.rodM(here.invertM()))).orElse(OptionalDouble.empty()),
        setup.map(s -> OptionalDouble.of(s.rodM(bottomM))).orElse(OptionalDouble.empty()));
  }

  /** Invert where the pipe arrives at a station, less the invert where it leaves. */
  private double dropM(Station here) {
    return line.stations().stream()
        .filter(s -> Math.abs(s.stationM() - here.stationM()) < 1e-6)
        .mapToDouble(s -> s.invertM() - here.invertM())
        .filter(drop -> drop > DROP_M)
        .max()
        .orElse(0);
  }

  /**
   * An offset stake. At a bend it stands where the offset lines of both stretches meet, so that a
   * string from stake to stake runs along the trench; at a sharp bend no farther than twice the
   * offset.
   */
  private Optional<Coordinate> stake(Station here, StakeSettings.Side side) {
    if (settings.offsetM() == 0
        || (settings.side() != side && settings.side() != StakeSettings.Side.BOTH)) {
      return Optional.empty();
    }
    Coordinate before = line.directionBefore(here.stationM());
    Coordinate after = line.directionAfter(here.stationM());
    double nx = -(before.y + after.y);
    double ny = before.x + after.x;
    double length = Math.hypot(nx, ny);
    if (length < 1e-9) {
      nx = -after.y;
      ny = after.x;
      length = 1;
    }
    double halfCosine = Math.max(0.5, (nx * -after.y + ny * after.x) / length);
    double reach = settings.offsetM() / halfCosine / length;
    int sign = side == StakeSettings.Side.LEFT ? 1 : -1;
    return Optional.of(new Coordinate(here.x() + sign * reach * nx, here.y() + sign * reach * ny));
  }

  /** Turn at a station in degrees, positive to the left. */
  private double turnDeg(double stationM) {
    Coordinate a = line.directionBefore(stationM);
    Coordinate b = line.directionAfter(stationM);
    return Math.toDegrees(Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y));
  }
}
