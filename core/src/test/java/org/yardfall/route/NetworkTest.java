package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Point;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.drain.StretchDesign;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Outlet;

/** Drains of several lines and several outlets, from the planner to the flow in the pipe. */
class NetworkTest {

  /**
   * A valley that falls south: water arrives down both its sides, and leaves through its middle.
   */
  private static Yard valley() {
    return Yard.lot((x, y) -> 10 + 0.02 * y + 0.03 * Math.abs(x - 20))
        .inflow("east", 300, "LINESTRING(35 10, 35 40)")
        .inflow("west", 300, "LINESTRING(5 15, 5 40)")
        .basin(20, 2, 9);
  }

  @Test
  void twoCollectingLinesShareATrunk() {
    Route first = perimeter(valley().plan());
    assertTrue(first.audit().passed());
    assertEquals(1, first.branches().size());
    assertTrue(
        first.reasons().stream().noneMatch(r -> r.contains("left out")), "" + first.reasons());
    // both sides are collected
    LineString main = line(first.main());
    LineString branch = line(first.branches().get(0).line());
    assertTrue(Yard.wkt("POINT(34.4 25)").distance(main.union(branch)) < 0.3);
    assertTrue(Yard.wkt("POINT(5.6 25)").distance(main.union(branch)) < 0.3);
  }

  /** A branch ends on the trunk and no lower than the trunk's pipe lies there. */
  @Test
  void aBranchIsNeverBelowTheTrunk() {
    for (double deep = 8.6; deep <= 9.4; deep += 0.2) {
      Yard yard = valley();
      yard.outlets.clear();
      yard.basin(20, 2, deep);
      for (Route route : yard.plan().routes()) {
        for (Route.Branch branch : route.branches()) {
          List<Station> stations = branch.line().stations();
          Station end = stations.get(stations.size() - 1);
          assertTrue(line(route.main()).distance(point(end.x(), end.y())) < 0.05);
          assertTrue(end.invertM() >= invertM(route.main(), branch.junctionM()) - 1e-6);
        }
      }
    }
  }

  @Test
  void flowsAddBelowTheJunction() {
    Yard yard = valley();
    Route route = perimeter(yard.plan());
    DrainDesign design =
        DrainDesigner.design(
            route, yard.site(), yard.terrain(), yard.water(), Storm.of(yard.site().storm()));
    List<StretchDesign> main = design.main().stretches();
    List<StretchDesign> branch = design.lines().get(1).stretches();
    double junction = route.branches().get(0).junctionM();
    double joins = branch.get(branch.size() - 1).areaM2();
    assertTrue(joins > 50, "" + joins);
    double above = 0;
    double below = 0;
    for (StretchDesign s : main) {
      if (s.toM() <= junction + 1e-6) {
        above = s.areaM2();
      } else if (below == 0) {
        below = s.areaM2();
      }
    }
    // the stretch below the junction takes what both bring, and what arrives along itself
    double along = below - above - joins;
    assertTrue(along >= -1e-6 && along < 20, above + " + " + joins + " against " + below);
    StretchDesign last = main.get(main.size() - 1);
    assertTrue(last.flowM3S() > branch.get(branch.size() - 1).flowM3S());
    assertTrue(last.areaM2() >= below - 1e-6);
  }

  /** A ridge along the middle: each side's water goes to the outlet of its own side. */
  @Test
  void twoOutletsShareWhatNeitherCanTakeAlone() {
    Yard yard =
        Yard.lot((x, y) -> 12 - 0.06 * Math.abs(x - 20))
            .inflow("east", 300, "LINESTRING(35 10, 35 40)")
            .inflow("west", 200, "LINESTRING(5 15, 5 40)")
            .outlet("E", Outlet.Kind.DITCH, 37, 4, 10.4)
            .outlet("W", Outlet.Kind.DITCH, 3, 4, 10.4);
    RoutePlan plan = yard.plan();
    Route east = to("E", plan);
    Route west = to("W", plan);
    assertTrue(east.main().vertices().stream().allMatch(v -> v.x > 20));
    assertTrue(west.main().vertices().stream().allMatch(v -> v.x < 20));
    checkSays(east, "what it leaves out is taken by " + west.id() + ", to outlet W: together");
    checkSays(west, "what it leaves out is taken by " + east.id() + ", to outlet E: together");
    assertTrue(plan.rejected().stream().noneMatch(x -> x.outletId().equals("W")));
  }

  private static void checkSays(Route route, String expected) {
    assertTrue(
        route.reasons().stream().anyMatch(r -> r.contains(expected)), route.reasons().toString());
  }

  private static Route perimeter(RoutePlan plan) {
    return plan.routes().stream()
        .filter(r -> r.kind() == DrainKind.PERIMETER)
        .findFirst()
        .orElseThrow();
  }

  private static Route to(String outlet, RoutePlan plan) {
    return plan.routes().stream()
        .filter(r -> r.outletId().equals(outlet) && r.kind() == DrainKind.PERIMETER)
        .findFirst()
        .orElseThrow(() -> new AssertionError(plan.rejected().toString()));
  }

  private static LineString line(DrainLine line) {
    return new GeometryFactory().createLineString(line.vertices().toArray(Coordinate[]::new));
  }

  private static Point point(double x, double y) {
    return new GeometryFactory().createPoint(new Coordinate(x, y));
  }

  /** Invert of a line, straight between its stations. */
  private static double invertM(DrainLine line, double stationM) {
    double invert = Double.NaN;
    for (int i = 1; i < line.stations().size(); i++) {
      Station a = line.stations().get(i - 1);
      Station b = line.stations().get(i);
      if (a.stationM() <= stationM + 1e-9 && stationM <= b.stationM() + 1e-9) {
        double share = (stationM - a.stationM()) / Math.max(1e-9, b.stationM() - a.stationM());
        invert = a.invertM() + share * (b.invertM() - a.invertM());
      }
    }
    return invert;
  }
}
