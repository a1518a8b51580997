package org.yardfall.layer;

import java.util.Arrays;
import java.util.function.Consumer;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateXY;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.util.GeometryEditor;
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
    return new GeometryEditor()
        .edit(
            geometry,
            new GeometryEditor.CoordinateOperation() {
              @Override
              public Coordinate[] edit(Coordinate[] points, Geometry part) {
                return Arrays.stream(points).map(Placement.this::apply).toArray(Coordinate[]::new);
              }
            });
  }
}
