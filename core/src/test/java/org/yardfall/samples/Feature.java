package org.yardfall.samples;

import java.util.LinkedHashMap;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;

/**
 * A thing on a sample's map, in metres of its working plane.
 *
 * @param shape where it lies
 * @param fields its attributes in order
 */
record Feature(Geometry shape, Map<String, Object> fields) {

  private static final GeometryFactory SHAPES = new GeometryFactory();

  /** A rectangle with attributes given as name, value, name, value … */
  static Feature rectangle(double west, double south, double east, double north, Object... fields) {
    return polygon(
        new double[] {west, south, east, south, east, north, west, north, west, south}, fields);
  }

  /** A polygon from x, y pairs, counter-clockwise and closed. */
  static Feature polygon(double[] xy, Object... fields) {
    return new Feature(SHAPES.createPolygon(coordinates(xy)), map(fields));
  }

  /** A line from x, y pairs. */
  static Feature line(double[] xy, Object... fields) {
    return new Feature(SHAPES.createLineString(coordinates(xy)), map(fields));
  }

  /** A point. */
  static Feature point(double x, double y, Object... fields) {
    return new Feature(SHAPES.createPoint(new Coordinate(x, y)), map(fields));
  }

  private static Coordinate[] coordinates(double[] xy) {
    Coordinate[] coordinates = new Coordinate[xy.length / 2];
    for (int i = 0; i < coordinates.length; i++) {
      coordinates[i] = new Coordinate(xy[2 * i], xy[2 * i + 1]);
    }
    return coordinates;
  }

  private static Map<String, Object> map(Object... fields) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i < fields.length; i += 2) {
      map.put((String) fields[i], fields[i + 1]);
    }
    return map;
  }
}
