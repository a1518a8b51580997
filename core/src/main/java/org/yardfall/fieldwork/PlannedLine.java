package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineSegment;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.BadInputException;

/**
 * A line of a route by station: what lies at any distance along it, and where beside it a point
 * lies. Between stations everything goes straight. Stationing runs downstream.
 */
final class PlannedLine {

  private static final double TINY_M = 1e-6;

  private final int number;
  private final List<Station> stations;

  private PlannedLine(int number, DrainLine line) {
    this.number = number;
    this.stations = line.stations();
    if (stations.size() < 2 || !(line.lengthM() > 0)) {
      throw new BadInputException(
          name(), "has no length", "plan the route again; it has fewer than two stations");
    }
  }

  /** Main line first, then the branches in the route's order. */
  static List<PlannedLine> of(Route route) {
    List<PlannedLine> lines = new ArrayList<>();
    lines.add(new PlannedLine(0, route.main()));
    for (Route.Branch branch : route.branches()) {
      lines.add(new PlannedLine(lines.size(), branch.line()));
    }
    return lines;
  }

  /** 0 for the main line, else the branch's number from 1. */
  int number() {
    return number;
  }

  /** {@code main}, {@code branch 1} … */
  String name() {
    return name(number);
  }

  /** The name of the line with the given number. */
  static String name(int number) {
    return number == 0 ? "main" : "branch " + number;
  }

  List<Station> stations() {
    return stations;
  }

  double lengthM() {
    return stations.get(stations.size() - 1).stationM();
  }

  /**
   * Where a point lies by the line.
   *
   * @param stationM station of the nearest point of the line in metres
   * @param offsetM distance from it in metres, positive to the right looking downstream
   */
  record Beside(double stationM, double offsetM) {
    double distanceM() {
      return Math.abs(offsetM);
    }
  }

  /** The nearest place on the line; the first of equals. O(stations). */
  Beside beside(double x, double y) {
    Coordinate at = new Coordinate(x, y);
    Beside best = null;
    for (int i = 0; i + 1 < stations.size(); i++) {
      Station a = stations.get(i);
      Station b = stations.get(i + 1);
      LineSegment piece = new LineSegment(a.x(), a.y(), b.x(), b.y());
      double share = piece.getLength() < TINY_M ? 0 : piece.segmentFraction(at);
      double distance = piece.distance(at);
      if (best == null || distance < best.distanceM() - 1e-12) {
        double side = (b.x() - a.x()) * (y - a.y()) - (b.y() - a.y()) * (x - a.x());
        best =
            new Beside(
                a.stationM() + share * (b.stationM() - a.stationM()),
                side > 0 ? -distance : distance);
      }
    }
    return best;
  }

  /**
   * What is planned at a station; at a drop, what lies downstream of it. The grade is of the
   * stretch downstream.
   */
  Station at(double stationM) {
    int i = before(stationM);
    Station a = stations.get(i);
    if (i + 1 == stations.size()) {
      return a;
    }
    Station b = stations.get(i + 1);
    double share = (stationM - a.stationM()) / (b.stationM() - a.stationM());
    return new Station(
        stationM,
        mix(a.x(), b.x(), share),
        mix(a.y(), b.y(), share),
        mix(a.groundM(), b.groundM(), share),
        mix(a.invertM(), b.invertM(), share),
        mix(a.coverM(), b.coverM(), share),
        mix(a.depthM(), b.depthM(), share),
        a.grade(),
        a.span());
  }

  /** Unit direction downstream of a station; at the end, of the last stretch. */
  Coordinate directionAfter(double stationM) {
    int i = before(stationM);
    return direction(i, 1, stationM);
  }

  /** Unit direction upstream of a station, pointing downstream; at the start, of the first. */
  Coordinate directionBefore(double stationM) {
    int i = before(stationM);
    return direction(stationM - stations.get(i).stationM() > TINY_M ? i : i - 1, -1, stationM);
  }

  private Coordinate direction(int from, int step, double stationM) {
    int last = stations.size() - 2;
    for (int i = Math.max(0, Math.min(last, from)); i >= 0 && i <= last; i += step) {
      Coordinate d = direction(i);
      if (d != null) {
        return d;
      }
    }
    return step > 0 ? direction(last, -1, stationM) : direction(0, 1, stationM);
  }

  private Coordinate direction(int i) {
    Station a = stations.get(i);
    Station b = stations.get(i + 1);
    double length = Math.hypot(b.x() - a.x(), b.y() - a.y());
    return length < TINY_M
        ? null
        : new Coordinate((b.x() - a.x()) / length, (b.y() - a.y()) / length);
  }

  /** Index of the last station at or above the given one. */
  private int before(double stationM) {
    int i = 0;
    while (i + 1 < stations.size() && stations.get(i + 1).stationM() <= stationM + TINY_M) {
      i++;
    }
    return i;
  }

  private static double mix(double a, double b, double share) {
    return a + (b - a) * share;
  }
}
