package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.route.DrainLine;
import org.yardfall.route.MadeUpRoute;
import org.yardfall.route.Route;
import org.yardfall.route.Spans;
import org.yardfall.route.Station;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Given;
import org.yardfall.trench.TrenchSection;

/** Invented routes for the tests of field work. */
final class FieldFixtures {

  static final DrainLimits LIMITS =
      Given.limits(0.01, 0.20, 0.15, 1.20, 0.60, 0.90, 0.45, 0.116, 0.102);
  static final TrenchSection SECTION = TrenchSection.of(LIMITS);

  private FieldFixtures() {}

  /**
   * A line with a station every half metre and at every vertex.
   *
   * @param xy its bends
   * @param topM invert at its upper end
   * @param grades a grade for each leg
   * @param depthM depth of the invert everywhere
   */
  static DrainLine line(double[] xy, double topM, double[] grades, double depthM) {
    List<Coordinate> vertices = new ArrayList<>();
    List<Station> stations = new ArrayList<>();
    double start = 0;
    double invert = topM;
    for (int leg = 0; leg < grades.length; leg++) {
      double x0 = xy[2 * leg];
      double y0 = xy[2 * leg + 1];
      double dx = xy[2 * leg + 2] - x0;
      double dy = xy[2 * leg + 3] - y0;
      double length = Math.hypot(dx, dy);
      vertices.add(new Coordinate(x0, y0));
      boolean last = leg == grades.length - 1;
      int pieces = (int) Math.ceil(length / 0.5);
      for (int i = 0; i < pieces + (last ? 1 : 0); i++) {
        double s = length * i / pieces;
        double z = invert - grades[leg] * s;
        stations.add(
            new Station(
                start + s,
                x0 + dx * s / length,
                y0 + dy * s / length,
                z + depthM,
                z,
                depthM - LIMITS.pipeOutsideM(),
                depthM,
                grades[leg],
                Station.Span.OPEN));
      }
      start += length;
      invert -= grades[leg] * length;
    }
    vertices.add(new Coordinate(xy[xy.length - 2], xy[xy.length - 1]));
    return new DrainLine(vertices, stations);
  }

  /** The line with stretches between two stations bored. */
  static DrainLine bored(DrainLine line, double fromM, double toM) {
    return Spans.of(
        line, s -> s.stationM() >= fromM && s.stationM() < toM ? Station.Span.BORED : s.span());
  }

  static Route route(DrainLine main, Route.Branch... branches) {
    return MadeUpRoute.to("CB1", main, List.of(branches)).make();
  }

  /** 20 m east at 1 %, 10 m north at 2 %, from 101.00 m, 0.60 m deep; a branch joins at 20 m. */
  static Route bentRoute() {
    return route(
        line(new double[] {0, 0, 20, 0, 20, 10}, 101, new double[] {0.01, 0.02}, 0.60),
        new Route.Branch(line(new double[] {28, 0, 20, 0}, 100.88, new double[] {0.01}, 0.60), 20));
  }

  /** The route elsewhere on the plane. */
  static Route moved(Route r, double dx, double dy) {
    return route(
        moved(r.main(), dx, dy),
        r.branches().stream()
            .map(b -> new Route.Branch(moved(b.line(), dx, dy), b.joins(), b.junctionM()))
            .toArray(Route.Branch[]::new));
  }

  private static DrainLine moved(DrainLine line, double dx, double dy) {
    return new DrainLine(
        line.vertices().stream().map(c -> new Coordinate(c.x + dx, c.y + dy)).toList(),
        line.stations().stream()
            .map(
                s ->
                    new Station(
                        s.stationM(),
                        s.x() + dx,
                        s.y() + dy,
                        s.groundM(),
                        s.invertM(),
                        s.coverM(),
                        s.depthM(),
                        s.grade(),
                        s.span()))
            .toList());
  }
}
