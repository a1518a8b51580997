package org.yardfall.trench;

import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;
import org.locationtech.jts.index.strtree.STRtree;
import org.yardfall.site.Crossing;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Site;
import org.yardfall.site.Surface;

/**
 * What a trench is dug through at a place: the cover that has to be put back, and whether roots are
 * in the way. Crossings are pavement; then the surfaces as given, the first that holds the place;
 * else lawn. A look-up costs O(log n) of the number of outlines.
 */
public final class GroundCover {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final STRtree covers = new STRtree();
  private final STRtree rootZones = new STRtree();

  private record Cover(int order, Surface.Kind kind, PreparedGeometry outline) {}

  private GroundCover(Site site) {
    int order = 0;
    for (Crossing crossing : site.crossings()) {
      add(order++, Surface.Kind.PAVEMENT, crossing.outline());
    }
    for (Surface surface : site.surfaces()) {
      add(order++, surface.kind(), surface.outline());
    }
    for (Obstacle obstacle : site.obstacles()) {
      if (obstacle.kind() == Obstacle.Kind.TREE) {
        Envelope around = new Envelope(obstacle.shape().getEnvelopeInternal());
        around.expandBy(obstacle.clearanceM());
        rootZones.insert(around, obstacle);
      }
    }
    covers.build();
    rootZones.build();
  }

  /** The cover of the given site. */
  public static GroundCover of(Site site) {
    return new GroundCover(site);
  }

  /** The cover at a place in metres of the working plane. */
  public Surface.Kind at(double x, double y) {
    Geometry place = FACTORY.createPoint(new Coordinate(x, y));
    Cover first = null;
    for (Object found : hits(covers, place)) {
      Cover cover = (Cover) found;
      if ((first == null || cover.order() < first.order()) && cover.outline().intersects(place)) {
        first = cover;
      }
    }
    return first == null ? Surface.Kind.LAWN : first.kind();
  }

  /** Whether a place in metres of the working plane lies within the clearance of a tree. */
  public boolean inRootZone(double x, double y) {
    Geometry place = FACTORY.createPoint(new Coordinate(x, y));
    for (Object found : hits(rootZones, place)) {
      Obstacle tree = (Obstacle) found;
      if (tree.shape().isWithinDistance(place, tree.clearanceM())) {
        return true;
      }
    }
    return false;
  }

  private void add(int order, Surface.Kind kind, Geometry outline) {
    covers.insert(
        outline.getEnvelopeInternal(),
        new Cover(order, kind, PreparedGeometryFactory.prepare(outline)));
  }

  private static List<?> hits(STRtree tree, Geometry place) {
    return tree.query(place.getEnvelopeInternal());
  }
}
