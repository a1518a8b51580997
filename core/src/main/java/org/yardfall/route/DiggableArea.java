package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.PolygonExtracter;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;
import org.locationtech.jts.operation.overlayng.OverlayNG;
import org.locationtech.jts.operation.overlayng.OverlayNGRobust;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.locationtech.jts.simplify.DouglasPeuckerSimplifier;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Building;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Site;

/**
 * The part of a lot in which a drain may be dug: inside the setback from the property line, off the
 * buildings by their distance, and clear of obstacles that cannot be passed. Slabs, sprinkler lines
 * and roots are not left out; a drain may go under or through them.
 */
final class DiggableArea {

  /** Slack in metres that keeps a line on an edge of the area inside it in floating point. */
  static final double SLACK_M = 0.002;

  /** A trench follows a curved outline in straight stretches that are off by at most this. */
  private static final double TIDY_M = 0.1;

  /** Niches of a building narrower than twice this, in metres, are passed by straight. */
  private static final double NICHE_M = 0.6;

  private static final double MITRE_LIMIT = 5;

  /** A polygon that holds a circle is larger by so much at its corners. */
  private static final double CIRCLE = 1.03;

  private final Site site;
  private final ElevationGrid ground;
  private final Polygon lot;
  private final DrainLimits limits;

  private DiggableArea(Site site, ElevationGrid ground, Polygon lot) {
    this.site = site;
    this.ground = ground;
    this.lot = lot;
    this.limits = site.drain();
  }

  /**
   * The diggable area of a site's lot.
   *
   * @throws IllegalArgumentException if the site has no lot
   */
  static DiggableArea of(Site site, ElevationGrid ground) {
    return new DiggableArea(
        site,
        ground,
        site.lot().orElseThrow(() -> new IllegalArgumentException("no lot to dig in")).outline());
  }

  /** The area as a polygon or multipolygon; empty where nothing is left. */
  Geometry area() {
    return OverlayNGRobust.overlay(
        insideSetback(), keepOut(Optional.empty()), OverlayNG.DIFFERENCE);
  }

  /** The lot less its setback. */
  Geometry insideSetback() {
    return mitred(lot, -setbackM());
  }

  /** Distance in metres that the middle of a trench keeps from the property line. */
  double setbackM() {
    return Math.max(limits.setbackM(), limits.trenchWidthM() / 2) + SLACK_M;
  }

  /**
   * The rings that a trench along the property line follows: the lot less its setback, corners
   * mitred, curves in straight stretches. Several where the lot is waisted, none where it is too
   * narrow.
   */
  List<Polygon> insetRings() {
    double slack = curveSlackM(lot);
    return polygons(tidy(mitred(lot, -setbackM() - slack), slack));
  }

  /**
   * The ring that a trench round a building follows at the given distance, corners mitred, narrow
   * niches passed by.
   */
  Polygon ringRound(Building building, double distanceM) {
    double slack = curveSlackM(building.outline());
    double offset = distanceM + SLACK_M + slack;
    Geometry closed = mitred(mitred(building.outline(), offset + NICHE_M), -NICHE_M);
    Polygon ring = polygons(tidy(closed, slack)).get(0);
    return ring.getFactory().createPolygon(ring.getExteriorRing());
  }

  /**
   * Where no trench may lie although it is inside the setback.
   *
   * @param but a building that does not count
   */
  Geometry keepOut(Optional<Building> but) {
    List<Geometry> shapes = new ArrayList<>();
    for (Building building : site.buildings()) {
      if (but.isEmpty() || !but.get().equals(building)) {
        shapes.add(mitred(building.outline(), limits.fromBuildingM()));
      }
    }
    for (Obstacle obstacle : site.obstacles()) {
      if (obstacle.passage() == Obstacle.Passage.NONE) {
        shapes.add(clearOf(obstacle));
      }
    }
    Geometry union = UnaryUnionOp.union(shapes);
    return union == null ? new GeometryFactory().createPolygon() : union;
  }

  /** A little more than the clearance, since a circle is drawn in straight stretches. */
  private Geometry clearOf(Obstacle obstacle) {
    if (obstacle.sided()) {
      return SidedClearance.of(obstacle, ground).buffer(SLACK_M);
    }
    double clear = Math.max(obstacle.clearanceM(), limits.trenchWidthM() / 2);
    return obstacle.shape().getDimension() == 2
        ? mitred(obstacle.shape(), clear)
        : obstacle.shape().buffer(CIRCLE * clear);
  }

  private static Geometry mitred(Geometry shape, double distanceM) {
    BufferParameters corners =
        new BufferParameters(
            8, BufferParameters.CAP_FLAT, BufferParameters.JOIN_MITRE, MITRE_LIMIT);
    return BufferOp.bufferOp(shape, distanceM, corners);
  }

  /** 0 for an outline that is straight as it is, so that it is followed exactly. */
  private static double curveSlackM(Polygon outline) {
    return tidy(outline, TIDY_M).getNumPoints() == outline.getNumPoints() ? 0 : TIDY_M;
  }

  private static Geometry tidy(Geometry shape, double byM) {
    return byM == 0 ? shape : DouglasPeuckerSimplifier.simplify(shape, byM);
  }

  @SuppressWarnings("unchecked") // JTS gives a raw list
  private static List<Polygon> polygons(Geometry shape) {
    return shape.isEmpty() ? List.of() : PolygonExtracter.getPolygons(shape);
  }
}
