package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.lifecycle.AfterContainer;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.drain.StretchDesign;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Outlet;
import org.yardfall.trench.MetrePrice;

/** Lines that join each other: one trench for two of them, counted once. */
class DrainTreeTest {

  private static int branched;
  private static int trees;

  @AfterContainer
  static void treesWereSeen() {
    assertTrue(branched == 0 || branched > 40, branched + " drains with branches");
    assertTrue(branched == 0 || trees > 3, trees + " with a branch that joins a branch");
  }

  /**
   * Two lines far up on one side of the main line, whose ways to it run together: the second joins
   * the first.
   */
  @Test
  void aBranchJoinsABranch() {
    Yard yard =
        Yard.of(50, 60, 0.5, (x, y) -> 20 + 0.02 * y + 0.03 * x)
            .lot("POLYGON((2 2, 48 2, 48 58, 2 58, 2 2))")
            .outlet("CB1", Outlet.Kind.CATCH_BASIN, 6, 4, 18.5);
    RouteGround ground =
        RouteGround.of(yard.site(), yard.ground, RouteSettings.defaults(yard.limits));
    Draft draft =
        draft(
            ground,
            "LINESTRING(6 56, 6 12)",
            "LINESTRING(44 44, 44 34)",
            "LINESTRING(44 30, 44 22)");
    assertEquals(2, draft.branches().size());
    assertEquals(List.of(0, 1), draft.branches().stream().map(Route.Branch::joins).toList());
    assertTrue(audit(ground, draft).passed(), audit(ground, draft).toString());
    assertTrue(draft.unserved().isEmpty());
  }

  /** A collecting line along the main line's own way is not dug a second time. */
  @Test
  void whatLiesInTheTrunksTrenchIsNotDugAgain() {
    Yard yard =
        Yard.of(30, 50, 0.5, (x, y) -> 20 + 0.02 * y)
            .lot("POLYGON((2 2, 28 2, 28 48, 2 48, 2 2))")
            .outlet("CB1", Outlet.Kind.CATCH_BASIN, 15, 4, 18.8);
    RouteGround ground =
        RouteGround.of(yard.site(), yard.ground, RouteSettings.defaults(yard.limits));
    Draft draft =
        draft(
            ground,
            "LINESTRING(15 46, 15 8)",
            "LINESTRING(25 30, 15.3 30, 15.3 15)",
            "LINESTRING(14.8 28, 14.8 12)");
    double dug =
        draft.main().lengthM()
            + draft.branches().stream().mapToDouble(b -> b.line().lengthM()).sum();
    // the line of 38 m, 4 m from it to the basin, and 10 m of the second beside it
    assertEquals(52, dug, 0.5);
    assertEquals(1, draft.branches().size());
    assertTrue(draft.unserved().isEmpty());
  }

  /**
   * A line that lies lower than the main line can be high: the main line is laid lower. Level
   * ground at 10 m with a hollow 0.4 m deep: a pipe of 116 mm under 0.15 m lies at 9.334 in it, and
   * the main line beside it at 9.734 less its fall.
   */
  @Test
  void theMainLineIsLaidLowerForABranchFromAHollow() {
    Yard yard =
        Yard.of(30, 50, 0.5, (x, y) -> 10 - (x > 20 && y > 22 && y < 34 ? 0.4 : 0))
            .lot("POLYGON((2 2, 28 2, 28 48, 2 48, 2 2))")
            .outlet("CB1", Outlet.Kind.CATCH_BASIN, 8, 4, 8.85);
    RouteGround ground =
        RouteGround.of(yard.site(), yard.ground, RouteSettings.defaults(yard.limits));
    Draft draft = draft(ground, "LINESTRING(8 46, 8 8)", "LINESTRING(24 32, 24 24)");
    assertTrue(draft.unserved().isEmpty(), draft.unserved().toString());
    assertEquals(1, draft.branches().size());
    assertTrue(audit(ground, draft).passed(), audit(ground, draft).toString());
    List<Station> stations = draft.branches().get(0).line().stations();
    assertTrue(stations.get(stations.size() - 1).invertM() < 9.334);
  }

