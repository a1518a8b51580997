package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.algorithm.distance.DiscreteHausdorffDistance;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.site.Obstacle;
import org.yardfall.water.SurfaceWater;

/** Collectors on small lots whose right answer can be drawn by hand. */
class CollectorsTest {

  /** A perimeter drain follows the property line: common practice, no source. */
  @Test
  void thePerimeterDrainFollowsTheOneSideThatWaterCrosses() {
    Yard yard = Yard.slope().fromNorth(300);
    checkPerimeter("LINESTRING(5.6 44.4, 34.4 44.4)", yard);
  }

  @Test
  void cornersAreMitredNotRounded() {
    Yard yard = Yard.slope().fromNorth(300).inflow("west", 200, "LINESTRING(5 5, 5 45)");
    Collector c = perimeter(yard);
    assertEquals(1, c.lines().size());
    // Two sides and 1 m round each far corner: three bends at most.
    assertTrue(c.lines().get(0).getNumPoints() <= 5, c.lines().toString());
    assertTrue(c.lines().get(0).getLength() >= 38.8 + 28.8 - 0.5);
  }

  @Test
  void aShortDryGapIsBridgedAndALongOneIsNot() {
    Yard near =
        Yard.slope()
            .inflow("north", 100, "LINESTRING(8 45, 15 45)")
            .inflow("north", 100, "LINESTRING(19 45, 30 45)");
    assertEquals(1, perimeter(near).lines().size());
    Yard far =
        Yard.slope()
            .inflow("north", 100, "LINESTRING(8 45, 12 45)")
            .inflow("north", 100, "LINESTRING(24 45, 30 45)");
    assertEquals(2, perimeter(far).lines().size());
  }

  @Test
  void aHouseOnTheLineInterruptsThePerimeterDrain() {
    Yard yard =
        Yard.slope().house("POLYGON((15 38, 25 38, 25 44.5, 15 44.5, 15 38))").fromNorth(300);
    Collector c = perimeter(yard);
    assertEquals(2, c.lines().size());
    for (LineString line : c.lines()) {
      assertTrue(line.distance(yard.buildings.get(0).outline()) >= 0.9 - 1e-6, line.toString());
    }
    assertTrue(c.why().contains("cannot be dug"), c.why());
  }

  @Test
  void aConcaveLotKeepsTheSetbackAtItsInnerCorner() {
    Yard yard =
        Yard.of(40, 50, 0.5, (x, y) -> 10 + 0.02 * y)
            .lot("POLYGON((5 5, 35 5, 35 25, 20 25, 20 45, 5 45, 5 5))")
            .inflow("east", 300, "LINESTRING(35 25, 20 25, 20 45)");
    Collector c = perimeter(yard);
    assertEquals(1, c.lines().size());
    LineString line = c.lines().get(0);
    assertTrue(
        line.distance(yard.lot.orElseThrow().outline().getExteriorRing()) >= 0.6, line.toString());
    assertTrue(line.getNumPoints() <= 6, line.toString());
  }

  @Test
  void aLotTooNarrowForTheSetbackGetsNoPerimeterDrain() {
    Yard yard =
        Yard.of(40, 50, 0.5, (x, y) -> 10 + 0.02 * y)
            .lot("POLYGON((5 5, 6 5, 6 45, 5 45, 5 5))")
            .inflow("west", 300, "LINESTRING(5 5, 5 45)");
    assertTrue(perimeter(yard).isEmpty());
    assertTrue(perimeter(yard).why().contains("narrower"));
  }

  @Test
  void aCurvedFrontIsDugInStraightStretches() {
    Geometry round = Yard.wkt("POINT(20 25)").buffer(15, 64);
    Yard yard = Yard.of(40, 50, 0.5, (x, y) -> 10 + 0.02 * y).lot(round.toText());
    yard.inflow("all", 500, ((Polygon) round).getExteriorRing().toText());
    LineString line = perimeter(yard).lines().get(0);
    assertTrue(line.getNumPoints() < 40, "256 corners became " + line.getNumPoints());
    assertTrue(line.distance(((Polygon) round).getExteriorRing()) >= 0.6);
  }

