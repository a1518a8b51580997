package org.yardfall.layer;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.Assumption;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.Given;
import org.yardfall.site.LevelledSwale;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Prices;
import org.yardfall.site.Seep;
import org.yardfall.site.ShotInput;
import org.yardfall.site.Site;
import org.yardfall.site.StormInput;
import org.yardfall.site.WorkingCrs;

/**
 * The lot of {@link ResultFixture}: what is on the ground and the ground itself, its south-west
 * corner somewhere on a plane.
 */
final class InventedLot {

  static final double DIP_RADIUS_M = 5;

  private static final double MARGIN_M = 10;
  private static final double CELL_M = 0.5;
  private static final double DIP_DEPTH_M = 0.3;
  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  final double x0;
  final double y0;
  final String neighbourId;
  private final WorkingCrs crs;
  private final String lotId;

  InventedLot(String crs, double easting, double northing, String lotId, String neighbourId) {
    this.crs = CrsLookup.of(crs);
    this.x0 = this.crs.toMetres(easting);
    this.y0 = this.crs.toMetres(northing);
    this.lotId = lotId;
    this.neighbourId = neighbourId;
  }

  Site site() {
    Parcel lot = new Parcel(lotId, box(0, 0, ResultFixture.WIDTH_M, ResultFixture.HEIGHT_M));
    Parcel neighbour =
        new Parcel(
            neighbourId,
            box(0, ResultFixture.HEIGHT_M, ResultFixture.WIDTH_M, 2 * ResultFixture.HEIGHT_M));
    return MadeUpSite.site()
        .name("Invented lot")
        .crs(crs)
        .lot(lot)
        .parcels(List.of(neighbour, lot))
        .buildings(List.of(new Building("house", box(15, 8, 27, 18), OptionalDouble.of(240.9))))
        .obstacles(
            List.of(
                Given.obstacle(
                    "water main",
                    Obstacle.Kind.UTILITY,
                    line(0, 4, ResultFixture.WIDTH_M, 4),
                    0.6,
                    Obstacle.Passage.UNDER,
                    OptionalDouble.of(241.2),
                    0.3),
                Given.obstacle(
                    "oak",
                    Obstacle.Kind.TREE,
                    GEOMETRIES.createPoint(at(40, 30)),
                    3,
                    Obstacle.Passage.SOLID_PIPE,
                    0),
                Given.obstacle(
                    "tank",
                    Obstacle.Kind.SEPTIC,
                    box(5, 25, 8, 29),
                    1.5,
                    Obstacle.Passage.NONE,
                    0)))
        .crossings(
            List.of(new Crossing("walk", box(50, 9, ResultFixture.WIDTH_M, 10.5), 0.1, 0.15)))
        .outlets(
            List.of(
                new Outlet(
                    "CB1",
                    Outlet.Kind.CATCH_BASIN,
                    at(55, 2),
                    OptionalDouble.of(240.9),
                    OptionalDouble.of(241.0),
                    OptionalDouble.of(241.5),
                    "ask the town"),
                new Outlet(
                    lotId,
                    Outlet.Kind.DITCH,
                    at(30, -5),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    "")))
        .soil(Given.soil('D', OptionalDouble.of(1 / 3.6e6), OptionalDouble.empty()))
        .storm(
            new StormInput(
                OptionalDouble.of(0.065), OptionalDouble.of(86400), null, OptionalDouble.of(10)))
        .drain(Given.limits(0.005, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.114, 0.102))
        .prices(new Prices(Map.of(Prices.Item.TRENCH, 40.0, Prices.Item.STONE, 55.0)))
        .elevation(
            new ElevationInput(
                List.of(Path.of("dem.tif")),
                null,
                null,
                OptionalDouble.of(1),
                "local",
                OptionalDouble.of(0.1),
                null,
                ShotInput.NONE,
                ""))
        .seeps(
            List.of(new Seep("spring", GEOMETRIES.createPoint(at(10, 40)), OptionalDouble.empty())))
        .levelled(List.of(new LevelledSwale("old swale", box(27, 22, 33, 28))))
        .assumptions(
            List.of(
                new Assumption("drain.max-grade", "20 %", "common practice, no source"),
                new Assumption("drain.setback", "0.6 m", "common practice, no source")))
        .warnings(List.of("parcel 6 overlaps parcel 5 by 0.1 m2"))
        .make();
  }

  Terrain terrain(ElevationGrid ground) {
    return new Terrain(
        ground,
        List.of("dem.tif: 160 x 140 cells of 0.5 m"),
        0.1,
        true,
        0.01,
        "local",
        List.of(new Assumption("drain.setback", "0.6 m", "common practice, no source")),
        List.of("dem.tif: elevations are rounded to 0.01 m"));
  }

  ElevationGrid ground() {
    GridFrame frame =
        new GridFrame(
            (int) ((ResultFixture.WIDTH_M + 2 * MARGIN_M) / CELL_M),
            (int) ((ResultFixture.HEIGHT_M + 2 * MARGIN_M) / CELL_M),
            x0 - MARGIN_M,
            y0 + ResultFixture.HEIGHT_M + MARGIN_M,
            CELL_M);
    float[] z = new float[frame.size()];
    for (int cell = 0; cell < z.length; cell++) {
      double east = frame.x(cell % frame.cols()) - x0;
      double north = frame.y(cell / frame.cols()) - y0;
      double fromDip = Math.hypot(east - 30, north - 25) / DIP_RADIUS_M;
      z[cell] = (float) (plane(east, north) - DIP_DEPTH_M * Math.max(0, 1 - fromDip * fromDip));
    }
    return new ElevationGrid(frame, z);
  }

  static double plane(double east, double north) {
    return 242 + 0.01 * north - 0.01 * east;
  }

  Coordinate at(double east, double north) {
    return new Coordinate(x0 + east, y0 + north);
  }

  Polygon box(double west, double south, double east, double north) {
    return GEOMETRIES.createPolygon(
        new Coordinate[] {
          at(west, south), at(east, south), at(east, north), at(west, north), at(west, south)
        });
  }

  LineString line(double east0, double north0, double east1, double north1) {
    return GEOMETRIES.createLineString(new Coordinate[] {at(east0, north0), at(east1, north1)});
  }

  Polygon circle(double east, double north, double radius) {
    return (Polygon) GEOMETRIES.createPoint(at(east, north)).buffer(radius);
  }
}
