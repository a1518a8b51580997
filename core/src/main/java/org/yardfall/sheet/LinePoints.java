package org.yardfall.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.yardfall.drain.LineDesign;
import org.yardfall.drain.StretchDesign;
import org.yardfall.layer.Result;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.UnitSystem;

/**
 * The points of a drain at which something changes: ends, bends, grades, pipes, bores, junctions.
 * Between them everything is straight; the stations there stand under the profile.
 */
final class LinePoints {

  private static final double BEND_DEG = 5;
  private static final double GRADE_BREAK = 1e-4;
  private static final double SAME_M = 0.01;

  private final Route route;
  private final List<DrainLine> lines;
  private final List<LineDesign> designs;

  private LinePoints(Result result, Route route) {
    this.route = route;
    this.lines = MapPainter.lines(route);
    this.designs = result.design(route).map(d -> d.lines()).orElse(List.of());
  }

  /**
   * A point.
   *
   * @param station the station
   * @param what what it is, in words
   */
  record Point(Station station, String what) {}

  /** The points of each line of a route: main line, then branches. */
  static List<List<Point>> of(Result result, Route route) {
    LinePoints points = new LinePoints(result, route);
    List<List<Point>> all = new ArrayList<>();
    for (int i = 0; i < points.lines.size(); i++) {
      all.add(points.along(i));
    }
    return all;
  }

  /** Whether a line ends, bends or changes its grade at a station. */
  static boolean isMarked(List<Station> stations, int i) {
    return i == 0
        || i == stations.size() - 1
        || Math.abs(turnDeg(stations, i)) > BEND_DEG
        || breaks(stations, i);
  }

  private List<Point> along(int line) {
    List<Station> stations = lines.get(line).stations();
    List<Point> points = new ArrayList<>();
    for (int i = 0; i < stations.size(); i++) {
      List<String> what = new ArrayList<>();
      if (i == 0) {
        what.add("upper end");
      } else if (i == stations.size() - 1) {
        what.add(line == 0 ? "outlet " + route.outletId() : "junction");
      } else {
        changes(stations, i, what);
      }
      pipe(line, stations.get(i), i == 0).ifPresent(what::add);
      joining(line, stations.get(i)).ifPresent(what::add);
      if (!what.isEmpty()) {
        points.add(new Point(stations.get(i), String.join(", ", what)));
      }
    }
    return points;
  }

  private static void changes(List<Station> stations, int i, List<String> what) {
    double turn = Math.abs(turnDeg(stations, i));
    if (turn > BEND_DEG) {
      what.add("bend " + Math.round(turn) + "°");
    }
    if (breaks(stations, i)) {
      what.add("grade " + UnitSystem.grade(stations.get(i).grade()) + " from here");
    }
    Station.Span before = stations.get(i - 1).span();
    Station.Span here = stations.get(i).span();
    if (before != here) {
      what.add(
          switch (here) {
            case BORED -> "bored from here";
            case OPEN -> "open trench from here";
            case SOLID -> "solid pipe from here";
          });
    }
  }

  /** The pipe that begins at a station. */
  private Optional<String> pipe(int line, Station station, boolean first) {
    if (line >= designs.size()) {
      return Optional.empty();
    }
    String before = "";
    for (StretchDesign stretch : designs.get(line).stretches()) {
      if (Math.abs(stretch.fromM() - station.stationM()) < SAME_M
          && (first || !stretch.pipeWords().equals(before))) {
        return Optional.of(stretch.pipeWords() + " from here");
      }
      before = stretch.pipeWords();
    }
    return Optional.empty();
  }

  private Optional<String> joining(int line, Station at) {
    for (int i = 1; i < lines.size(); i++) {
      List<Station> other = lines.get(i).stations();
      Station end = other.get(other.size() - 1);
      if (i != line && Math.hypot(end.x() - at.x(), end.y() - at.y()) < SAME_M) {
        return Optional.of("branch " + i + " joins");
      }
    }
    return Optional.empty();
  }

  private static boolean breaks(List<Station> stations, int i) {
    return Math.abs(stations.get(i).grade() - stations.get(i - 1).grade()) > GRADE_BREAK;
  }

  /** How much the line turns at a station between two others, in degrees. */
  private static double turnDeg(List<Station> stations, int i) {
    Station before = stations.get(i - 1);
    Station here = stations.get(i);
    Station after = stations.get(i + 1);
    double turn =
        Math.atan2(after.y() - here.y(), after.x() - here.x())
            - Math.atan2(here.y() - before.y(), here.x() - before.x());
    return Math.IEEEremainder(Math.toDegrees(turn), 360);
  }
}
