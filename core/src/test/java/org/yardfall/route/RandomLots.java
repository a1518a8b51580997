package org.yardfall.route;

import java.util.List;
import java.util.Random;
import org.locationtech.jts.geom.LineString;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Given;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;

/**
 * Random lots with everything on them that a trench must mind; the same seed gives the same lot.
 */
record RandomLots(
    RouteGround ground, List<LineString> collectors, List<OutletTarget> targets, Bounds bounds) {

  static RandomLots of(long seed) {
    Random random = new Random(seed);
    double width = 14 + random.nextInt(8);
    double depth = 18 + random.nextInt(10);
    double west = 6;
    double south = 6;
    double cell = random.nextBoolean() ? 0.5 : 1.0;
    double slope = -0.01 + 0.05 * random.nextDouble();
    double across = 0.03 * (random.nextDouble() - 0.5);
    double noise = 0.06 * random.nextDouble();
    double bowl = random.nextInt(3) == 0 ? 0.4 * random.nextDouble() : 0;
    double bx = west + width * random.nextDouble();
    double by = south + depth * random.nextDouble();
    ElevationGrid ground =
        RouteFixtures.ground(
            (int) ((width + 12) / cell),
            (int) ((depth + 12) / cell),
            cell,
            (x, y) ->
                20
                    + slope * (y - south)
                    + across * (x - west)
                    + noise * (random.nextDouble() - 0.5)
                    - bowl * Math.exp(-((x - bx) * (x - bx) + (y - by) * (y - by)) / 16));
    DrainLimits limits =
        Given.limits(
            0.005 + 0.01 * random.nextDouble(),
            0.05 + 0.2 * random.nextDouble(),
            0.10 + 0.1 * random.nextDouble(),
            0.6 + 0.6 * random.nextDouble(),
            0.3 + 0.4 * random.nextDouble(),
            0.6 + 0.4 * random.nextDouble(),
            0.30,
            0.116,
            0.102);
    RouteFixtures.SiteMaker site =
        RouteFixtures.site()
            .limits(limits)
            .lot(RouteFixtures.box(west, south, west + width, south + depth))
            .neighbour(RouteFixtures.box(west - 30, south, west, south + depth))
            .neighbour(RouteFixtures.box(west + width, south, west + width + 30, south + depth));
    double hx = west + 4 + 2 * random.nextDouble();
    double hy = south + 6 + 2 * random.nextDouble();
    site.building(RouteFixtures.box(hx, hy, hx + 5, hy + 5));
    if (random.nextBoolean()) {
      site.slab(RouteFixtures.box(hx + 1, south, hx + 2.2, hy));
    }
    if (random.nextBoolean()) {
      site.obstacle(
          Obstacle.Kind.SPRINKLER,
          Obstacle.Passage.UNDER,
          RouteFixtures.wkt(
              "LINESTRING(%s %s, %s %s)"
                  .formatted(west, south + 3, west + width, south + 3 + random.nextDouble())),
          0.2,
          Double.NaN);
    }
    if (random.nextBoolean()) {
      site.obstacle(
          Obstacle.Kind.TREE,
          random.nextBoolean() ? Obstacle.Passage.SOLID_PIPE : Obstacle.Passage.NONE,
          RouteFixtures.wkt(
              "POINT(%s %s)"
                  .formatted(
                      west + width * random.nextDouble(), south + depth * random.nextDouble())),
          1 + random.nextDouble(),
          Double.NaN);
    }
    double ox = west + width * random.nextDouble();
    Outlet.Kind kind = random.nextBoolean() ? Outlet.Kind.CATCH_BASIN : Outlet.Kind.DITCH;
    double drop = 0.2 + 0.6 * random.nextDouble();
    site.outlet(
        RouteFixtures.outlet("A", kind, ox, south - 1 - 2 * random.nextDouble(), 20 - drop));
    site.outlet(
        RouteFixtures.outlet("B", Outlet.Kind.CATCH_BASIN, west + width / 2, south + 2, 20 - drop));
    RouteGround g = site.on(ground);
    double in = limits.setbackM() + 0.01;
    String back = "%s %s".formatted(west + in, south + depth - in);
    String corner = "%s %s".formatted(west + width - in, south + depth - in);
    String side = "%s %s".formatted(west + width - in, south + depth / 2);
    double off = limits.fromBuildingM() + 0.01;
    LineString line =
        (LineString)
            RouteFixtures.wkt(
                random.nextBoolean()
                    ? "LINESTRING(%s, %s, %s)".formatted(back, corner, side)
                    : "LINESTRING(%1$s %2$s, %3$s %2$s, %3$s %4$s, %1$s %4$s, %1$s %2$s)"
                        .formatted(hx - off, hy - off, hx + 5 + off, hy + 5 + off));
    return new RandomLots(
        g,
        List.of(line),
        g.site().outlets().stream().map(o -> OutletTarget.of(o, g)).toList(),
        Bounds.of(limits, g.settings()));
  }

  boolean collectorsPermitted() {
    return collectors.stream().allMatch(l -> ground.permits(List.of(l.getCoordinates())));
  }
}
