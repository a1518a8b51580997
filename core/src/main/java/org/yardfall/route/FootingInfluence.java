package org.yardfall.route;

import java.util.Locale;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Assumption;
import org.yardfall.site.Building;
import org.yardfall.site.Site;

/**
 * Keeps a trench from undermining a footing: below the underside of a footing the ground that bears
 * it spreads outward at 45°, and no pipe may lie in it, so that the invert at a distance d from the
 * building is at least the footing's underside less d.
 */
final class FootingInfluence {

  /**
   * Depth in metres below ground taken for the underside of a footing that none is given for: 12
   * in, the least that the International Residential Code asks (R403.1.4). A deeper footing allows
   * more.
   */
  static final double ASSUMED_DEPTH_M = 0.3048;

  private static final double TOLERANCE_M = 1e-6;

  private final Site site;
  private final ElevationGrid ground;

  FootingInfluence(Site site, ElevationGrid ground) {
    this.site = site;
    this.ground = ground;
  }

  /** How much too deep, in metres, a line lies at its worst; 0 where it is clear. */
  double tooDeepM(DrainLine line) {
    double worst = 0;
    for (Building building : site.buildings()) {
      double underside = undersideM(building);
      for (Station s : line.stations()) {
        double away =
            building
                .outline()
                .distance(new GeometryFactory().createPoint(new Coordinate(s.x(), s.y())));
        worst = Math.max(worst, underside - away - s.invertM());
      }
    }
    return worst > TOLERANCE_M ? worst : 0;
  }

  /** Elevation in metres of the underside of a building's footing, given or assumed. */
  double undersideM(Building building) {
    if (building.footingBottomM().isPresent()) {
      return building.footingBottomM().getAsDouble();
    }
    double lowest = Double.POSITIVE_INFINITY;
    for (Coordinate c : building.outline().getExteriorRing().getCoordinates()) {
      double z = ground.bilinear(c.x, c.y);
      lowest = Double.isNaN(z) ? lowest : Math.min(lowest, z);
    }
    return lowest == Double.POSITIVE_INFINITY ? Double.NEGATIVE_INFINITY : lowest - ASSUMED_DEPTH_M;
  }

  /** What was assumed about footings, where any was. */
  Optional<Assumption> assumption() {
    return site.buildings().stream().allMatch(b -> b.footingBottomM().isPresent())
        ? Optional.empty()
        : Optional.of(
            new Assumption(
                "buildings.footing",
                String.format(
                    Locale.ROOT,
                    "underside %.2f m below the lowest ground at the building; the pipe stays above"
                        + " a line falling outward from it at 45 degrees",
                    ASSUMED_DEPTH_M),
                "International Residential Code R403.1.4, least depth; 45 degrees: common"
                    + " practice, no source"));
  }
}