  /** The audit tells two lines in one trench, a crossing, and a branch of a branch too low. */
  @Test
  void theAuditTellsWhatIsNoTree() {
    Yard yard =
        Yard.of(30, 50, 0.5, (x, y) -> 20 + 0.02 * y)
            .lot("POLYGON((2 2, 28 2, 28 48, 2 48, 2 2))")
            .outlet("CB1", Outlet.Kind.CATCH_BASIN, 15, 4, 19.2);
    RouteGround ground =
        RouteGround.of(yard.site(), yard.ground, RouteSettings.defaults(yard.limits));
    DrainLine main = laid(ground, "LINESTRING(15 44, 15 4)", 19.2);
    DrainLine branch = laid(ground, "LINESTRING(25 40, 15 30)", 20.15);
    DrainLine twig = laid(ground, "LINESTRING(26 36, 20 35)", 20.37);
    checkFails(ground, main, List.of(), List.of());
    checkFails(ground, main, List.of(), List.of(new Route.Branch(branch, 0, 14)));
    double at = 5 * Math.sqrt(2);
    Route.Branch first = new Route.Branch(branch, 0, 14);
    checkFails(ground, main, List.of(), List.of(first, new Route.Branch(twig, 1, at)));
    // listed before the line that it joins
    checkFails(
        ground, main, List.of("joins-earlier-line"), List.of(new Route.Branch(twig, 2, at), first));
    DrainLine low = laid(ground, "LINESTRING(26 36, 20 35)", 20.2);
    checkFails(
        ground, main, List.of("junction-invert"), List.of(first, new Route.Branch(low, 1, at)));
    // beside the main line for 15 m, and across it
    DrainLine beside = laid(ground, "LINESTRING(25 40, 15.3 30, 15.3 15, 15 14)", 19.6);
    checkFails(ground, main, List.of("shared-trench"), List.of(new Route.Branch(beside, 0, 30)));
    DrainLine across = laid(ground, "LINESTRING(25 40, 10 25, 15 20)", 19.8);
    checkFails(ground, main, List.of("shared-trench"), List.of(new Route.Branch(across, 0, 24)));
  }

  private static void checkFails(
      RouteGround ground, DrainLine main, List<String> expected, List<Route.Branch> branches) {
    List<String> tree =
        List.of("joins-earlier-line", "junction", "junction-invert", "shared-trench");
    Audit audit =
        RouteAuditor.audit(
            ground.site(),
            ground.ground(),
            ground.settings(),
            ground.site().outlets().get(0),
            main,
            branches);
    assertEquals(
        expected,
        audit.checks().stream()
            .filter(c -> !c.passed() && tree.contains(c.name()))
            .map(Audit.Check::name)
            .toList());
  }

  /** A pipe that ends at the given invert, as high as its cover lets it else. */
  private static DrainLine laid(RouteGround ground, String wkt, double endM) {
    GroundLine line = ground.line(List.of(Yard.wkt(wkt).getCoordinates())).orElseThrow();
    Bounds b = Bounds.of(ground.site().drain(), ground.settings());
    GroundLine ends = line.noHigherAt(line.lengthM(), endM, b.outsideM());
    return GradeLine.fewestBreaks(ends, b, endM).orElseThrow();
  }

  /**
   * Lots with a notch, water from two or three sides: no metre is dug twice but where two lines
   * meet, and what the lines take adds up to what leaves at the outlet.
   */
  @Property(tries = 150, seed = "20261125", shrinking = ShrinkingMode.OFF)
  void noMetreIsDugTwiceAndTheFlowsAddUp(@ForAll @LongRange(min = 0, max = 1 << 30) long seed) {
    Yard yard = notched(new Random(seed));
    RoutePlan plan = RouteFinder.plan(yard.site(), yard.terrain(), yard.water(), yard.flows);
    plan.rejected().forEach(x -> assertFalse(x.code().equals("audit"), x.sentence()));
    for (Route route : plan.routes()) {
      branched += route.branches().isEmpty() ? 0 : 1;
      trees += route.branches().stream().anyMatch(b -> b.joins() > 0) ? 1 : 0;
      checkDugOnce(route, yard.limits.trenchWidthM());
      checkFlowsAdd(yard, route);
    }
  }

  /** By the shapes alone: trenches of lines overlap only near the junctions. */
  private static void checkDugOnce(Route route, double widthM) {
    List<LineString> lines = new ArrayList<>(List.of(line(route.main())));
    Geometry near = Yard.wkt("POLYGON EMPTY");
    for (Route.Branch branch : route.branches()) {
      LineString line = line(branch.line());
      lines.add(line);
      near = near.union(line.getEndPoint().buffer(4 * widthM));
    }
    for (int i = 1; i < lines.size(); i++) {
      for (int k = 0; k < i; k++) {
        Geometry twice =
            lines.get(i).difference(near).intersection(lines.get(k).buffer(0.95 * widthM));
        assertTrue(twice.getLength() <= widthM, route.id() + ": " + twice);
      }
    }
  }

