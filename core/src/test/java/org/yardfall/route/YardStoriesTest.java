package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.drain.RoofInlet;
import org.yardfall.drain.TakeOff;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.runoff.DrainEffectFinder;
import org.yardfall.runoff.InflowLedgerFinder;
import org.yardfall.runoff.Storm;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Prices;
import org.yardfall.site.Site;

/** Small yards as their owners tell of them. */
class YardStoriesTest {

  /** Through the roots of a water-seeking tree the pipe is solid, before and after perforated. */
  @Test
  void throughRootsThePipeIsSolidAndOnlyThere() {
    Yard yard =
        Yard.slope()
            .obstacle(Obstacle.Kind.TREE, Obstacle.Passage.SOLID_PIPE, 6, "POINT(20 25)")
            .basin(20, 2, 9);
    Site site = yard.drawn("LINESTRING(20 40, 20 2)");
    Route route = RouteFinder.pinned(site, yard.terrain(), yard.water()).routes().get(0);
    double solid = 0;
    double open = 0;
    List<Station> s = route.main().stations();
    for (int i = 1; i < s.size(); i++) {
      double run = s.get(i).stationM() - s.get(i - 1).stationM();
      solid += s.get(i - 1).span() == Station.Span.SOLID ? run : 0;
      open += s.get(i - 1).span() == Station.Span.OPEN ? run : 0;
    }
    assertEquals(12, solid, 0.02); // across a circle of 6 m
    assertEquals(38, solid + open, 1e-6);
  }

  /**
   * The street is the high side, a neighbour's fence the low one: no drain may end before the fence
   * with its water running on to the neighbour as a point.
   */
  @Test
  void aLotThatFallsToTheRearFenceIsNotDrainedOntoTheNeighbour() {
    Yard yard =
        Yard.of(40, 60, 0.5, (x, y) -> 10 + 0.03 * y)
            .lot(Yard.LOT)
            .neighbour("rear", "POLYGON((5 -10, 35 -10, 35 5, 5 5, 5 -10))")
            .inflow("", 300, "LINESTRING(5 45, 35 45)")
            .outlet("D1", Outlet.Kind.DAYLIGHT, 20, 8, 10.2);
    RoutePlan plan = yard.plan();
    assertTrue(plan.routes().isEmpty());
    assertTrue(
        plan.rejected().stream().anyMatch(x -> x.code().equals("onto-neighbour")),
        plan.rejected().toString());
  }

  /** What lies between the roots' clearance is billed as solid pipe, the rest as perforated. */
  @Test
  void theBillSplitsPerforatedFromSolidPipeAtTheRoots() {
    Yard yard =
        Yard.slope()
            .obstacle(Obstacle.Kind.TREE, Obstacle.Passage.SOLID_PIPE, 6, "POINT(20 25)")
            .basin(20, 2, 9);
    DrainDesign design = design(yard, yard.drawn("LINESTRING(20 40, 20 2)"));
    assertEquals(12, pipeM(design, Prices.Item.SOLID_PIPE), 0.02);
    assertEquals(38 - 12, pipeM(design, Prices.Item.PIPE), 0.02);
  }

  private static double pipeM(DrainDesign design, Prices.Item item) {
    return design.takeOff().lines().stream()
        .filter(l -> l.code().equals("pipe") && l.priceItem() == item)
        .mapToDouble(TakeOff.Line::needed)
        .sum();
  }

