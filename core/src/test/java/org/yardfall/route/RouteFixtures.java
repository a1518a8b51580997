package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleBinaryOperator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Given;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/** Invented grounds and sites for the route tests. */
final class RouteFixtures {

  /** 1 % to 20 %, 15 cm cover, 1.2 m deep, 4 in pipe of 116 mm outside. */
  static final DrainLimits LIMITS =
      Given.limits(0.01, 0.20, 0.15, 1.20, 0.60, 0.90, 0.45, 0.116, 0.102);

  private RouteFixtures() {}

  /** Ground by a formula of x and y, its south-west corner at the origin. */
  static ElevationGrid ground(int cols, int rows, double cellM, DoubleBinaryOperator z) {
    GridFrame frame = new GridFrame(cols, rows, 0, rows * cellM, cellM);
    float[] out = new float[frame.size()];
    for (int row = 0; row < rows; row++) {
      for (int col = 0; col < cols; col++) {
        out[row * cols + col] = (float) z.applyAsDouble(frame.x(col), frame.y(row));
      }
    }
    return new ElevationGrid(frame, out);
  }

  static Geometry wkt(String text) {
    return Yard.wkt(text);
  }

  static Polygon box(double west, double south, double east, double north) {
    return (Polygon)
        wkt(
            "POLYGON((%s %s,%s %s,%s %s,%s %s,%s %s))"
                .formatted(west, south, east, south, east, north, west, north, west, south));
  }

  static List<Coordinate> line(double... xy) {
    List<Coordinate> points = new ArrayList<>();
    for (int i = 0; i < xy.length; i += 2) {
      points.add(new Coordinate(xy[i], xy[i + 1]));
    }
    return points;
  }

  static Outlet outlet(String id, Outlet.Kind kind, double x, double y, double invertM) {
    return new Outlet(
        id,
        kind,
        new Coordinate(x, y),
        Double.isNaN(invertM) ? OptionalDouble.empty() : OptionalDouble.of(invertM),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        "");
  }

  static SiteMaker site() {
    return new SiteMaker();
  }

  /** Puts a site together; what is not given is not there. */
  static final class SiteMaker {
    private Parcel lot;
    private final List<Parcel> parcels = new ArrayList<>();
    private final List<Building> buildings = new ArrayList<>();
    private final List<Obstacle> obstacles = new ArrayList<>();
    private final List<Crossing> crossings = new ArrayList<>();
    private final List<Outlet> outlets = new ArrayList<>();
    private DrainLimits limits = LIMITS;

    SiteMaker lot(Polygon outline) {
      lot = new Parcel("own", outline);
      parcels.add(lot);
      return this;
    }

    SiteMaker neighbour(Polygon outline) {
      parcels.add(new Parcel("next" + parcels.size(), outline));
      return this;
    }

    SiteMaker building(Polygon outline) {
      buildings.add(new Building("house", outline, OptionalDouble.empty()));
      return this;
    }

    SiteMaker slab(Polygon outline) {
      crossings.add(new Crossing("walk" + crossings.size(), outline, 0.10, 0.10));
      return this;
    }

    SiteMaker obstacle(
        Obstacle.Kind kind,
        Obstacle.Passage passage,
        Geometry shape,
        double clearanceM,
        double bottomM) {
      obstacles.add(
          Given.obstacle(
              "o" + obstacles.size(),
              kind,
              shape,
              clearanceM,
              passage,
              Double.isNaN(bottomM) ? OptionalDouble.empty() : OptionalDouble.of(bottomM),
              0.15));
      return this;
    }

    SiteMaker outlet(Outlet outlet) {
      outlets.add(outlet);
      return this;
    }

    SiteMaker limits(DrainLimits drain) {
      limits = drain;
      return this;
    }

    Site make() {
      return MadeUpSite.site()
          .lot(lot)
          .parcels(parcels)
          .buildings(buildings)
          .obstacles(obstacles)
          .crossings(crossings)
          .outlets(outlets)
          .drain(limits)
          .make();
    }

    RouteGround on(ElevationGrid ground) {
      Site site = make();
      return RouteGround.of(site, ground, RouteSettings.defaults(site.drain()));
    }
  }
}
