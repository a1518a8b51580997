package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Location;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Outlet;
import org.yardfall.site.OutletRules;
import org.yardfall.site.Site;
import org.yardfall.water.LowSpot;

/**
 * Finds places on the lot's own slope where a pipe can come out of the ground: inside the zone the
 * rules allow, where the ground drops within the last metres by as much as the pipe lies deep, and
 * from where water does not run to a neighbour.
 */
final class DaylightFinder {

  /** How many are offered. */
  static final int MOST = 3;

  /** Least distance in metres between two that are offered. */
  static final double APART_M = 8;

  private DaylightFinder() {}

  /**
   * The daylight outlets of a lot, lowest ground first, named {@code D1}, {@code D2} …
   *
   * @param ground the bare ground
   * @param inspector holds the rules on whom the water may reach
   * @param lowSpots the low spots worth a drain
   * @param openM last metres of a pipe in which no cover is asked
   */
  static List<Outlet> find(
      Site site,
      ElevationGrid ground,
      OutletRules rules,
      OutletInspector inspector,
      List<LowSpot> lowSpots,
      double openM) {
    // Whatever drain is planned, its water must not stand again on the same lot.
    Collector any =
        new Collector(
            DrainKind.LOW_SPOT, List.of(), "", lowSpots.stream().map(LowSpot::id).toList(), 0);
    Geometry zone =
        OutletZone.daylight(site, rules).intersection(DiggableArea.of(site, ground).area());
    if (zone.isEmpty()) {
      return List.of();
    }
    GridFrame frame = ground.frame();
    IndexedPointInAreaLocator inside = new IndexedPointInAreaLocator(zone);
    double depthM = site.drain().minCoverM() + site.drain().pipeOutsideM();
    List<Coordinate> found = new ArrayList<>();
    Envelope around = zone.getEnvelopeInternal();
    int south = Math.min(frame.rows() - 1, frame.row(around.getMinY()));
    int east = Math.min(frame.cols() - 1, frame.col(around.getMaxX()));
    for (int row = Math.max(0, frame.row(around.getMaxY())); row <= south; row++) {
      for (int col = Math.max(0, frame.col(around.getMinX())); col <= east; col++) {
        Coordinate p = new Coordinate(frame.x(col), frame.y(row));
        p.setZ(ground.at(col, row));
        if (inside.locate(p) == Location.INTERIOR
            && highestWithin(ground, p, openM) - p.getZ()
                >= depthM + site.drain().minGrade() * openM) {
          found.add(p);
        }
      }
    }
    found.sort(Comparator.comparingDouble(Coordinate::getZ));
    List<Outlet> offered = new ArrayList<>();
    for (Coordinate p : found) {
      if (offered.size() == MOST) {
        break;
      }
      Outlet outlet =
          new Outlet(
              freeId(site, offered.size() + 1),
              Outlet.Kind.DAYLIGHT,
              new Coordinate(p.x, p.y),
              OptionalDouble.of(p.getZ()),
              OptionalDouble.empty(),
              OptionalDouble.empty(),
              "");
      if (offered.stream().allMatch(o -> o.at().distance(p) >= APART_M)
          && inspector.refuse(outlet, any, lowSpots).isEmpty()) {
        offered.add(outlet);
      }
    }
    return offered;
  }

  private static double highestWithin(ElevationGrid ground, Coordinate p, double radiusM) {
    double highest = Double.NEGATIVE_INFINITY;
    for (int k = 0; k < 16; k++) {
      double a = Math.PI * k / 8;
      double z = ground.bilinear(p.x + radiusM * Math.cos(a), p.y + radiusM * Math.sin(a));
      highest = Double.isNaN(z) ? highest : Math.max(highest, z);
    }
    return highest;
  }

  private static String freeId(Site site, int number) {
    String id = "D" + number;
    while (taken(site, id)) {
      id = "daylight-" + id;
    }
    return id;
  }

  private static boolean taken(Site site, String id) {
    return site.outlets().stream().anyMatch(o -> o.id().equals(id));
  }
}
