package org.yardfall.drain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.drain.DrainCatchment.Served;
import org.yardfall.drain.DrainCatchment.Share;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.CurveNumber;
import org.yardfall.site.Outlet;
import org.yardfall.site.Surface;
import org.yardfall.water.FlowField;
import org.yardfall.water.LowSpot;
import org.yardfall.water.MadeUpLowSpot;

class DrainCatchmentTest {

  private static DrainCatchment find(Yard yard, Route route) {
    return DrainCatchmentFinder.of(yard.site(), yard.terrain(), yard.water(), yard.storm())
        .find(route);
  }

  /**
   * The drain at y 19 takes the 20 m of the neighbour's and, by its reach, the row on each side.
   */
  @Test
  void aDrainAlongTheLineTakesAllThatComesDownTheSlope() {
    Yard yard = new Yard();
    DrainCatchment catchment = find(yard, yard.route());
    // y 19 lies between the centres 18.5 and 19.5, both within reach.
    assertEquals(60 * 22, catchment.areaM2(), 1e-9);
    assertEquals(60 * 20, catchment.beyondM2(), 1e-9);
    double depth = CurveNumber.runoffDepthM(yard.rainM, CurveNumber.of(Surface.Kind.LAWN, 'D'));
    assertEquals(60 * 22 * depth, catchment.volumeM3(), 1e-6);
    assertEquals(12, catchment.shares().size());
    assertEquals(110, catchment.shares().get(3).areaM2(), 1e-9);
  }

  @Test
  void theSharesAddUpToTheCatchment() {
    Yard yard = new Yard();
    DrainCatchment catchment = find(yard, yard.route());
    assertEquals(
        catchment.areaM2(), catchment.shares().stream().mapToDouble(Share::areaM2).sum(), 1e-9);
    assertEquals(
        catchment.volumeM3(), catchment.shares().stream().mapToDouble(Share::volumeM3).sum(), 1e-9);
    assertEquals(catchment.cells().cardinality(), (int) catchment.areaM2());
  }

  @Test
  void solidPipeTakesNothing() {
    Yard yard = new Yard();
    DrainCatchment catchment = find(yard, Yard.route(yard.line(19, 0.5, Station.Span.SOLID)));
    assertEquals(0, catchment.areaM2(), 0);
    assertTrue(catchment.cells().isEmpty());
  }

  @Test
  void theLowerOfTwoLinesTakesOnlyWhatTheUpperLeaves() {
    Yard yard = new Yard();
    Route route =
        Yard.route(
            yard.line(9, 1.0, Station.Span.OPEN),
            new Route.Branch(yard.line(19, 0.5, Station.Span.OPEN), 60));
    DrainCatchment catchment = find(yard, route);
    double upper = area(catchment, 1);
    double lower = area(catchment, 0);
    assertEquals(60 * 22, upper, 1e-9);
    assertEquals(60 * 10, lower, 1e-9);
  }

  private static double area(DrainCatchment catchment, int line) {
    return catchment.shares().stream()
        .filter(s -> s.line() == line)
        .mapToDouble(Share::areaM2)
        .sum();
  }

  /** Against following every cell down by itself, on random flow fields that have no loops. */
  @Test
  void everyCellIsTakenWhereItsOwnPathFirstMeetsTheDrain() {
    Random random = new Random(7);
    for (int run = 0; run < 20; run++) {
      Yard yard = new Yard();
      for (int i = 0; i < yard.toward.length; i++) {
        int col = i % Yard.FRAME.cols();
        boolean leaves = i / Yard.FRAME.cols() == Yard.FRAME.rows() - 1;
        int k =
            col == 0
                ? 6 + random.nextInt(2)
                : col == 59 ? 5 + random.nextInt(2) : 5 + random.nextInt(3);
        yard.toward[i] = leaves ? FlowField.LEAVES : (byte) k;
      }
      DrainCatchment catchment = find(yard, yard.route());
      FlowField flow = new FlowField(Yard.FRAME, yard.toward);
      for (int cell = 0; cell < yard.toward.length; cell++) {
        int at = cell;
        while (at >= 0 && !catchment.takes().get(at)) {
          at = flow.receiver(at);
        }
        assertEquals(at >= 0, catchment.cells().get(cell));
      }
    }
  }

