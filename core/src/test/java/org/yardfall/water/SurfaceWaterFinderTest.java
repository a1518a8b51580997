package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleBinaryOperator;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Site;
import org.yardfall.site.Surface;

class SurfaceWaterFinderTest {

  /** A bowl of over a thousand pits, and beside it one small low spot in no other. */
  @Test
  void aLowSpotInNoOtherIsListedBeforeThoseWithin() {
    ElevationGrid ground =
        Grids.surface(
            120,
            108,
            1,
            (x, y) -> {
              int col = (int) x;
              int row = (int) y;
              if (col >= 112 && col < 114 && row >= 50 && row < 52) {
                return 9.5;
              }
              if (col < 2 || row < 2 || col >= 106 || row >= 106) {
                return 10;
              }
              return col % 3 < 2 && row % 3 < 2 ? 0 : 5;
            });
    SurfaceWater water = Grids.water(ground);
    assertEquals(1000, water.lowSpots().size());
    assertEquals(2, water.lowSpots().stream().filter(l -> l.parentId().isEmpty()).count());
    assertTrue(water.lowSpots().stream().anyMatch(l -> Math.abs(l.depthM() - 0.5) < 1e-6));
  }

  /** Solids of revolution: volume by the textbook formula, for radius 10 m and depth 1 m. */
  @Test
  void hollowsHoldWhatTheirFormulaSays() {
    checkHollow(Math.PI * 100 / 2, r -> r * r / 100); // paraboloid
    checkHollow(Math.PI * 100 / 3, r -> r / 10); // cone
    // spherical cap of rim radius 10 m and depth 1 m: π h (3 a² + h²) / 6, sphere of 50.5 m
    checkHollow(Math.PI * (300 + 1) / 6, r -> 50.5 - Math.sqrt(50.5 * 50.5 - r * r));
  }

  private static void checkHollow(double volumeM3, DoubleUnaryOperator bed) {
    double cellM = 0.1;
    ElevationGrid ground =
        Grids.surface(
            241,
            241,
            cellM,
            (x, y) -> {
              double r = Math.hypot(x - 12.05, y - 12.05);
              return 100 + (r < 10 ? bed.applyAsDouble(r) : 1 - (r - 10) * 1e-4);
            });
    LowSpot spot = Grids.water(ground).lowSpots().get(0);
    assertEquals(1, spot.depthM(), 1e-3);
    assertEquals(volumeM3, spot.volumeM3(), 0.003 * volumeM3);
    assertEquals(12.05, spot.deepest().x, 1e-6);
    assertEquals(12.05, spot.deepest().y, 1e-6);
    assertEquals("", spot.doubtful());
    assertEquals(spot.volumeM3(), spot.stages().get(10).volumeM3(), 1e-6);
    // V is the integral of A dz
    double sum = 0;
    for (int i = 1; i <= 10; i++) {
      LowSpot.Stage below = spot.stages().get(i - 1);
      LowSpot.Stage above = spot.stages().get(i);
      assertTrue(above.levelM() > below.levelM() && above.areaM2() >= below.areaM2());
      sum += (above.levelM() - below.levelM()) * (above.areaM2() + below.areaM2()) / 2;
    }
    assertEquals(spot.volumeM3(), sum, 0.02 * volumeM3);
  }

  @Test
  void aLowSpotSaysWhereItSpillsAndWhatDrainsToIt() {
    // a basin of 12 m3 spills east into one of 3 m3, which runs off
    ElevationGrid ground =
        Grids.rows(
            "9 9 9 9 9 9 9 9 9 9", //
            "9 1 1 9 9 9 9 9 9 9",
            "9 1 1 4 3 2 2 2 3 0",
            "9 9 9 9 9 9 9 9 9 9");
    SurfaceWater water = Grids.water(ground);
    assertEquals(1, water.lowSpots().size());
    LowSpot spot = water.lowSpots().get(0);
    assertEquals(4, spot.spillM());
    assertEquals(new Coordinate(3.5, 1.5), spot.spillPoint());
    assertEquals(12, spot.volumeM3());
    assertEquals(4, spot.areaM2());
    assertTrue(spot.atLeast());
    assertTrue(
        water.assumptions().stream().anyMatch(a -> a.value().startsWith("1 smaller hollows")));
  }

