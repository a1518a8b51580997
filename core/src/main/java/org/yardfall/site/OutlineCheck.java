package org.yardfall.site;

import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.GeometryFixer;
import org.locationtech.jts.geom.util.PolygonExtracter;
import org.locationtech.jts.operation.valid.IsValidOp;
import org.locationtech.jts.operation.valid.TopologyValidationError;

/** Checks outlines as read, in their file's coordinates. */
final class OutlineCheck {

  private OutlineCheck() {}

  /** The polygons that the geometry holds; empty if it has no area. */
  static List<Polygon> polygons(Geometry geometry) {
    List<?> found = PolygonExtracter.getPolygons(geometry);
    return found.stream().map(Polygon.class::cast).filter(p -> !p.isEmpty()).toList();
  }

  /** What is wrong with an outline and where, such as {@code self-intersection at 3.0, 4.5}. */
  static String fault(Geometry geometry) {
    TopologyValidationError error = new IsValidOp(geometry).getValidationError();
    if (error == null) {
      return "";
    }
    Coordinate at = error.getCoordinate();
    String what = error.getMessage().toLowerCase(Locale.ROOT);
    return at == null ? what : String.format(Locale.ROOT, "%s at %.6f, %.6f", what, at.x, at.y);
  }

  /**
   * An outline that is not the subject's own, mended so that it keeps its structure; what was done
   * is added to the warnings with the change of area.
   */
  static Geometry mended(Geometry geometry, String name, List<String> warnings) {
    String fault = fault(geometry);
    if (fault.isEmpty()) {
      return geometry;
    }
    Geometry mended = GeometryFixer.fix(geometry);
    double share = geometry.getArea() == 0 ? 0 : 100 * (mended.getArea() / geometry.getArea() - 1);
    warnings.add(
        name
            + ": the outline is not valid ("
            + fault
            + "); it was mended, which changes its area by "
            + String.format(Locale.ROOT, "%.2f", share)
            + " %");
    return mended;
  }
}
