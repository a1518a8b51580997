package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.yardfall.runoff.InflowLedgerFinder;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;
import org.yardfall.water.SurfaceWater;

/**
 * An even slope of 2 % that lies obliquely to the grid and a lot turned with it: all water comes
 * over the upper line and none over the sides, which the slope runs along. Geometry, no source
 * needed.
 */
class ObliqueSlopeTest {

  private static Geometry turned(String wkt, double degrees) {
    return AffineTransformation.rotationInstance(Math.toRadians(degrees), 60, 60)
        .transform(Yard.wkt(wkt));
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 8, 15, 22.5, 30, 37, 45})
  void aPerimeterDrainLiesAlongTheUpperLineAndNotAlongASide(double degrees) {
    double a = Math.toRadians(degrees);
    Coordinate below = turned("POINT (60 34)", degrees).getCoordinate();
    Yard yard =
        Yard.of(
                120,
                120,
                0.5,
                (x, y) -> 10 + 0.02 * (Math.cos(a) * (y - 60) - Math.sin(a) * (x - 60)))
            .lot(turned("POLYGON ((45 40, 75 40, 75 80, 45 80, 45 40))", degrees).toText())
            .neighbour(
                "above",
                turned("POLYGON ((45 80, 75 80, 75 110, 45 110, 45 80))", degrees).toText())
            .neighbour(
                "left", turned("POLYGON ((15 40, 45 40, 45 110, 15 110, 15 40))", degrees).toText())
            .neighbour(
                "right",
                turned("POLYGON ((75 40, 105 40, 105 110, 75 110, 75 40))", degrees).toText())
            .outlet("D1", Outlet.Kind.DITCH, below.x, below.y, 7.5);
    Site site = yard.site();
    SurfaceWater water = yard.water();
    RoutePlan plan =
        RouteFinder.plan(
            site,
            yard.terrain(),
            water,
            InflowLedgerFinder.find(site, yard.terrain(), water, Storm.of(site.storm())).inflow());
    assertFalse(plan.routes().isEmpty(), plan.rejected().toString());
    // Beside each side line, below what lies at the upper corners.
    Geometry sides =
        turned(
            "MULTIPOLYGON (((44 40, 48 40, 48 76, 44 76, 44 40)), ((72 40, 76 40, 76 76, 72 76, 72 40)))",
            degrees);
    for (Route route : plan.routes()) {
      assertEquals(DrainKind.PERIMETER, route.kind());
      double upper = along(route, turned("POLYGON ((45 77, 75 77, 75 80, 45 80, 45 77))", degrees));
      assertEquals(0, along(route, sides), 0.5, route.id());
      assertEquals(28.8, upper, 2.5, route.id());
    }
  }

  /** Length in metres of a route's lines within an area. */
  private static double along(Route route, Geometry area) {
    GeometryFactory factory = new GeometryFactory();
    double sum = line(factory, route.main()).intersection(area).getLength();
    for (Route.Branch branch : route.branches()) {
      sum += line(factory, branch.line()).intersection(area).getLength();
    }
    return sum;
  }

  private static Geometry line(GeometryFactory factory, DrainLine line) {
    return factory.createLineString(line.vertices().toArray(Coordinate[]::new));
  }
}
