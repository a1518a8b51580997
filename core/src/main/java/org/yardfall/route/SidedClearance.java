package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Obstacle;

/**
 * The ground that a trench must not use around a septic field or a well whose distances differ
 * uphill and downhill: a trench below it may draw off what seeps from it, one above it does not.
 *
 * <p>A place lies uphill where its ground is higher than the highest ground over the obstacle; all
 * else counts as downhill. Cells are judged by the ground of the cells around, so that no place
 * between them gets the smaller distance that should have the larger.
 */
final class SidedClearance {

  private SidedClearance() {}

  /** Highest ground in metres over an obstacle; NaN where none of it is known. */
  static double levelM(Obstacle obstacle, ElevationGrid ground) {
    double highest = Double.NaN;
    for (Coordinate c : obstacle.shape().getCoordinates()) {
      highest = higher(highest, ground.bilinear(c.x, c.y));
    }
    GridFrame f = ground.frame();
    Envelope box = obstacle.shape().getEnvelopeInternal();
    for (int row = f.row(box.getMaxY()); row <= f.row(box.getMinY()); row++) {
      for (int col = f.col(box.getMinX()); col <= f.col(box.getMaxX()); col++) {
        if (inside(f, col, row)
            && obstacle.shape().distance(point(obstacle, f.x(col), f.y(row))) < f.cellM()) {
          highest = higher(highest, ground.z()[row * f.cols() + col]);
        }
      }
    }
    return highest;
  }

  /** The ground kept clear, as a polygon or multipolygon. */
  static Geometry of(Obstacle obstacle, ElevationGrid ground) {
    double uphill = obstacle.uphillM().orElse(obstacle.clearanceM());
    double downhill = obstacle.downhillM().orElse(obstacle.clearanceM());
    Geometry near = OuterBuffer.of(obstacle.shape(), Math.min(uphill, downhill));
    Geometry far = OuterBuffer.of(obstacle.shape(), Math.max(uphill, downhill));
    boolean above = uphill > downhill;
    double level = levelM(obstacle, ground);
    if (Double.isNaN(level)) {
      return far;
    }
    GridFrame f = ground.frame();
    Envelope box = far.getEnvelopeInternal();
    List<Geometry> side = new ArrayList<>();
    GeometryFactory factory = far.getFactory();
    for (int row = f.row(box.getMaxY()); row <= f.row(box.getMinY()); row++) {
      int from = f.col(box.getMinX());
      for (int col = from; col <= f.col(box.getMaxX()) + 1; col++) {
        boolean counts = col <= f.col(box.getMaxX()) && farSide(ground, col, row, level, above);
        if (!counts) {
          if (col > from) {
            side.add(factory.toGeometry(strip(f, from, col, row)));
          }
          from = col + 1;
        }
      }
    }
    Geometry cells = side.isEmpty() ? factory.createPolygon() : UnaryUnionOp.union(side);
    return near.union(far.intersection(cells));
  }

  /** Whether a cell may lie on the side of the larger distance. */
  private static boolean farSide(
      ElevationGrid ground, int col, int row, double level, boolean above) {
    GridFrame f = ground.frame();
    double lowest = Double.POSITIVE_INFINITY;
    double highest = Double.NEGATIVE_INFINITY;
    for (int r = row - 1; r <= row + 1; r++) {
      for (int c = col - 1; c <= col + 1; c++) {
        double z = inside(f, c, r) ? ground.z()[r * f.cols() + c] : Double.NaN;
        lowest = Double.isNaN(z) ? lowest : Math.min(lowest, z);
        highest = Double.isNaN(z) ? highest : Math.max(highest, z);
      }
    }
    return above ? highest > level : lowest <= level || lowest == Double.POSITIVE_INFINITY;
  }

  private static Envelope strip(GridFrame f, int fromCol, int toCol, int row) {
    return new Envelope(
        f.westM() + fromCol * f.cellM(),
        f.westM() + toCol * f.cellM(),
        f.northM() - (row + 1) * f.cellM(),
        f.northM() - row * f.cellM());
  }

  private static Geometry point(Obstacle obstacle, double x, double y) {
    return obstacle.shape().getFactory().createPoint(new Coordinate(x, y));
  }

  private static boolean inside(GridFrame f, int col, int row) {
    return col >= 0 && row >= 0 && col < f.cols() && row < f.rows();
  }

  private static double higher(double a, double b) {
    return Double.isNaN(b) || a >= b ? a : b;
  }
}
