package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Outlet;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;
import org.yardfall.water.LowSpot;

/** Gathers the places worth a shot, route by route. */
final class ShotListFinder {

  private static final double ONE_PLACE_M = 1.5;
  private static final double DRAINED_M = 1.0;

  private final DrainLimits limits;
  private final PlaneTransform toWgs84;
  private final double boundM;
  private final List<Outlet> outlets;
  private final List<LowSpot> lowSpots;
  private final List<Gathered> gathered = new ArrayList<>();

  /** A place while reasons still gather. */
  private static final class Gathered {
    final ShotPlace.What what;
    final Coordinate at;
    final double expectedM;
    double lowerM = Double.POSITIVE_INFINITY;
    double higherM = Double.POSITIVE_INFINITY;
    final Set<String> why = new LinkedHashSet<>();
    final Set<String> routes = new LinkedHashSet<>();

    Gathered(ShotPlace.What what, Coordinate at, double expectedM) {
      this.what = what;
      this.at = at;
      this.expectedM = expectedM;
    }
  }

  ShotListFinder(
      WorkingCrs crs,
      DrainLimits limits,
      double accuracyM,
      List<Outlet> outlets,
      List<LowSpot> lowSpots) {
    this.limits = limits;
    this.toWgs84 = PlaneTransform.toWgs84(crs);
    this.boundM = ShotList.NINETY_FIVE_PERCENT * accuracyM;
    this.outlets = outlets;
    this.lowSpots = lowSpots;
  }

  /** The lowest invert at which a route may end: its outlet's, which its pipe may enter above. */
  private double lowestEndM(Route route, Station end) {
    return outlets.stream()
        .filter(o -> o.id().equals(route.outletId()))
        .flatMapToDouble(o -> o.invertM().stream())
        .filter(invert -> invert <= end.invertM())
        .findFirst()
        .orElse(end.invertM());
  }

  void add(Route route) {
    List<PlannedLine> lines = PlannedLine.of(route);
    PlannedLine main = lines.get(0);
    Station end = main.at(main.lengthM());
    double endM = lowestEndM(route, end);
    List<Leeway> leeways = new ArrayList<>(List.of(new Leeway(main, limits, endM)));
    double outletHigherM = leeways.get(0).endHigherM();
    for (int i = 1; i < lines.size(); i++) {
      Route.Branch branch = route.branches().get(i - 1);
      double lowestM = leeways.get(branch.joins()).lowestM(branch.junctionM());
      Leeway leeway = new Leeway(lines.get(i), limits, lowestM);
      leeways.add(leeway);
      outletHigherM = Math.min(outletHigherM, leeway.endHigherM());
    }
    Gathered outlet =
        place(
            route,
            ShotPlace.What.OUTLET_INVERT,
            end.x(),
            end.y(),
            endM,
            "invert of outlet " + route.outletId() + ": all falls to it");
    outlet.higherM = Math.min(outlet.higherM, outletHigherM);
    for (int i = 0; i < lines.size(); i++) {
      addLine(route, lines.get(i), leeways.get(i));
    }
    for (LowSpot spot : lowSpots) {
      if (drains(lines, spot)) {
        Gathered spill =
            place(
                route,
                ShotPlace.What.GROUND,
                spot.spillPoint().x,
                spot.spillPoint().y,
                spot.spillM(),
                "low spot " + spot.id() + " spills here");
        spill.lowerM = Math.min(spill.lowerM, spot.depthM());
      }
    }
  }

  List<ShotPlace> places() {
    List<ShotPlace> places = new ArrayList<>();
    for (Gathered g : gathered) {
      places.add(
          new ShotPlace(
              "P" + (places.size() + 1),
              g.what,
              g.at,
              toWgs84.apply(g.at),
              g.expectedM,
              Double.isInfinite(g.lowerM) ? Double.NaN : g.expectedM - g.lowerM,
              Double.isInfinite(g.higherM) ? Double.NaN : g.expectedM + g.higherM,
              List.copyOf(g.why),
              List.copyOf(g.routes)));
    }
    return places;
  }

  /** Upper end, crossings and doubtful stretches of a line. */
  private void addLine(Route route, PlannedLine line, Leeway leeway) {
    List<Station> stations = line.stations();
    ground(route, stations, leeway, 0, "upper end of " + Prover.spoken(line.name()));
    eachRun(
        stations.size(),
        i -> stations.get(i).span() == Station.Span.BORED,
        (from, to) ->
            ground(
                route,
                stations,
                leeway,
                (from + Math.min(to, stations.size() - 1)) / 2,
                "crossing: slab and what lies under it"));
    eachRun(
        stations.size(),
        i -> leeway.lowerM(i) < boundM,
        (from, to) ->
            ground(
                route,
                stations,
                leeway,
                least(from, to, leeway::lowerM),
                "ground a little lower leaves no cover at the least grade"));
    eachRun(
        stations.size(),
        i -> leeway.higherM(i) < boundM,
        (from, to) ->
            ground(
                route,
                stations,
                leeway,
                least(from, to, leeway::higherM),
                "ground a little higher makes the trench too deep"));
  }

  private interface Is {
    boolean at(int i);
  }

  private interface Run {
    void of(int from, int to);
  }

  private interface Value {
    double at(int i);
  }

  /** Every longest run of stations of which something holds; {@code to} is past the last. */
  private static void eachRun(int n, Is is, Run run) {
    int from = -1;
    for (int i = 0; i <= n; i++) {
      boolean in = i < n && is.at(i);
      if (in && from < 0) {
        from = i;
      } else if (!in && from >= 0) {
        run.of(from, i);
        from = -1;
      }
    }
  }

  private static int least(int from, int to, Value value) {
    int best = from;
    for (int i = from; i < to; i++) {
      best = value.at(i) < value.at(best) ? i : best;
    }
    return best;
  }

  private void ground(Route route, List<Station> stations, Leeway leeway, int i, String why) {
    Station s = stations.get(i);
    Gathered g = place(route, ShotPlace.What.GROUND, s.x(), s.y(), s.groundM(), why);
    // What is expected at a joined place may differ a little from here: keep its own leeway.
    g.lowerM = Math.min(g.lowerM, Math.max(0, leeway.lowerM(i) + g.expectedM - s.groundM()));
    g.higherM = Math.min(g.higherM, Math.max(0, leeway.higherM(i) + s.groundM() - g.expectedM));
  }

  private Gathered place(
      Route route, ShotPlace.What what, double x, double y, double expectedM, String why) {
    Coordinate at = new Coordinate(x, y);
    Gathered found = null;
    for (Gathered g : gathered) {
      if (g.what == what && g.at.distance(at) <= ONE_PLACE_M) {
        found = g;
        break;
      }
    }
    if (found == null) {
      found = new Gathered(what, at, expectedM);
      gathered.add(found);
    }
    found.why.add(why);
    found.routes.add(route.id());
    return found;
  }

  private static boolean drains(List<PlannedLine> lines, LowSpot spot) {
    GeometryFactory geometries = new GeometryFactory();
    for (PlannedLine line : lines) {
      Geometry path =
          geometries.createLineString(
              line.stations().stream()
                  .map(s -> new Coordinate(s.x(), s.y()))
                  .toArray(Coordinate[]::new));
      if (path.isWithinDistance(spot.outline(), DRAINED_M)) {
        return true;
      }
    }
    return false;
  }
}