  @Test
  void aLowSpotShallowerThanTheAccuracyIsDoubtfulNotDropped() {
    DoubleBinaryOperator dish =
        (x, y) -> 5 + Math.max(0, Math.hypot(x - 10, y - 10) - 5) * 0.1 + (x < 15 ? 0 : 1e-3);
    ElevationGrid ground =
        Grids.surface(20, 20, 1, (x, y) -> Math.min(5.06, dish.applyAsDouble(x, y)) - x * 1e-5);
    LowSpot doubtful =
        Grids.water(ground, 0.10, List.of(), List.of(), Optional.empty()).lowSpots().get(0);
    assertTrue(doubtful.doubtful().contains("shallower than the elevations' accuracy"));
    LowSpot sure =
        Grids.water(ground, 0.03, List.of(), List.of(), Optional.empty()).lowSpots().get(0);
    assertEquals("", sure.doubtful());
  }

  @Test
  void aPlaneRoundedToAStepIsLeftUndetermined() {
    // 0.2 % of fall rounded to a tenth of a metre: terraces 50 m wide
    DoubleBinaryOperator wall = (x, y) -> x < 1 || y < 1 || y > 89 ? 1 : 0;
    ElevationGrid ground =
        Grids.surface(
            120,
            90,
            1,
            (x, y) -> Math.round((10 - 0.002 * x) * 10) / 10.0 + wall.applyAsDouble(x, y));
    Terrain terrain = Grids.terrain(ground, 0.02, 0.1);
    SurfaceWater water =
        SurfaceWaterFinder.find(terrain, Grids.site(List.of(), List.of(), Optional.empty()));
    assertTrue(water.undetermined().cardinality() > 0.9 * 120 * 90);
    assertFalse(water.flowPaths().isEmpty());
    assertTrue(water.flowPaths().stream().allMatch(FlowPath::undetermined));
    assertTrue(water.warnings().stream().anyMatch(w -> w.contains("steps of 0.1 m")));
    SurfaceWater exact =
        Grids.water(Grids.surface(120, 90, 1, (x, y) -> 10 - 0.002 * x + wall.applyAsDouble(x, y)));
    assertEquals(0, exact.undetermined().cardinality());
    assertTrue(exact.flowPaths().stream().noneMatch(FlowPath::undetermined));
  }

  @Test
  void aHollowDrawnByRoundingIsDoubtful() {
    ElevationGrid ground =
        Grids.surface(30, 30, 1, (x, y) -> Math.hypot(x - 15, y - 15) < 6 ? 4.9 : 5);
    SurfaceWater water =
        SurfaceWaterFinder.find(
            Grids.terrain(ground, 0.05, 0.1), Grids.site(List.of(), List.of(), Optional.empty()));
    assertTrue(water.lowSpots().get(0).doubtful().contains("0.1 m step"));
    assertTrue(water.undetermined().get(15 * 30 + 15));
  }

  @Test
  void aClipAtTheLotGivesALowerBoundAndAWiderOneTheWhole() {
    // a slope whose top, 100 m north of the lot, is a divide within the wider raster
    DoubleBinaryOperator hill = (x, y) -> 0.02 * Math.min(y, 280 - y) + 0.0005 * Math.abs(x - 20);
    SurfaceWater clipped =
        Grids.water(
            Grids.surface(40, 40, 1, hill),
            0.05,
            List.of(),
            List.of(),
            Optional.of(Grids.box(5, 5, 35, 38)));
    assertFalse(clipped.lotCatchmentCutOff().isEmpty());
    assertTrue(clipped.lotCatchmentCutOff().contains(Side.NORTH));
    assertFalse(clipped.lotCatchmentCutOff().contains(Side.SOUTH));
    assertTrue(clipped.warnings().stream().anyMatch(w -> w.contains("catchment cut off")));
    assertTrue(clipped.flowPaths().get(0).atLeast());
    SurfaceWater whole =
        Grids.water(
            Grids.surface(40, 160, 1, hill),
            0.05,
            List.of(),
            List.of(),
            Optional.of(Grids.box(5, 5, 35, 38)));
    assertFalse(whole.lotCatchmentCutOff().contains(Side.NORTH));
    assertTrue(whole.lotCatchment().orElseThrow().areaM2() > 3 * 30 * 33);
  }

