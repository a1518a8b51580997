package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.algorithm.distance.DiscreteHausdorffDistance;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.route.Audit;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.RouteAuditor;
import org.yardfall.route.RouteSettings;
import org.yardfall.route.Station;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;

/**
 * A plan made on one ground held against better ground, such as a raster's against shots: how far
 * the ground moved along the drain, whether the drain as planned can still be built, and whether
 * the best drain is still the same one.
 *
 * @param before the route that was planned
 * @param after the best route on the new ground; empty where none works
 * @param shown whether the new ground is known at every station of the route
 * @param medianM median of new minus old ground along the route in metres; NaN where the new ground
 *     shows none of it
 * @param lowestM lowest of those differences
 * @param highestM highest of those differences
 * @param outletM new minus old invert at the outlet in metres; NaN where the outlet is gone
 * @param audit the route as planned, checked on the new ground
 * @param apartM greatest distance between the main lines before and after in metres; NaN without
 *     one after
 * @param sameKind whether the best route is of the same kind and leads to the same outlet
 * @param same whether it is that on the same line: no farther off than a trench is wide or two
 *     cells of the ground, whichever is more
 */
public record PlanRecheck(
    Route before,
    Optional<Route> after,
    boolean shown,
    double medianM,
    double lowestM,
    double highestM,
    double outletM,
    Audit audit,
    double apartM,
    boolean sameKind,
    boolean same) {

  private static final double FILE_ROUNDING_M = 0.0002;
  private static final double SAME_M = 0.0005;

  /**
   * Holds a planned route against new ground. O(stations × stations).
   *
   * @param before the route, as planned or read back from its file
   * @param outletsBefore the outlets as they were known then
   * @param site the site as it is known now, its outlets' inverts shot
   * @param ground the new raw ground, on the same plane and datum
   * @param after the routes that the plan proposes on it, by rank
   */
  public static PlanRecheck of(
      Route before,
      List<Outlet> outletsBefore,
      Site site,
      ElevationGrid ground,
      List<Route> after) {
    Optional<Route> best = after.stream().findFirst();
    double[] moved = moved(before, ground);
    Optional<Outlet> outlet = named(site.outlets(), before.outletId());
    double invertM =
        outlet.map(o -> o.invertM().orElse(ground.bilinear(o.at().x, o.at().y))).orElse(Double.NaN);
    double plannedM =
        named(outletsBefore, before.outletId())
            .map(Outlet::invertM)
            .orElse(OptionalDouble.empty())
            .orElse(end(before).invertM());
    Audit audit =
        RouteAuditor.auditRead(
            site,
            ground,
            RouteSettings.defaults(site.drain()),
            outlet.orElse(daylight(before)),
            regrounded(before.main(), ground),
            before.branches().stream()
                .map(b -> new Route.Branch(regrounded(b.line(), ground), b.joins(), b.junctionM()))
                .toList(),
            FILE_ROUNDING_M);
    double apartM = best.map(route -> apartM(before, route)).orElse(Double.NaN);
    double near = Math.max(site.drain().trenchWidthM(), 2 * ground.frame().cellM());
    boolean sameKind =
        best.isPresent()
            && best.get().kind() == before.kind()
            && best.get().outletId().equals(before.outletId());
    return new PlanRecheck(
        before,
        best,
        moved.length == stations(before).size(),
        at(moved, 0.5),
        at(moved, 0),
        at(moved, 1),
        invertM - plannedM,
        audit,
        apartM,
        sameKind,
        sameKind && apartM <= near);
  }

  /** Whether the drain can be built as it was planned. */
  public boolean holds() {
    return shown && audit.passed();
  }

  /** What changed and whether the decision holds, in sentences. */
  public List<String> sentences(FieldUnits units) {
    List<String> say = new ArrayList<>();
    say.add(
        Double.isNaN(medianM)
            ? "The new ground shows nothing of the route " + before.id() + "."
            : "Along route %s the ground is %s than before by the median (differences from %s to %s)."
                .formatted(
                    before.id(),
                    level(medianM, units),
                    units.words(lowestM),
                    units.words(highestM)));
    if (Double.isNaN(outletM)) {
      say.add("Its outlet " + before.outletId() + " is not among the site's outlets.");
    } else {
      say.add(
          Math.abs(outletM) < SAME_M
              ? "Its outlet's invert is as planned."
              : "Its outlet's invert is " + level(outletM, units) + " than planned.");
    }
    if (!shown) {
      say.add("Not all of the route lies on the new ground: what is not shown is not checked.");
    }
    if (holds()) {
      say.add("It can be built as planned.");
    }
    for (Audit.Check check : audit.checks()) {
      if (!check.passed()) {
        say.add(
            "It cannot be built as planned: %s %s, limit %s, at station %s."
                .formatted(
                    check.name(),
                    figure(check.worst(), check.unit(), units),
                    figure(check.limit(), check.unit(), units),
                    units.station(check.atStationM())));
      }
    }
    if (after.isEmpty()) {
      say.add("On the new ground no drain works: the decision does not hold.");
    } else if (same) {
      say.add("The best drain is the same one: the decision holds.");
    } else if (sameKind) {
      say.add(
          "The best drain is of the same kind and leads to the same outlet (%s to %s), but its line lies up to %s off: the decision holds, stake the new line."
              .formatted(before.kind().word(), before.outletId(), units.words(apartM)));
    } else {
      Route now = after.get();
      say.add(
          "The best drain is another one now (%s to %s, %s long; before: %s to %s, %s): decide anew."
              .formatted(
                  now.kind().word(),
                  now.outletId(),
                  units.words(now.lengthM()),
                  before.kind().word(),
                  before.outletId(),
                  units.words(before.lengthM())));
    }
    return say;
  }

  private static String level(double byM, FieldUnits units) {
    return units.words(Math.abs(byM)) + (byM < 0 ? " lower" : " higher");
  }

  private static String figure(double value, String unit, FieldUnits units) {
    return switch (unit) {
      case "m" -> units.words(value);
      case "m/m" -> FieldUnits.fixed(value * 100, 2) + " %";
      default -> FieldUnits.fixed(value, 2);
    };
  }

  private static List<Station> stations(Route route) {
    List<Station> stations = new ArrayList<>(route.main().stations());
    route.branches().forEach(b -> stations.addAll(b.line().stations()));
    return stations;
  }

  /** New minus old ground at the route's stations, ascending, where the new ground is known. */
  private static double[] moved(Route route, ElevationGrid ground) {
    return stations(route).stream()
        .mapToDouble(s -> ground.bilinear(s.x(), s.y()) - s.groundM())
        .filter(d -> !Double.isNaN(d))
        .sorted()
        .toArray();
  }

  /** The line at its planned inverts under the new ground. */
  private static DrainLine regrounded(DrainLine line, ElevationGrid ground) {
    return new DrainLine(
        line.vertices(),
        line.stations().stream()
            .map(
                s -> {
                  double z = ground.bilinear(s.x(), s.y());
                  return new Station(
                      s.stationM(),
                      s.x(),
                      s.y(),
                      z,
                      s.invertM(),
                      s.coverM() + z - s.groundM(),
                      z - s.invertM(),
                      s.grade(),
                      s.span());
                })
            .toList());
  }

  private static double at(double[] sorted, double share) {
    if (sorted.length == 0) {
      return Double.NaN;
    }
    double place = share * (sorted.length - 1);
    return (sorted[(int) Math.floor(place)] + sorted[(int) Math.ceil(place)]) / 2;
  }

  private static Outlet daylight(Route route) {
    Station end = end(route);
    return new Outlet(
        route.outletId(),
        Outlet.Kind.DAYLIGHT,
        new Coordinate(end.x(), end.y()),
        OptionalDouble.of(end.invertM()),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        "");
  }

  private static Optional<Outlet> named(List<Outlet> outlets, String id) {
    return outlets.stream().filter(o -> o.id().equals(id)).findFirst();
  }

  private static Station end(Route route) {
    List<Station> stations = route.main().stations();
    return stations.get(stations.size() - 1);
  }

  private static double apartM(Route a, Route b) {
    return DiscreteHausdorffDistance.distance(path(a.main()), path(b.main()), 0.1);
  }

  private static Geometry path(DrainLine line) {
    return new GeometryFactory().createLineString(line.vertices().toArray(Coordinate[]::new));
  }
}