  /**
   * Roof water and the yard's drain are two networks: joined to perforated pipe it leaks out at the
   * footing, and it may join only where the line is solid all the way down ({@code common practice,
   * no source}).
   */
  @Test
  void aDownspoutMayJoinOnlyTheSolidEndOfTheDrain() {
    Yard yard =
        Yard.slope()
            .obstacle(Obstacle.Kind.TREE, Obstacle.Passage.SOLID_PIPE, 6, "POINT(20 6)")
            .basin(20, 2, 9);
    Site site = yard.drawn("LINESTRING(20 40, 20 2)");
    Route route = RouteFinder.pinned(site, yard.terrain(), yard.water()).routes().get(0);
    DrainDesigner designer =
        DrainDesigner.of(site, yard.terrain(), yard.water(), Storm.of(site.storm()));
    BadInputException refused =
        assertThrows(
            BadInputException.class,
            () -> designer.design(route, List.of(new RoofInlet("S1", new Coordinate(21, 30)))));
    assertTrue(
        refused.getMessage().contains("run into perforated pipe of R1 at main station 10.0 m"),
        refused.getMessage());
    // The roots begin at 12 m, 28 m down the line; from there it is solid to the basin.
    double below =
        Double.parseDouble(
            refused.getMessage().replaceAll("(?s).*join below main station ([0-9.]+) m.*", "$1"));
    assertEquals(28, below, 0.15, refused.getMessage());
    assertEquals(
        "R1",
        designer.design(route, List.of(new RoofInlet("S1", new Coordinate(21, 8)))).routeId());
  }

  /**
   * The street is the high side and the rear fence the low one: the water is met at the street, and
   * over the rear line no more runs than before.
   */
  @Test
  void waterFromTheStreetIsMetAtTheStreetAndTheRearNeighbourGetsNoMore() {
    Yard yard =
        Yard.of(40, 60, 0.5, (x, y) -> 10 + 0.03 * y)
            .lot(Yard.LOT)
            .neighbour("rear", "POLYGON((5 -10, 35 -10, 35 5, 5 5, 5 -10))")
            .street("street", "POLYGON((0 45, 40 45, 40 60, 0 60, 0 45))")
            .basin(37, 20, 9.9);
    Storm storm = Storm.of(yard.site().storm());
    InflowLedgerFinder ledger =
        InflowLedgerFinder.of(yard.site(), yard.terrain(), yard.water(), storm, Optional.empty());
    RoutePlan plan =
        RouteFinder.plan(yard.site(), yard.terrain(), yard.water(), ledger.find().all());
    Route best = plan.routes().get(0);
    assertEquals(DrainKind.PERIMETER, best.kind(), plan.rejected().toString());
    assertEquals(44.4, best.main().stations().get(0).y(), 0.1);
    DrainDesign design = design(yard, best, yard.site());
    DrainEffect effect =
        DrainEffectFinder.of(ledger)
            .find(
                design.catchment().takes(),
                design.catchment().keepsM3(),
                yard.site().outlets().get(0));
    DrainEffect.NeighbourChange rear =
        effect.neighbours().stream()
            .filter(n -> n.neighbour().equals("rear"))
            .findFirst()
            .orElseThrow();
    assertTrue(rear.beforeM3() > 0);
    assertTrue(rear.afterM3() <= rear.beforeM3() && rear.afterPeakM3S() <= rear.beforePeakM3S());
    assertFalse(rear.rises());
    // Nothing was said of the water table: whether it is groundwater is asked, not guessed.
    assertTrue(
        design.cautions().stream()
            .anyMatch(
                c ->
                    c.code().equals("surface-or-groundwater")
                        && c.words().startsWith("Surface or groundwater?")));
  }

  /** The lawn is soggy where hardly any ground sheds to: the surface does not explain it. */
  @Test
  void aWetPatchThatTheSurfaceDoesNotExplainIsAskedAbout() {
    assertTrue(question("POINT(20 59)").contains("the surface does not explain it"));
    assertTrue(question("POINT(20 10)").contains("may be all that makes it wet"));
  }

  private static String question(String wkt) {
    Yard yard =
        Yard.of(40, 60, 0.5, (x, y) -> 10 + 0.03 * y)
            .lot("POLYGON((1 1, 39 1, 39 59.5, 1 59.5, 1 1))")
            .seep("S1", Double.NaN, wkt)
            .basin(20, 0.5, 9);
    return yard.plan().warnings().stream()
        .filter(w -> w.startsWith("surface or groundwater?"))
        .findFirst()
        .orElseThrow();
  }

  private static DrainDesign design(Yard yard, Site site) {
    return design(
        yard, RouteFinder.pinned(site, yard.terrain(), yard.water()).routes().get(0), site);
  }

  private static DrainDesign design(Yard yard, Route route, Site site) {
    return DrainDesigner.design(route, site, yard.terrain(), yard.water(), Storm.of(site.storm()));
  }
}