  @Test
  void groundWhoseCatchmentLiesWithinIsNotMarked() {
    // a hill in the middle: what runs down from its top has not come from beyond the edge
    SurfaceWater water =
        Grids.water(Grids.surface(61, 61, 1, (x, y) -> -0.1 * Math.hypot(x - 30.5, y - 30.5)));
    assertFalse(water.edge().get(30 * 61 + 40));
    assertTrue(water.edge().get(0));
    assertEquals(4 * 60, water.edge().cardinality());
  }

  @Test
  void anUnknownHoleIsSaid() {
    ElevationGrid plane = Grids.surface(20, 20, 1, (x, y) -> 5 - 0.1 * x);
    float[] z = plane.z().clone();
    z[10 * 20 + 10] = Float.NaN;
    SurfaceWater water = Grids.water(new ElevationGrid(plane.frame(), z));
    assertTrue(
        water.warnings().stream().anyMatch(w -> w.startsWith("1 cells")),
        water.warnings()::toString);
    assertTrue(water.edge().get(10 * 20 + 11));
    // the blank margin of a turned raster is no hole
    z[10 * 20 + 10] = 4;
    Arrays.fill(z, 0, 20, Float.NaN);
    assertTrue(Grids.water(new ElevationGrid(plane.frame(), z)).warnings().isEmpty());
  }

  @Test
  void groundWithoutAnyElevationIsRefused() {
    assertThrows(BadInputException.class, () -> Grids.water(Grids.rows(". .", ". .")));
  }

  /** Two rows hold no cell with ground all round it, so no low spot says nothing about the yard. */
  @Test
  void groundThatIsAllEdgeIsSaid() {
    SurfaceWater two = Grids.water(Grids.rows("5 1 5", "5 5 5"));
    assertTrue(two.lowSpots().isEmpty());
    assertTrue(two.warnings().stream().anyMatch(w -> w.contains("of 3 by 2 cells")));
    assertTrue(Grids.water(Grids.rows("5 5 5", "5 1 5", "5 5 5")).warnings().isEmpty());
  }

  /** Drives and walks lie in the ground as measured: no cell is raised or lowered for them. */
  @Test
  void drivesAndWalksLeaveTheGroundAsItIs() {
    ElevationGrid plane = Grids.surface(40, 30, 1, (x, y) -> 10 - 0.02 * x + 0.01 * y);
    Site bare = Grids.site(List.of(), List.of(), Optional.empty());
    Site paved =
        MadeUpSite.like(bare)
            .crossings(List.of(new Crossing("walk", Grids.box(18, 0, 20, 30), 0.1, 0.1)))
            .surfaces(List.of(new Surface(Surface.Kind.PAVEMENT, Grids.box(5, 5, 15, 25))))
            .make();
    SurfaceWater water = SurfaceWaterFinder.find(Grids.terrain(plane, 0.05, 0), paved);
    SurfaceWater without = SurfaceWaterFinder.find(Grids.terrain(plane, 0.05, 0), bare);
    assertArrayEquals(plane.z(), water.ground().z());
    assertTrue(water.altered().isEmpty());
    assertArrayEquals(without.flow().toward(), water.flow().toward());
    assertArrayEquals(without.areaM2(), water.areaM2());
  }

  /** The house as a void, as a slope drawn across it, and as the roof itself. */
  @Test
  void waterGoesRoundAHouseHoweverTheElevationShowsIt() {
    ElevationGrid plane = Grids.surface(40, 30, 1, (x, y) -> 10 - 0.02 * x);
    List<Building> house = List.of(Grids.house(15, 10, 25, 20));
    double[] first = null;
    for (float inside : new float[] {Float.NaN, 0, 6}) {
      float[] z = plane.z().clone();
      for (int c : CellsWithin.of(plane.frame(), house.get(0).outline())) {
        z[c] += inside;
      }
      SurfaceWater water =
          Grids.water(
              new ElevationGrid(plane.frame(), z), 0.05, house, List.of(), Optional.empty());
      checkRound(water, house.get(0));
      assertEquals(
          inside == 6, water.warnings().stream().anyMatch(w -> w.contains("surface model")));
      first = first == null ? water.areaM2() : first;
      assertArrayEquals(first, water.areaM2(), 1e-9);
    }
  }