  /**
   * A bowl 4 m across on the drain's way, 0.2 m deep, of which the drain crosses the upper half.
   */
  @Test
  void aLowSpotOnTheWayIsServedWhole() {
    Yard yard = new Yard();
    yard.lowSpots.add(bowl());
    DrainCatchment catchment = find(yard, yard.route());
    assertEquals(1, catchment.served().size());
    Served served = catchment.served().get(0);
    assertEquals("L1", served.id());
    assertEquals(1.0, served.volumeM3(), 1e-12);
    // The drain's ground there is 100.475; a share of the way from bottom to spill lies below it.
    assertEquals(0.5, served.belowM3(), 0.02);
    // The rows of the bowl south of the drain's own reach are taken too.
    assertEquals(60 * 22 + 4 * 2, catchment.areaM2(), 1e-9);
    assertFalse(catchment.takes().get(Yard.FRAME.index(10.5, 16.5)));
    // Its two rows below the drain are shared by the two stretches in it.
    assertEquals(110 + 4, catchment.shares().get(5).areaM2(), 1e-9);
    assertEquals(110 + 4, catchment.shares().get(6).areaM2(), 1e-9);
  }

  /** A catch basin takes the water of the low spot it stands in ({@code common practice}). */
  @Test
  void aLowSpotWithACatchBasinDrainsIntoThat() {
    Yard yard = new Yard();
    yard.lowSpots.add(bowl());
    yard.outletKind = Outlet.Kind.CATCH_BASIN;
    assertEquals(1, find(yard, yard.route()).served().size());
    yard.outletAt = new Coordinate(30, 17);
    DrainCatchment catchment = find(yard, yard.route());
    assertEquals(List.of(), catchment.served());
    // The bowl's own 16 cells stay out, but for the two rows that the drain itself lies on.
    assertEquals(60 * 22, catchment.areaM2(), 1e-9);
    assertFalse(catchment.takes().get(Yard.FRAME.index(29.5, 17.5)));
  }

  @Test
  void aSharedLowSpotSaysHowMuchOfItIsTheNeighbours() {
    Yard yard = new Yard();
    yard.lowSpots.add(bowl());
    Served served = find(yard, yard.route()).served().get(0);
    assertEquals(0, served.beyondShare(), 1e-12);
    assertEquals(4 * 2, served.catchmentM2(), 1e-9);
    yard.lot = Yard.box(0, 0, 60, 19);
    assertEquals(0.25, find(yard, yard.route()).served().get(0).beyondShare(), 1e-12);
  }

  /** Every path downhill from the upper line meets the lower one straight below. */
  @Test
  void whatRunsOverTheUpperLineComesToTheLower() {
    Yard yard = new Yard();
    Route route =
        Yard.route(
            yard.line(9, 1.0, Station.Span.OPEN),
            new Route.Branch(yard.line(19, 0.5, Station.Span.OPEN), 60));
    for (Share share : find(yard, route).shares()) {
      assertEquals(
          share.line() == 0 ? List.of() : List.of(new DrainCatchment.Place(0, share.stretch())),
          share.over());
    }
  }

  /** Stretches in one low spot have one way on, from where it spills. */
  @Test
  void stretchesInOneLowSpotGoOnTogether() {
    Yard yard = new Yard();
    yard.lowSpots.add(bowl());
    Route route =
        Yard.route(
            yard.line(9, 1.0, Station.Span.OPEN),
            new Route.Branch(yard.line(19, 0.5, Station.Span.OPEN), 60));
    List<List<DrainCatchment.Place>> over =
        find(yard, route).shares().stream()
            .filter(s -> s.line() == 1 && (s.stretch() == 5 || s.stretch() == 6))
            .map(Share::over)
            .toList();
    assertEquals(2, over.size());
    assertEquals(over.get(0), over.get(1));
    assertEquals(1, over.get(0).size());
  }

  private static LowSpot bowl() {
    return MadeUpLowSpot.of(
        "L1",
        Yard.box(28, 16, 32, 20),
        new Coordinate(30, 18),
        100.375,
        100.575,
        new Coordinate(30, 16),
        16,
        1.0,
        200,
        new LowSpot.Stage(100.375, 0, 0),
        new LowSpot.Stage(100.575, 16, 1.0));
  }
}