  @Test
  void waterAllRoundMakesARingBrokenAtItsHighestGround() {
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.02 * y + 0.001 * x)
            .inflow("all", 900, "LINESTRING(5 5, 35 5, 35 45, 5 45, 5 5)");
    LineString line = perimeter(yard).lines().get(0);
    assertEquals(2 * (28.8 + 38.8) - 0.5, line.getLength(), 0.1);
    assertTrue(line.getStartPoint().getY() > 43 && line.getStartPoint().getX() > 33);
  }

  /** Of 400 m² above the line 100 are the neighbour's own; the rest only passes through. */
  @Test
  void waterThatOnlyPassesThroughANeighbourIsNotCalledHisOwn() {
    Yard yard = Yard.slope();
    yard.inflow("1", 400, "LINESTRING(5 45, 35 45)", Map.of("1", 100.0, "hill", 300.0));
    yard.inflow("2", 200, "LINESTRING(35 5, 35 45)", Map.of("2", 200.0));
    String why = perimeter(yard).why();
    assertTrue(
        why.startsWith(
            "water arrives over the property line, the runoff of 400 m² from parcel 1 (100 m² its"
                + " own, 300 m² only passing through it from farther uphill), 200 m² from parcel 2"),
        why);
    assertTrue(why.indexOf("passing") == why.lastIndexOf("passing"), why);
  }

  @Test
  void noWaterOverTheLineMeansNoPerimeterDrain() {
    assertTrue(perimeter(Yard.lot((x, y) -> 10)).isEmpty());
  }

  @Test
  void theCurtainDrainLiesUphillOfAHouseOnASlope() {
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.05 * y).house("POLYGON((12 20, 26 20, 26 30, 12 30, 12 20))");
    Collector c = curtain(yard);
    assertEquals(1, c.lines().size(), c.why());
    LineString line = c.lines().get(0);
    assertTrue(line.getLength() > 14 && line.getLength() < 21, line.toString());
    assertTrue(line.getCentroid().getY() > 30, line.toString());
    assertTrue(line.distance(yard.buildings.get(0).outline()) >= 0.9);
    assertTrue(c.why().contains("toward grid north"), c.why());
  }

  /** Against the wall itself no flow crosses a line any more; the water arrives all the same. */
  @Test
  void waterThatArrivesIsSeenHoweverNearTheDrainIsToLie() {
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.05 * y).house("POLYGON((12 20, 26 20, 26 30, 12 30, 12 20))");
    for (double distanceM : new double[] {0, 0.2286, 0.5}) {
      Collector c =
          CurtainCollector.find(yard.site(), yard.ground, yard.water(), List.of(), distanceM);
      assertEquals(1, c.lines().size(), c.why());
      assertTrue(c.why().contains("toward grid north"), c.why());
      assertEquals(distanceM, c.lines().get(0).distance(yard.buildings.get(0).outline()), 0.01);
      // 14 m wide, 20 m of slope above it as far as the raster reaches: 280 m², the sides spread
      // it.
      assertEquals(280, c.servedM2(), 40);
    }
  }

  /** A curtain drain goes round the building, close to it: common practice, no source. */
  @Test
  void aHouseInAHollowGetsARing() {
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.01 * Math.hypot(x - 20, y - 25))
            .house("POLYGON((15 20, 25 20, 25 30, 15 30, 15 20))");
    String why = curtain(yard).why();
    assertTrue(why.startsWith("standing water reaches 4 of 4 sides of building B1"), why);
    LineString line = curtain(yard).lines().get(0);
    assertEquals(4 * 11.8 - 0.5, line.getLength(), 0.1);
    assertTrue(line.getNumPoints() <= 6, "four corners and two ends: " + line);
  }

  @Test
  void aHouseOnAMoundNeedsNoCurtainDrain() {
    Yard yard =
        Yard.lot((x, y) -> 10 - 0.02 * Math.hypot(x - 20, y - 25))
            .house("POLYGON((15 20, 25 20, 25 30, 15 30, 15 20))");
    assertTrue(curtain(yard).isEmpty(), curtain(yard).toString());
  }

  @Test
  void aLotWithoutABuildingHasNoCurtainDrain() {
    Collector c = curtain(Yard.slope());
    assertTrue(c.isEmpty());
    assertTrue(c.why().contains("no building"));
  }

  @Test
  void aLoneLowSpotGetsAShortLineThroughItsDeepestPoint() {
    Yard yard = Yard.lot((x, y) -> 10 + 0.01 * y - bowl(x, y, 20, 25, 4, 0.3));
    Collector c = lowSpot(yard);
    assertEquals(1, c.lines().size());
    assertTrue(c.lines().get(0).getLength() <= LowSpotCollector.ALONE_M);
    assertTrue(c.lines().get(0).distance(Yard.wkt("POINT(20 24.5)")) < 0.8);
  }

  @Test
  void lowSpotsAlongASwaleShareOneLine() {
    // A swale down the middle, falling south, with two hollows in it.
    Yard yard =
        Yard.lot(
            (x, y) ->
                10
                    + 0.01 * y
                    + 0.02 * Math.abs(x - 20)
                    - bowl(x, y, 20, 35, 3, 0.3)
                    - bowl(x, y, 20, 15, 3, 0.3));
    Collector c = lowSpot(yard);
    assertEquals(1, c.lines().size());
    assertEquals(20, c.lines().get(0).getLength(), 2);
    assertEquals(2, c.serves().size());
  }

  @Test
  void aDrainGoesAroundWhatCannotBePassed() {
    Yard yard =
        Yard.slope()
            .obstacle(Obstacle.Kind.WELL, Obstacle.Passage.NONE, 3, "POINT(20 45)")
            .fromNorth(300);
    Collector c = perimeter(yard);
    assertEquals(2, c.lines().size());
    c.lines().forEach(l -> assertTrue(l.distance(Yard.wkt("POINT(20 45)")) >= 3 - 0.01));
  }

  /** A neck narrower than two setbacks parts the lot: each part has its own line. */
  @Test
  void aNeckTooNarrowForATrenchPartsThePerimeterDrain() {
    Yard yard =
        Yard.of(40, 50, 0.5, (x, y) -> 10 + 0.02 * y)
            .lot(
                "POLYGON((5 5, 35 5, 35 22, 21 22, 21 28, 35 28, 35 45, 5 45, 5 28, 20 28, 20 22, 5 22, 5 5))")
            .inflow("west", 300, "LINESTRING(5 5, 5 22, 20 22, 20 28, 5 28, 5 45)");
    Collector c = perimeter(yard);
    assertEquals(2, c.lines().size());
    for (LineString line : c.lines()) {
      assertTrue(
          line.distance(yard.lot.orElseThrow().outline().getExteriorRing()) >= 0.6 - 1e-6,
          line.toString());
      assertTrue(line.getCoordinates().length <= 5, line.toString());
    }
  }

  /** Beside a house 1.2 m from the line no trench keeps both distances: the drain stops at it. */
  @Test
  void aNarrowSideYardInterruptsThePerimeterDrain() {
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.02 * x)
            .house("POLYGON((20 20, 33.8 20, 33.8 30, 20 30, 20 20))")
            .inflow("east", 300, "LINESTRING(35 5, 35 45)");
    Collector c = perimeter(yard);
    assertEquals(2, c.lines().size());
    for (LineString line : c.lines()) {
      assertTrue(line.distance(yard.buildings.get(0).outline()) >= 0.9 - 1e-6);
      assertTrue(line.getEnvelopeInternal().getMinX() > 34);
    }
    assertTrue(c.why().contains("cannot be dug"), c.why());
  }

  @Test
  void aHouseThatTouchesTheLineIsNeverCrossed() {
    Yard yard =
        Yard.slope()
            .house("POLYGON((15 38, 25 38, 25 45, 15 45, 15 38))")
            .inflow("all", 900, "LINESTRING(5 5, 5 45, 35 45, 35 5)");
    Collector c = perimeter(yard);
    assertEquals(2, c.lines().size());
    c.lines()
        .forEach(
            line ->
                assertTrue(
                    line.distance(yard.buildings.get(0).outline()) >= 0.9 - 1e-6, "" + line));
    // of its curtain drain the side on the line is not to be dug either
    Collector curtain = curtain(yard);
    curtain
        .lines()
        .forEach(
            line ->
                assertTrue(
                    yard.lot.orElseThrow().outline().getBoundary().distance(line) >= 0.6 - 1e-6));
  }

  /** Ground that falls to the south-west: water comes from the north and the east. */
  @Test
  void waterFromTwoSidesMakesAnL() {
    checkCurtain((x, y) -> 10 + 0.03 * (x + y), 3, 22, 28);
  }

  /** A hollow open to the south: water comes from three sides. */
  @Test
  void waterFromThreeSidesMakesAU() {
    checkCurtain((x, y) -> 10 + 0.03 * Math.abs(x - 20) + 0.02 * y, 4, 33, 40);
  }

  private static void checkCurtain(
      java.util.function.DoubleBinaryOperator z, int points, double leastM, double mostM) {
    Yard yard = Yard.lot(z).house("POLYGON((15 20, 25 20, 25 30, 15 30, 15 20))");
    Collector c = curtain(yard);
    assertEquals(1, c.lines().size(), c.why());
    LineString line = c.lines().get(0);
    assertEquals(points, line.getNumPoints(), line.toString());
    assertTrue(line.getLength() >= leastM && line.getLength() <= mostM, line.toString());
    assertEquals(0.9, line.distance(yard.buildings.get(0).outline()), 0.01);
  }

  @Test
  void aRoundHouseGetsACurtainInStraightStretches() {
    Geometry round = Yard.wkt("POINT(20 25)").buffer(6, 32);
    Yard yard = Yard.lot((x, y) -> 10 + 0.03 * Math.hypot(x - 20, y - 25)).house(round.toText());
    LineString line = curtain(yard).lines().get(0);
    assertTrue(line.getNumPoints() <= 34, "128 corners became " + line.getNumPoints());
    assertTrue(line.distance(round) >= 0.9 - 1e-6);
  }

  static double bowl(double x, double y, double cx, double cy, double radius, double depth) {
    double r = Math.hypot(x - cx, y - cy) / radius;
    return r >= 1 ? 0 : depth * (1 - r * r);
  }

  private static void checkPerimeter(String wkt, Yard yard) {
    Collector c = perimeter(yard);
    assertEquals(1, c.lines().size(), c.toString());
    // A metre of overlap round each corner and the floating slack are within 1.1 m.
    double apart = DiscreteHausdorffDistance.distance(Yard.wkt(wkt), c.lines().get(0));
    assertTrue(apart < 1.1, c.lines().get(0) + " is off by " + apart);
  }

  private static Collector perimeter(Yard yard) {
    SurfaceWater water = yard.water();
    return PerimeterCollector.find(
        yard.site(), yard.ground, yard.flows, LowSpotCollector.worthDraining(yard.site(), water));
  }

  private static Collector curtain(Yard yard) {
    SurfaceWater water = yard.water();
    return CurtainCollector.find(
        yard.site(),
        yard.ground,
        water,
        LowSpotCollector.worthDraining(yard.site(), water),
        yard.limits.fromBuildingM());
  }

  private static Collector lowSpot(Yard yard) {
    SurfaceWater water = yard.water();
    return LowSpotCollector.find(
        yard.site(), water, LowSpotCollector.worthDraining(yard.site(), water));
  }
}