  private static void checkRound(SurfaceWater water, Building house) {
    int[] roof = CellsWithin.of(water.ground().frame(), house.outline());
    assertEquals(100, roof.length);
    boolean[] roofed = new boolean[water.areaM2().length];
    for (int c : roof) {
      roofed[c] = true;
    }
    double left = 0;
    for (int c = 0; c < roofed.length; c++) {
      int next = water.flow().receiver(c);
      assertFalse(next >= 0 && !roofed[c] && roofed[next], "flows into the house");
      left += next < 0 ? water.areaM2()[c] : 0;
    }
    assertEquals(40 * 30, left, 1e-9);
    // nothing has run through: the roof's rain is shared by the 44 cells round it
    double[] rain = new double[roofed.length];
    for (int c : roof) {
      rain[c] = 0.44;
    }
    double[] ground = water.roofs().spread(rain);
    for (int col = 14; col <= 25; col++) {
      assertEquals(1, ground[9 * 40 + col], 1e-12);
      assertEquals(1, ground[20 * 40 + col], 1e-12);
    }
    assertEquals(44, Arrays.stream(ground).sum(), 1e-9);
  }

  /**
   * Two downspouts, one drawn within the wall: half of the roof's 100 m2 at each, none elsewhere.
   */
  @Test
  void roofsDrainToTheirDownspouts() {
    ElevationGrid plane = Grids.surface(40, 30, 1, (x, y) -> 10 - 0.02 * x);
    Building house =
        Grids.house(15, 10, 25, 20)
            .withDownspouts(List.of(new Coordinate(26, 9.7), new Coordinate(14.9, 19.9)));
    SurfaceWater water = Grids.water(plane, 0.05, List.of(house), List.of(), Optional.empty());
    assertTrue(
        water.assumptions().stream()
            .anyMatch(a -> a.value().contains("the roofs of 1 drain in equal shares")));
    double[] rain = new double[40 * 30];
    Arrays.fill(rain, 1);
    double[] ground = water.roofs().spread(rain);
    for (int row = 0; row < 30; row++) {
      for (int col = 0; col < 40; col++) {
        boolean roof = col >= 15 && col < 25 && row >= 10 && row < 20;
        boolean spout = (row == 20 && col == 25) || (row == 10 && col == 14);
        assertEquals(roof ? 0 : spout ? 51 : 1, ground[row * 40 + col], 1e-12);
      }
    }
  }

  @Test
  void aCulvertCarriesWaterThroughABankAndSaysWhichCellsItLowered() {
    // a valley falling east, and a drive 1 m high across it
    ElevationGrid ground =
        Grids.surface(
            60,
            31,
            1,
            (x, y) -> 10 - 0.02 * x + 0.05 * Math.abs(y - 15.5) + (x > 30 && x < 35 ? 1 : 0));
    SurfaceWater dammed = Grids.water(ground, 0.05, List.of(), List.of(), Optional.empty());
    assertEquals(1, dammed.lowSpots().size());
    SurfaceWater open =
        Grids.water(
            ground,
            0.05,
            List.of(),
            List.of(Grids.culvert(29.5, 15.5, 35.5, 15.5)),
            Optional.empty());
    assertTrue(open.lowSpots().isEmpty(), () -> open.lowSpots().toString());
    assertEquals(5, open.altered().size());
    for (AlteredCell cell : open.altered()) {
      assertEquals(ground.z()[cell.cell()], cell.beforeM());
      assertEquals(open.ground().z()[cell.cell()], cell.afterM());
      assertTrue(cell.afterM() < cell.beforeM() - 0.9);
      assertEquals("K1", cell.by());
    }
    assertTrue(open.flowPaths().get(0).line().getLength() > 50);
    for (int c = 0; c < ground.z().length; c++) {
      int cell = c;
      assertEquals(
          open.altered().stream().anyMatch(a -> a.cell() == cell),
          open.ground().z()[c] != ground.z()[c]);
    }
  }

