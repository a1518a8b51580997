package org.yardfall.layer;

import java.util.function.Consumer;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateSequence;
import org.locationtech.jts.geom.CoordinateXY;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.impl.CoordinateArraySequence;
import org.locationtech.jts.geom.util.GeometryTransformer;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;

/** Places geometries of the working plane on the map of a file; elevations stay. */
final class Placement {

  private final Consumer<double[]> inPlace;

  private Placement(Consumer<double[]> inPlace) {
    this.inPlace = inPlace;
  }

  /** In the working CRS's own unit. */
  static Placement inWorkingCrs(WorkingCrs crs) {
    return new Placement(
        xy -> {
          xy[0] = crs.toCrsUnit(xy[0]);
          xy[1] = crs.toCrsUnit(xy[1]);
        });
  }

  /** In longitude and latitude of WGS 84, in degrees. */
  static Placement inWgs84(WorkingCrs crs) {
    return new Placement(PlaneTransform.toWgs84(crs)::apply);
  }

  Coordinate apply(Coordinate point) {
    double[] xy = {point.x, point.y};
    inPlace.accept(xy);
    double z = point.getZ();
    return Double.isNaN(z) ? new CoordinateXY(xy[0], xy[1]) : new Coordinate(xy[0], xy[1], z);
  }

  Geometry apply(Geometry geometry) {
    return new GeometryTransformer() {
      @Override
      protected CoordinateSequence transformCoordinates(CoordinateSequence from, Geometry parent) {
        Coordinate[] points = new Coordinate[from.size()];
        for (int i = 0; i < points.length; i++) {
          points[i] = Placement.this.apply(from.getCoordinate(i));
        }
        return new CoordinateArraySequence(points, points.length == 0 ? 2 : dimension(points[0]));
      }
    }.transform(geometry);
  }

  private static int dimension(Coordinate point) {
    return point instanceof CoordinateXY ? 2 : 3;
  }
}