  private static void checkFlowsAdd(Yard yard, Route route) {
    DrainDesign design =
        DrainDesigner.design(
            route, yard.site(), yard.terrain(), yard.water(), Storm.of(yard.site().storm()));
    List<StretchDesign> main = design.main().stretches();
    StretchDesign outlet = main.get(main.size() - 1);
    double ownM2 = design.catchment().shares().stream().mapToDouble(s -> s.areaM2()).sum();
    assertEquals(ownM2, outlet.areaM2(), 1e-6 * Math.max(1, ownM2));
    assertEquals(route.lengthM(), outlet.upstreamM(), 1e-6);
    for (int i = 1; i < design.lines().size(); i++) {
      List<StretchDesign> stretches = design.lines().get(i).stretches();
      Route.Branch branch = route.branches().get(i - 1);
      StretchDesign last = stretches.get(stretches.size() - 1);
      StretchDesign onto =
          design.lines().get(branch.joins()).stretches().stream()
              .filter(s -> s.toM() > branch.junctionM() + 1e-6)
              .findFirst()
              .orElseThrow();
      assertTrue(onto.areaM2() >= last.areaM2() - 1e-6);
      assertTrue(onto.flowM3S() >= last.flowM3S() * 0.8, onto + " below " + last);
    }
    for (var each : design.lines()) {
      for (int i = 1; i < each.stretches().size(); i++) {
        StretchDesign above = each.stretches().get(i - 1);
        StretchDesign below = each.stretches().get(i);
        assertTrue(below.flowM3S() >= above.flowM3S() - 1e-12);
        if (above.count() == below.count()) {
          assertTrue(below.pipe().nominalIn() >= above.pipe().nominalIn());
        }
      }
    }
  }

  private static Yard notched(Random random) {
    double e = 26 + 4 * random.nextDouble();
    double n = 30 + 6 * random.nextDouble();
    double nx = 12 + 6 * random.nextDouble();
    double ny = 14 + 8 * random.nextDouble();
    double south = 0.01 + 0.02 * random.nextDouble();
    double west = 0.03 * (random.nextDouble() - 0.3);
    Yard yard =
        Yard.of(34, 42, 1, (x, y) -> 20 + south * y + west * x)
            .lot(
                text(
                    "POLYGON((4 4, %1$f 4, %1$f %2$f, %3$f %2$f, %3$f %4$f, 4 %4$f, 4 4))",
                    e, ny, nx, n));
    yard.inflow("north", 200, text("LINESTRING(4 %2$f, %1$f %2$f)", nx, n));
    yard.inflow("east", 200, text("LINESTRING(%1$f 6, %1$f %2$f)", e, ny));
    if (random.nextBoolean()) {
      yard.inflow("notch", 100, text("LINESTRING(%1$f %3$f, %2$f %3$f)", nx + 6, e, ny));
    }
    if (random.nextBoolean()) {
      yard.inflow("west", 100, text("LINESTRING(4 %1$f, 4 %2$f)", 8.0, ny - 2));
    }
    double x = 6 + (e - 8) * random.nextDouble();
    return yard.outlet(
        "CB1",
        Outlet.Kind.CATCH_BASIN,
        x,
        2,
        yard.ground.bilinear(x, 2) - 0.4 - 0.7 * random.nextDouble());
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  private static Draft draft(RouteGround ground, String... lines) {
    List<LineString> collectors = new ArrayList<>();
    for (String wkt : lines) {
      collectors.add((LineString) Yard.wkt(wkt));
    }
    Optional<Draft> draft =
        DrainRouter.of(ground, collectors)
            .route(
                List.of(OutletTarget.of(ground.site().outlets().get(0), ground)),
                Bounds.of(ground.site().drain(), ground.settings()),
                TrenchCost.price(MetrePrice.of(ground.site())));
    return draft.orElseThrow();
  }

  private static Audit audit(RouteGround ground, Draft draft) {
    return RouteAuditor.audit(
        ground.site(),
        ground.ground(),
        ground.settings(),
        ground.site().outlets().get(0),
        draft.main(),
        draft.branches());
  }

  private static LineString line(DrainLine line) {
    return new GeometryFactory().createLineString(line.vertices().toArray(Coordinate[]::new));
  }
}