  @Test
  void anAbsurdCutIsNotMade() {
    ElevationGrid ridge = Grids.surface(60, 31, 1, (x, y) -> 10 - 0.2 * Math.abs(x - 30) * 3);
    SurfaceWater water =
        Grids.water(
            ridge,
            0.05,
            List.of(),
            List.of(Grids.culvert(5.5, 15.5, 55.5, 15.5)),
            Optional.empty());
    assertTrue(water.altered().isEmpty());
    assertTrue(water.warnings().stream().anyMatch(w -> w.contains("not cut")));
    assertArrayEquals(ridge.z(), water.ground().z());
  }

  @Test
  void turningLiftingAndStretchingTheGroundChangesResultsOnlyAsItMust() {
    Random random = new Random(9);
    for (int i = 0; i < 100; i++) {
      ElevationGrid ground = Grids.random(random, 8, 11, 0, 0.02);
      SurfaceWater water = Grids.water(ground);
      ElevationGrid turned = Grids.turned(ground);
      // Whose turn it is hangs on the cells' places: catchments may differ by a few of them.
      checkSame(water, Grids.water(turned), 1, 12);
      assertArrayEquals(
          Grids.turned(new ElevationGrid(ground.frame(), water.filled())).z(),
          Grids.water(turned).filled());
      float[] doubled = ground.z().clone();
      float[] lifted = ground.z().clone();
      for (int c = 0; c < doubled.length; c++) {
        doubled[c] *= 2;
        lifted[c] = (float) (Math.rint(lifted[c] * 4096) / 4096) + 64;
      }
      SurfaceWater twice = Grids.water(new ElevationGrid(ground.frame(), doubled));
      checkSame(water, twice, 2, 0);
      assertArrayEquals(water.flow().toward(), twice.flow().toward());
      assertArrayEquals(
          water.flow().toward(),
          Grids.water(new ElevationGrid(ground.frame(), lifted)).flow().toward());
    }
  }

  private static void checkSame(
      SurfaceWater a, SurfaceWater b, double scale, double areaToleranceM2) {
    assertEquals(a.lowSpots().size(), b.lowSpots().size());
    for (int i = 0; i < a.lowSpots().size(); i++) {
      assertEquals(a.lowSpots().get(i).volumeM3() * scale, b.lowSpots().get(i).volumeM3(), 1e-9);
      assertEquals(a.lowSpots().get(i).depthM() * scale, b.lowSpots().get(i).depthM(), 1e-9);
      assertEquals(
          a.lowSpots().get(i).contributingM2(),
          b.lowSpots().get(i).contributingM2(),
          areaToleranceM2);
    }
  }

  /**
   * Four cells of 1 m in ground of 2 m: at 1 m nothing is wet yet, though a cell has that height.
   */
  @Test
  void aCellAsHighAsTheLevelIsNotUnderWater() {
    SurfaceWater water = Grids.water(Grids.rows("2 2 2 2", "2 1 1 2", "2 1 1 2", "2 2 2 2"));
    LowSpot spot = water.lowSpots().get(0);
    assertEquals(1, spot.stages().get(0).levelM(), 0);
    assertEquals(0, spot.stages().get(0).areaM2(), 0);
    assertEquals(4, spot.stages().get(1).areaM2(), 0);
    assertEquals(4, spot.areaM2(), 0);
    assertEquals(4, spot.volumeM3(), 1e-12);
  }

  @Test
  void catchmentsOfLowSpotsDoNotOverlapAndTheLotsComesFirst() {
    ElevationGrid ground =
        Grids.surface(80, 60, 1, (x, y) -> Math.sin(x / 6) + Math.cos(y / 7) + 0.01 * x);
    SurfaceWater water =
        Grids.water(ground, 0.05, List.of(), List.of(), Optional.of(Grids.box(20, 20, 50, 40)));
    assertEquals("lot", water.catchments().get(0).of());
    double sum = 0;
    for (Catchment c : water.catchments().subList(1, water.catchments().size())) {
      assertTrue(c.outline().isValid());
      assertEquals(c.areaM2(), c.outline().getArea(), 1e-9);
      sum += c.areaM2();
      LowSpot spot =
          water.lowSpots().stream().filter(s -> s.id().equals(c.of())).findFirst().orElseThrow();
      assertEquals(c.areaM2(), spot.contributingM2(), 1e-9);
      assertTrue(c.outline().covers(spot.outline()));
    }
    assertTrue(sum > 0 && sum <= 80 * 60);
  }
}
