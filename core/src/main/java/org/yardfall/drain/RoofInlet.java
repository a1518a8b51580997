package org.yardfall.drain;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineSegment;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Problem;

/**
 * A downspout that is to run into a drain. Roof water belongs in solid pipe all the way: in
 * perforated pipe it would leak out beside the footing, or fill the ground that the drain is to
 * dry.
 *
 * @param id its id; text from outside
 * @param at where it joins, in metres of the working plane
 */
public record RoofInlet(String id, Coordinate at) {

  /**
   * Refuses downspouts that join a drain at or above perforated pipe.
   *
   * @throws BadInputException naming each, with the station from which it could join
   */
  static void check(Route route, List<RoofInlet> inlets) {
    List<Problem> problems = new ArrayList<>();
    List<DrainLine> lines = DrainCatchmentFinder.lines(route);
    for (RoofInlet inlet : inlets) {
      int line = 0;
      double station = 0;
      double nearest = Double.POSITIVE_INFINITY;
      for (int l = 0; l < lines.size(); l++) {
        List<Station> stations = lines.get(l).stations();
        for (int i = 0; i + 1 < stations.size(); i++) {
          Station up = stations.get(i);
          Station down = stations.get(i + 1);
          LineSegment segment = new LineSegment(up.x(), up.y(), down.x(), down.y());
          double distance = segment.distance(inlet.at());
          if (distance < nearest) {
            nearest = distance;
            line = l;
            double share = Math.max(0, Math.min(1, segment.projectionFactor(inlet.at())));
            station = up.stationM() + share * (down.stationM() - up.stationM());
          }
        }
      }
      double solidFrom = solidFrom(route.main());
      int on = line;
      double at = station;
      boolean perforated = at < solidFrom(lines.get(on));
      while (on > 0) {
        Route.Branch branch = route.branches().get(on - 1);
        on = branch.joins();
        at = branch.junctionM();
        perforated |= at < solidFrom(lines.get(on));
      }
      if (perforated) {
        problems.add(
            new Problem(
                "downspout " + inlet.id(),
                String.format(
                    Locale.ROOT,
                    "its roof water would run into perforated pipe of %s at %s station %.1f m",
                    route.id(),
                    line == 0 ? "main" : "branch " + line,
                    station),
                solidFrom < route.main().lengthM()
                    ? String.format(
                        Locale.ROOT,
                        "lay its own solid pipe, and join below main station %.1f m",
                        solidFrom)
                    : "lay its own solid pipe to the outlet"));
      }
    }
    if (!problems.isEmpty()) {
      throw new BadInputException(problems);
    }
  }

  /**
   * Station below which a line is solid all the way; its length where it is perforated to the end.
   */
  private static double solidFrom(DrainLine line) {
    List<Station> stations = line.stations();
    double from = 0;
    for (int i = 0; i + 1 < stations.size(); i++) {
      if (stations.get(i).span() == Station.Span.OPEN) {
        from = stations.get(i + 1).stationM();
      }
    }
    return from;
  }
}
