package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.densify.Densifier;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Building;
import org.yardfall.site.Site;
import org.yardfall.water.FlowPath;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;

/**
 * How far a building's lowest opening stands above the water beside it: above the bed of every flow
 * path and the spill of every low spot within 10 ft of its walls. Many local rules ask for about 15
 * cm between the bottom of a swale and the lowest opening.
 *
 * @param buildingId the building
 * @param openingM elevation of its lowest opening in metres
 * @param against what was found beside it, in words
 * @param levelM its bed or spill elevation in metres
 * @param freeboardM opening less level in metres
 * @param neededM least freeboard asked in metres
 */
public record OpeningFreeboard(
    String buildingId,
    double openingM,
    String against,
    double levelM,
    double freeboardM,
    double neededM) {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** Whether the opening is high enough. */
  public boolean passes() {
    return freeboardM >= neededM - 1e-6;
  }

  /** The row in a sentence. */
  public String sentence() {
    return String.format(
        Locale.ROOT,
        "the lowest opening of building %s, at %.2f m, is %.2f m %s %s at %.2f m beside it; %.2f m"
            + " above are asked",
        buildingId,
        openingM,
        Math.abs(freeboardM),
        freeboardM < 0 ? "below" : "above",
        against,
        levelM,
        neededM);
  }

  /**
   * A row for every building whose lowest opening is known and every low spot and flow path beside
   * it, those with the least freeboard first.
   *
   * @param ground the bare ground
   */
  public static List<OpeningFreeboard> table(Site site, ElevationGrid ground, SurfaceWater water) {
    List<OpeningFreeboard> rows = new ArrayList<>();
    double needed = site.outletRules().freeboardM();
    for (Building building : site.buildings()) {
      if (building.lowestOpeningM().isEmpty()) {
        continue;
      }
      double opening = building.lowestOpeningM().getAsDouble();
      for (LowSpot spot : water.lowSpots()) {
        if (spot.parentId().isEmpty()
            && spot.outline().isWithinDistance(building.outline(), FoundationFall.WITHIN_M)) {
          double level = spot.spillM();
          rows.add(
              new OpeningFreeboard(
                  building.id(),
                  opening,
                  "the spill of low spot " + spot.id(),
                  level,
                  opening - level,
                  needed));
        }
      }
      for (FlowPath path : water.flowPaths()) {
        double bed = highestBedM(path, building, ground);
        if (bed > Double.NEGATIVE_INFINITY) {
          rows.add(
              new OpeningFreeboard(
                  building.id(),
                  opening,
                  "the bed of flow path " + path.id(),
                  bed,
                  opening - bed,
                  needed));
        }
      }
    }
    rows.sort(Comparator.comparingDouble(OpeningFreeboard::freeboardM));
    return rows;
  }

  private static double highestBedM(FlowPath path, Building building, ElevationGrid ground) {
    double highest = Double.NEGATIVE_INFINITY;
    if (!path.line().isWithinDistance(building.outline(), FoundationFall.WITHIN_M)) {
      return highest;
    }
    for (Coordinate c : Densifier.densify(path.line(), ground.frame().cellM()).getCoordinates()) {
      double z = ground.bilinear(c.x, c.y);
      if (!Double.isNaN(z)
          && building.outline().isWithinDistance(FACTORY.createPoint(c), FoundationFall.WITHIN_M)) {
        highest = Math.max(highest, z);
      }
    }
    return highest;
  }
}
