package org.yardfall.water;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleBinaryOperator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.Building;
import org.yardfall.site.FlowOpening;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/** Small grounds for tests. */
final class Grids {

  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  private Grids() {}

  /** A grid of 1 m cells from rows of numbers, north first; {@code .} is not known. */
  static ElevationGrid rows(String... rows) {
    int cols = words(rows[0]).size();
    float[] z = new float[cols * rows.length];
    for (int row = 0; row < rows.length; row++) {
      List<String> numbers = words(rows[row]);
      for (int col = 0; col < cols; col++) {
        z[row * cols + col] =
            numbers.get(col).equals(".") ? Float.NaN : Float.parseFloat(numbers.get(col));
      }
    }
    return new ElevationGrid(new GridFrame(cols, rows.length, 0, rows.length, 1), z);
  }

  private static List<String> words(String row) {
    return Arrays.asList(row.trim().split("\\s+", -1));
  }

  /** A surface of x and y, sampled at the cells' centres; the south-west corner is the origin. */
  static ElevationGrid surface(int cols, int rows, double cellM, DoubleBinaryOperator height) {
    GridFrame frame = new GridFrame(cols, rows, 0, rows * cellM, cellM);
    float[] z = new float[cols * rows];
    for (int row = 0; row < rows; row++) {
      for (int col = 0; col < cols; col++) {
        z[row * cols + col] = (float) height.applyAsDouble(frame.x(col), frame.y(row));
      }
    }
    return new ElevationGrid(frame, z);
  }

  /**
   * Random ground.
   *
   * @param levels number of different elevations, few for many flats; 0 for any float
   * @param holes share of cells without elevation
   */
  static ElevationGrid random(Random random, int cols, int rows, int levels, double holes) {
    float[] z = new float[cols * rows];
    for (int c = 0; c < z.length; c++) {
      z[c] = levels == 0 ? random.nextFloat() * 10 - 3 : random.nextInt(levels);
      if (random.nextDouble() < holes) {
        z[c] = Float.NaN;
      }
    }
    return new ElevationGrid(new GridFrame(cols, rows, 0, rows, 1), z);
  }

  static Terrain terrain(ElevationGrid ground, double accuracyM, double stepM) {
    return new Terrain(ground, List.of(), accuracyM, true, stepM, "", List.of(), List.of());
  }

  static SurfaceWater water(ElevationGrid ground) {
    return water(ground, 0.001, List.of(), List.of(), Optional.empty());
  }

  static SurfaceWater water(
      ElevationGrid ground,
      double accuracyM,
      List<Building> buildings,
      List<FlowOpening> openings,
      Optional<Polygon> lot) {
    return SurfaceWaterFinder.find(terrain(ground, accuracyM, 0), site(buildings, openings, lot));
  }

  static Site site(List<Building> buildings, List<FlowOpening> openings, Optional<Polygon> lot) {
    return MadeUpSite.site()
        .lot(lot.map(outline -> new Parcel("7", outline)).orElse(null))
        .buildings(buildings)
        .openings(openings)
        .make();
  }

  static Polygon box(double west, double south, double east, double north) {
    return GEOMETRY.createPolygon(
        new Coordinate[] {
          new Coordinate(west, south),
          new Coordinate(east, south),
          new Coordinate(east, north),
          new Coordinate(west, north),
          new Coordinate(west, south)
        });
  }

  static Building house(double west, double south, double east, double north) {
    return new Building("house", box(west, south, east, north), OptionalDouble.empty());
  }

  static FlowOpening culvert(double x1, double y1, double x2, double y2) {
    return new FlowOpening(
        "K1",
        FlowOpening.Kind.CULVERT,
        GEOMETRY.createLineString(
            new Coordinate[] {new Coordinate(x1, y1), new Coordinate(x2, y2)}),
        OptionalDouble.empty(),
        OptionalDouble.empty());
  }

  /** A quarter turn clockwise. */
  static ElevationGrid turned(ElevationGrid ground) {
    int width = ground.frame().rows();
    int height = ground.frame().cols();
    float[] z = new float[width * height];
    for (int row = 0; row < width; row++) {
      for (int col = 0; col < height; col++) {
        z[col * width + width - 1 - row] = ground.at(col, row);
      }
    }
    return new ElevationGrid(new GridFrame(width, height, 0, height, 1), z);
  }
}
