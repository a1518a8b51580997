package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;

/** On random grounds, lots, houses and outlets, whatever is proposed can be built as drawn. */
class RouteFinderPropertyTest {

  private static final double SIZE_M = 26;

  @Property(tries = 1000, shrinking = ShrinkingMode.OFF, seed = "20260114")
  void everyProposedRouteFallsAllTheWayOnPermittedGround(@ForAll long seed) {
    Yard yard = yard(new Random(seed));
    RoutePlan plan = yard.plan();
    for (Rejection x : plan.rejected()) {
      assertTrue(!x.code().equals("audit"), x.sentence());
      assertTrue(!x.sentence().isBlank());
      assertTrue(x.shortfallM().isEmpty() || x.shortfallM().getAsDouble() > 0, x.sentence());
    }
    for (int i = 0; i < plan.routes().size(); i++) {
      Route route = plan.routes().get(i);
      assertEquals(i + 1, route.rank());
      assertTrue(route.audit().passed(), route.audit().toString());
      checkFalls(yard, route.main());
      for (Route.Branch branch : route.branches()) {
        checkFalls(yard, branch.line());
      }
      checkEnds(yard, plan, route);
    }
  }

  /** By plain arithmetic and nothing of the program's own. */
  private static void checkFalls(Yard yard, DrainLine line) {
    List<Station> s = line.stations();
    for (int i = 1; i < s.size(); i++) {
      double length = s.get(i).stationM() - s.get(i - 1).stationM();
      double fall = s.get(i - 1).invertM() - s.get(i).invertM();
      assertTrue(fall >= yard.limits.minGrade() * length - 1e-4, line.toString());
    }
    LineString plan =
        new GeometryFactory().createLineString(line.vertices().toArray(Coordinate[]::new));
    Geometry lot = yard.lot.orElseThrow().outline();
    yard.buildings.forEach(
        b ->
            assertTrue(
                b.outline().distance(plan) >= yard.limits.fromBuildingM() - 0.01,
                "near the house: " + plan));
    // Whatever runs along the property line keeps the setback; only the way out crosses it.
    double strip =
        plan.intersection(lot.difference(lot.buffer(-yard.limits.setbackM() + 0.01))).getLength();
    assertTrue(strip <= 2 * yard.limits.setbackM() + 0.1, strip + " m on the setback: " + plan);
  }

  private static void checkEnds(Yard yard, RoutePlan plan, Route route) {
    List<Outlet> outlets = new java.util.ArrayList<>(yard.outlets);
    outlets.addAll(plan.found());
    Outlet outlet =
        outlets.stream().filter(o -> o.id().equals(route.outletId())).findFirst().orElseThrow();
    Station end = route.main().stations().get(route.main().stations().size() - 1);
    assertEquals(0, outlet.at().distance(new Coordinate(end.x(), end.y())), 0.05);
    assertTrue(end.invertM() >= outlet.invertM().orElseThrow() - 1e-3);
  }

  private static Yard yard(Random random) {
    double[] c = random.doubles(8, -1, 1).toArray();
    Yard yard =
        Yard.of(
            SIZE_M,
            SIZE_M,
            1,
            (x, y) ->
                10
                    + 0.03 * c[0] * x
                    + 0.03 * c[1] * y
                    + 0.25 * c[2] * Math.sin(0.35 * x + 3 * c[3]) * Math.cos(0.3 * y + 3 * c[4])
                    + 0.15 * c[5] * Math.sin(0.7 * y + 0.2 * x + 3 * c[6])
                    + 0.5 * Math.max(0, c[7]) / (1 + Math.exp(-(y - 12))));
    double w = 3 + random.nextDouble();
    double e = SIZE_M - 3 - random.nextDouble();
    double n = SIZE_M - 3 - 2 * random.nextDouble();
    yard.lot(
        random.nextInt(3) == 0
            ? String.format(
                java.util.Locale.ROOT,
                "POLYGON((%1$f 4, %2$f 3, %2$f 14, 15 15, 15 %3$f, %1$f %3$f, %1$f 4))",
                w,
                e,
                n)
            : String.format(
                java.util.Locale.ROOT,
                "POLYGON((%1$f 4, %2$f 3, %2$f %3$f, %1$f %4$f, %1$f 4))",
                w,
                e,
                n,
                n - 1));
    if (random.nextInt(3) > 0) {
      double x = 6 + 2 * random.nextDouble();
      double y = 7 + 4 * random.nextDouble();
      yard.house(box(x, y, x + 4 + 2 * random.nextDouble(), y + 3 + 2 * random.nextDouble()));
    }
    if (random.nextInt(3) == 0) {
      double x = 16 + 3 * random.nextDouble();
      yard.slab(box(x, 0, x + 2.5, 10));
    }
    if (random.nextInt(3) == 0) {
      yard.obstacle(
          Obstacle.Kind.TREE,
          random.nextBoolean() ? Obstacle.Passage.NONE : Obstacle.Passage.SOLID_PIPE,
          1 + random.nextDouble(),
          String.format(
              java.util.Locale.ROOT,
              "POINT(%f %f)",
              5 + 15 * random.nextDouble(),
              16 + 5 * random.nextDouble()));
    }
    if (random.nextBoolean()) {
      yard.inflow(
          "above",
          100,
          random.nextBoolean()
              ? String.format(java.util.Locale.ROOT, "LINESTRING(%f %f, %f %f)", w, n - 1, w, 6.0)
              : String.format(java.util.Locale.ROOT, "LINESTRING(%f 5, %f 12)", e, e));
    }
    int outlets = 1 + random.nextInt(2);
    for (int i = 0; i < outlets; i++) {
      // Each in its own half: two outlets at one point are refused, which is tested elsewhere.
      double x = 4 + 10 * i + 8 * random.nextDouble();
      yard.outlet(
          "O" + i,
          random.nextBoolean() ? Outlet.Kind.CATCH_BASIN : Outlet.Kind.DITCH,
          x,
          1.5,
          yard.ground.bilinear(x, 1.5) - 0.3 - random.nextDouble());
    }
    return yard;
  }

  private static String box(double x0, double y0, double x1, double y1) {
    return String.format(
        java.util.Locale.ROOT,
        "POLYGON((%1$f %2$f, %3$f %2$f, %3$f %4$f, %1$f %4$f, %1$f %2$f))",
        x0,
        y0,
        x1,
        y1);
  }
}
