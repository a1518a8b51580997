package org.yardfall.layer;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.function.IntPredicate;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.MultiPolygon;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.polygonize.Polygonizer;
import org.yardfall.elevation.GridFrame;

/**
 * Outlines cells of a grid as a valid multipolygon along the cells' edges. Cells that meet only at
 * a corner lie in different polygons.
 */
final class CellAreas {

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private final GridFrame frame;
  private final IntPredicate chosen;

  private CellAreas(GridFrame frame, IntPredicate chosen) {
    this.frame = frame;
    this.chosen = chosen;
  }

  /**
   * The chosen cells as areas.
   *
   * @param frame the grid
   * @param chosen tells by cell index
   * @param leastM2 parts and holes smaller than this are left out
   */
  static MultiPolygon of(GridFrame frame, IntPredicate chosen, double leastM2) {
    return new CellAreas(frame, chosen).outline(leastM2);
  }

  private MultiPolygon outline(double leastM2) {
    Polygonizer polygonizer = new Polygonizer();
    polygonizer.add(borders());
    @SuppressWarnings("unchecked") // the library predates generics
    Collection<Polygon> faces = polygonizer.getPolygons();
    List<Polygon> areas = new ArrayList<>();
    for (Polygon face : faces) {
      Point inside = face.getInteriorPoint();
      if (isChosen(frame.col(inside.getX()), frame.row(inside.getY()))
          && face.getArea() >= leastM2) {
        areas.add(withoutSmallHoles(face, leastM2));
      }
    }
    MultiPolygon all = GEOMETRIES.createMultiPolygon(areas.toArray(new Polygon[0]));
    all.normalize();
    return all;
  }

  private static Polygon withoutSmallHoles(Polygon face, double leastM2) {
    List<LinearRing> holes = new ArrayList<>();
    for (int i = 0; i < face.getNumInteriorRing(); i++) {
      if (GEOMETRIES.createPolygon(face.getInteriorRingN(i)).getArea() >= leastM2) {
        holes.add(face.getInteriorRingN(i));
      }
    }
    return GEOMETRIES.createPolygon(face.getExteriorRing(), holes.toArray(new LinearRing[0]));
  }

  /** Straight stretches between chosen cells and the others, broken wherever stretches meet. */
  private List<LineString> borders() {
    List<LineString> lines = new ArrayList<>();
    for (int row = 0; row <= frame.rows(); row++) {
      int start = -1;
      for (int col = 0; col <= frame.cols(); col++) {
        if (start >= 0 && (isCorner(col, row) || !isHorizontal(col, row))) {
          lines.add(line(start, row, col, row));
          start = -1;
        }
        if (start < 0 && isHorizontal(col, row)) {
          start = col;
        }
      }
    }
    for (int col = 0; col <= frame.cols(); col++) {
      int start = -1;
      for (int row = 0; row <= frame.rows(); row++) {
        if (start >= 0 && (isCorner(col, row) || !isVertical(col, row))) {
          lines.add(line(col, start, col, row));
          start = -1;
        }
        if (start < 0 && isVertical(col, row)) {
          start = row;
        }
      }
    }
    return lines;
  }

  /** Whether a border runs east from the lattice point. */
  private boolean isHorizontal(int col, int row) {
    return isChosen(col, row - 1) != isChosen(col, row);
  }

  /** Whether a border runs south from the lattice point. */
  private boolean isVertical(int col, int row) {
    return isChosen(col - 1, row) != isChosen(col, row);
  }

  /** Whether borders of both directions meet in the lattice point. */
  private boolean isCorner(int col, int row) {
    return (isHorizontal(col, row) || isHorizontal(col - 1, row))
        && (isVertical(col, row) || isVertical(col, row - 1));
  }

  private boolean isChosen(int col, int row) {
    return frame.has(col, row) && chosen.test(row * frame.cols() + col);
  }

  private LineString line(int col0, int row0, int col1, int row1) {
    return GEOMETRIES.createLineString(new Coordinate[] {corner(col0, row0), corner(col1, row1)});
  }

  private Coordinate corner(int col, int row) {
    return new Coordinate(
        frame.westM() + col * frame.cellM(), frame.northM() - row * frame.cellM());
  }
}
