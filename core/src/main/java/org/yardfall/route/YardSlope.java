package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Building;
import org.yardfall.site.Outlet;
import org.yardfall.site.OutletRules;
import org.yardfall.site.Site;

/**
 * The slope of the yard round a house, beyond the strip that must fall away from it, and what local
 * rules make of it: on how steep a yard roof water may be let onto splash blocks, and how steep a
 * yard may be at all.
 *
 * @param steepest the steepest slope found, rise per metre
 * @param rules the rules in force
 */
public record YardSlope(double steepest, OutletRules rules) {

  /** How far from the house the slope is taken, in metres. */
  private static final double OUT_TO_M = 12;

  /** Over a shorter stretch, in metres, a slope says little. */
  private static final double LEAST_M = 3;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /**
   * The slope round a building of the lot, taken straight out from its walls to the property line
   * or {@value #OUT_TO_M} m, whichever is nearer.
   *
   * @param ground the bare ground
   */
  public static YardSlope round(Site site, ElevationGrid ground, Building building) {
    double steepest = 0;
    for (FoundationFall.Place place : FoundationFall.around(site, ground, building)) {
      double a = Math.toRadians(90 - place.bearingDeg());
      double out = outToM(site, place, a);
      double near = heightM(ground, place, a, FoundationFall.WITHIN_M);
      double far = heightM(ground, place, a, out);
      if (out - FoundationFall.WITHIN_M >= LEAST_M && !Double.isNaN(near) && !Double.isNaN(far)) {
        steepest = Math.max(steepest, Math.abs(far - near) / (out - FoundationFall.WITHIN_M));
      }
    }
    return new YardSlope(steepest, site.outletRules());
  }

  private static double heightM(
      ElevationGrid ground, FoundationFall.Place place, double a, double out) {
    return ground.bilinear(place.x() + out * Math.cos(a), place.y() + out * Math.sin(a));
  }

  private static double outToM(Site site, FoundationFall.Place place, double a) {
    Coordinate from = new Coordinate(place.x(), place.y());
    LineString ray =
        FACTORY.createLineString(
            new Coordinate[] {
              from, new Coordinate(from.x + OUT_TO_M * Math.cos(a), from.y + OUT_TO_M * Math.sin(a))
            });
    Geometry line = site.lot().orElseThrow().outline().getExteriorRing();
    double nearest = OUT_TO_M;
    for (Coordinate c : ray.intersection(line).getCoordinates()) {
      nearest = Math.min(nearest, c.distance(from));
    }
    return nearest;
  }

  /** Whether roof water may be let onto splash blocks. */
  public boolean splashBlocksAllowed() {
    return steepest <= rules.splashBlockSlope() + 1e-6;
  }

  /** Whether the yard is steeper than it may be. */
  public boolean tooSteep() {
    return steepest > rules.steepestSlope() + 1e-6;
  }

  /** What follows for the roof's water and the yard, in sentences; none where nothing does. */
  List<String> sentences(List<Outlet> outlets) {
    List<String> all = new ArrayList<>();
    if (!splashBlocksAllowed()) {
      List<String> takers =
          outlets.stream()
              .filter(
                  o ->
                      switch (o.kind()) {
                        case CATCH_BASIN, STREET, DITCH, WATERWAY -> true;
                        case DAYLIGHT, DRY_WELL -> false;
                      })
              .map(Outlet::id)
              .toList();
      all.add(
          String.format(
              Locale.ROOT,
              "the yard slopes up to %.1f %%, more than the %.1f %% on which roof water may be let"
                  + " onto splash blocks: pipe it in solid pipe of its own to %s",
              100 * steepest,
              100 * rules.splashBlockSlope(),
              takers.isEmpty()
                  ? "the street or a watercourse; none was given"
                  : String.join(" or ", takers)));
    }
    if (tooSteep()) {
      all.add(
          String.format(
              Locale.ROOT,
              "the yard slopes up to %.1f %%, more than the %.1f %% of the rules set",
              100 * steepest,
              100 * rules.steepestSlope()));
    }
    return all;
  }
}
