package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineSegment;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Building;
import org.yardfall.site.Site;
import org.yardfall.site.Surface;
import org.yardfall.trench.GroundCover;

/**
 * Whether the ground falls away from a building on every side: by 6 in within the first 10 ft, or
 * in proportion to the property line or another building where that is nearer, paving by 2 %
 * (International Residential Code R401.3). Each place round the footprint is judged for itself;
 * none makes up for another.
 */
public final class FoundationFall {

  /** Fall asked within {@link #WITHIN_M}, in metres: 6 in. */
  public static final double FALL_M = 0.1524;

  /** Distance in metres within which that fall is asked: 10 ft. */
  public static final double WITHIN_M = 3.048;

  /** Fall asked of paving within that distance, rise over run. */
  static final double PAVED = 0.02;

  /** Distance in metres between the places judged along a wall. */
  private static final double EVERY_M = 1.5;

  /** Nearer to the wall than this, in metres, elevations are often those of the building. */
  private static final double OFF_WALL_M = 0.3;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private FoundationFall() {}

  /**
   * A place at a wall.
   *
   * @param buildingId the building
   * @param x x of the wall in metres of the working plane
   * @param y y of the wall in metres of the working plane
   * @param bearingDeg the way away from the wall in degrees from grid north
   * @param overM distance in metres over which the fall was taken
   * @param fallM fall away from the wall in metres, negative toward it
   * @param neededM fall asked over that distance in metres
   */
  public record Place(
      String buildingId,
      double x,
      double y,
      double bearingDeg,
      double overM,
      double fallM,
      double neededM) {

    /** Whether the ground falls away enough here. */
    public boolean passes() {
      return fallM >= neededM - 1e-6;
    }
  }

  /** Every place round the house of the site's lot; none where there is no house. */
  public static List<Place> ofHouse(Site site, ElevationGrid ground) {
    return site.lot().isEmpty()
        ? List.of()
        : CurtainCollector.house(site).map(house -> around(site, ground, house)).orElse(List.of());
  }

  /**
   * Every place round a building at which the fall can be told, along its outline.
   *
   * @param ground the bare ground
   */
  public static List<Place> around(Site site, ElevationGrid ground, Building building) {
    List<Place> places = new ArrayList<>();
    GroundCover cover = GroundCover.of(site);
    Polygon outline = building.outline();
    Coordinate[] ring = outline.getExteriorRing().getCoordinates();
    for (int i = 1; i < ring.length; i++) {
      LineSegment wall = new LineSegment(ring[i - 1], ring[i]);
      int n = Math.max(1, (int) Math.round(wall.getLength() / EVERY_M));
      for (int k = 0; k < n; k++) {
        double along = (k + 0.5) / n;
        Coordinate foot = wall.pointAlong(along);
        Coordinate out = wall.pointAlongOffset(along, OFF_WALL_M);
        double side = outline.intersects(FACTORY.createPoint(out)) ? -1 : 1;
        Coordinate start = wall.pointAlongOffset(along, side * OFF_WALL_M);
        Coordinate end = wall.pointAlongOffset(along, side * WITHIN_M);
        Place place = place(site, ground, cover, building, foot, start, end);
        if (place != null) {
          places.add(place);
        }
      }
    }
    return places;
  }

  private static Place place(
      Site site,
      ElevationGrid ground,
      GroundCover cover,
      Building building,
      Coordinate foot,
      Coordinate start,
      Coordinate end) {
    LineString ray = FACTORY.createLineString(new Coordinate[] {foot, end});
    double reach = WITHIN_M;
    if (site.lot().isPresent()) {
      reach = Math.min(reach, upTo(ray, foot, site.lot().get().outline().getExteriorRing()));
    }
    for (Building other : site.buildings()) {
      if (!other.id().equals(building.id())) {
        reach = Math.min(reach, upTo(ray, foot, other.outline()));
      }
    }
    double ux = (end.x - foot.x) / WITHIN_M;
    double uy = (end.y - foot.y) / WITHIN_M;
    double high = ground.bilinear(start.x, start.y);
    double low = ground.bilinear(foot.x + ux * reach, foot.y + uy * reach);
    if (reach <= 2 * OFF_WALL_M || Double.isNaN(high) || Double.isNaN(low)) {
      return null;
    }
    double over = reach - OFF_WALL_M;
    double bearing = (450 - Math.toDegrees(Math.atan2(uy, ux))) % 360;
    double asked = paved(cover, start, ux, uy, over) ? PAVED : FALL_M / WITHIN_M;
    return new Place(building.id(), foot.x, foot.y, bearing, over, high - low, asked * over);
  }

  /** Whether the way from the wall is paved from end to end. */
  private static boolean paved(
      GroundCover cover, Coordinate from, double ux, double uy, double overM) {
    for (double share : new double[] {0, 0.5, 0.99}) {
      double away = share * overM;
      if (cover.at(from.x + ux * away, from.y + uy * away) != Surface.Kind.PAVEMENT) {
        return false;
      }
    }
    return true;
  }

  private static double upTo(LineString ray, Coordinate from, Geometry what) {
    Geometry met = ray.intersection(what);
    double nearest = Double.POSITIVE_INFINITY;
    for (Coordinate c : met.getCoordinates()) {
      nearest = Math.min(nearest, c.distance(from));
    }
    return nearest;
  }

  /** The result for the house in a sentence; empty where the ground falls away all round. */
  static String sentence(Site site, ElevationGrid ground, Building building) {
    List<Place> places = around(site, ground, building);
    List<Place> failing = places.stream().filter(p -> !p.passes()).toList();
    if (failing.isEmpty()) {
      return "";
    }
    long toward = failing.stream().filter(p -> p.fallM() < 0).count();
    return String.format(
        Locale.ROOT,
        "at %d of %d places round building %s the ground falls away by less than %.2f m in %.2f m"
            + " (International Residential Code R401.3), at %d of them toward it"
            + " (results.json lists each): regrading comes before any drain",
        failing.size(),
        places.size(),
        building.id(),
        FALL_M,
        WITHIN_M,
        toward);
  }
}
