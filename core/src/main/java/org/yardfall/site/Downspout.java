package org.yardfall.site;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Point;

/**
 * Where a downspout lets a roof's water out on the ground.
 *
 * @param id its id; text from outside
 * @param at the place in metres of the working plane
 * @param buildingId the building's id as named by the user; empty: the nearest one's
 */
record Downspout(String id, Coordinate at, String buildingId) {

  /** How far from a wall a downspout without a building's id is taken for the wall's own. */
  static final double REACH_M = 3;

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  /** Gives each building its downspouts; one that belongs to none is a problem. */
  static List<Building> given(
      List<Building> buildings, List<Downspout> downspouts, Problems problems) {
    List<List<Coordinate>> places = new ArrayList<>();
    buildings.forEach(b -> places.add(new ArrayList<>()));
    for (Downspout downspout : downspouts) {
      downspout.building(buildings, problems).ifPresent(b -> places.get(b).add(downspout.at));
    }
    List<Building> all = new ArrayList<>();
    for (int b = 0; b < buildings.size(); b++) {
      all.add(buildings.get(b).withDownspouts(places.get(b)));
    }
    return all;
  }

  private Optional<Integer> building(List<Building> buildings, Problems problems) {
    Point point = GEOMETRIES.createPoint(at);
    int nearest = -1;
    double leastM = Double.POSITIVE_INFINITY;
    for (int b = 0; b < buildings.size(); b++) {
      double distanceM = buildings.get(b).outline().distance(point);
      boolean meant = buildingId.isEmpty() || buildingId.equals(buildings.get(b).id());
      if (meant && distanceM < leastM) {
        nearest = b;
        leastM = distanceM;
      }
    }
    if (nearest < 0) {
      problems.add(
          "downspout " + id,
          buildingId.isEmpty()
              ? "there are no buildings"
              : "there is no building '" + buildingId + "'",
          "give the footprints under buildings");
      return Optional.empty();
    }
    if (buildingId.isEmpty() && leastM > REACH_M) {
      problems.add(
          "downspout " + id,
          String.format(Locale.ROOT, "it lies %.1f m from the nearest building", leastM),
          "move it, or name its building in the attribute building");
      return Optional.empty();
    }
    return Optional.of(nearest);
  }
}
