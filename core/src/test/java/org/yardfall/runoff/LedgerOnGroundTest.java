package org.yardfall.runoff;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Point;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.Site;
import org.yardfall.water.CellsWithin;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;
import org.yardfall.water.StandingWaterFinder;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;

/** The ledger on invented ground, through the whole surface-water stage. */
class LedgerOnGroundTest {

  private static final int N = 60;

  /** A slope to the south with hollows and mounds of some metres across. */
  private static Terrain bumpy(long seed, double heightM) {
    Random random = new Random(seed);
    double[][] bumps = new double[30][];
    for (int i = 0; i < bumps.length; i++) {
      bumps[i] =
          new double[] {
            N * random.nextDouble(),
            N * random.nextDouble(),
            2 + 5 * random.nextDouble(),
            heightM * (random.nextDouble() - 0.5)
          };
    }
    GridFrame frame = new GridFrame(N, N, 0, N, 1);
    float[] z = new float[frame.size()];
    for (int c = 0; c < z.length; c++) {
      double x = frame.x(c % N);
      double y = frame.y(c / N);
      double sum = 0.02 * y;
      for (double[] b : bumps) {
        sum += b[3] * Math.exp(-(Math.pow(x - b[0], 2) + Math.pow(y - b[1], 2)) / (b[2] * b[2]));
      }
      z[c] = (float) sum;
    }
    return new Terrain(
        new ElevationGrid(frame, z), List.of(), 0.0001, true, 0, "", List.of(), List.of());
  }

  private static Site site(String lot) {
    return Yard.slope(N, N, 1, 0.02)
        .lot("7", lot)
        .parcel("a", "POLYGON ((0 0, 60 0, 60 30, 0 30, 0 0))")
        .parcel("b", "POLYGON ((0 30, 60 30, 60 60, 0 60, 0 30))")
        .building("POLYGON ((24.3 26.2, 35.1 26.2, 35.1 33.9, 24.3 33.9, 24.3 26.2))")
        .site();
  }

  private static final String MIDDLE =
      "POLYGON ((18.2 17.1, 43.7 19.4, 40.3 44.8, 16.9 41.2, 18.2 17.1))";

  private static StandingWater standing(Site site, SurfaceWater water, Storm storm) {
    double[] depth = SurfaceCover.of(site, water).runoffDepthM(storm.depthM());
    return StandingWaterFinder.after(water, depth, N * N * storm.depthM());
  }

  /**
   * Oracle: each cell's water followed for itself, step by step. What gets further onto the lot
   * than two cells comes onto it; of what does not, how much does is left open here.
   */
  @Property(tries = 15, seed = "20261125")
  void everyDropFollowedByItselfGivesTheSameInflow(
      @ForAll @LongRange(min = 0, max = 100_000) long seed) {
    Terrain terrain = bumpy(seed, 1);
    Site site = site(MIDDLE);
    SurfaceWater water = SurfaceWaterFinder.find(terrain, site);
    Storm storm = InflowLedgerFinderTest.storm(0.08);
    double[] depth = SurfaceCover.of(site, water).runoffDepthM(storm.depthM());
    Geometry line = site.lot().orElseThrow().outline().getBoundary();
    boolean[] lot = new boolean[N * N];
    boolean[] clear = new boolean[N * N];
    for (int c : CellsWithin.of(terrain.ground().frame(), site.lot().orElseThrow().outline())) {
      lot[c] = true;
      clear[c] = line.distance(point(terrain.ground().frame(), c)) >= 2;
    }
    double in = 0;
    double perhaps = 0;
    double own = 0;
    for (int c = 0; c < lot.length; c++) {
      boolean gets = false;
      boolean touches = false;
      for (int at = c; at >= 0; at = water.flow().receiver(at)) {
        gets |= clear[at];
        touches |= lot[at];
      }
      if (lot[c]) {
        own += depth[c];
      } else if (gets) {
        in += depth[c];
      } else if (touches) {
        perhaps += depth[c];
      }
    }
    InflowLedger.Balance balance = InflowLedgerFinder.find(site, terrain, water, storm).balance();
    double tiny = 1e-9 * (in + own);
    assertTrue(balance.inflowM3() >= in - tiny, balance + " for " + in);
    assertTrue(balance.inflowM3() <= in + perhaps + tiny, balance + " for " + in + " " + perhaps);
    // every path ends at the grid's edge, beyond the lot
    assertEquals(balance.inflowM3() + own, balance.outflowM3(), tiny);
    assertEquals(0, balance.errorM3(), tiny);
  }

  private static Point point(GridFrame frame, int cell) {
    return new GeometryFactory()
        .createPoint(new Coordinate(frame.x(cell % frame.cols()), frame.y(cell / frame.cols())));
  }

  /**
   * With the lot over all the ground, what stands and leaves must be what fill-spill-merge says.
   */
  @Property(tries = 15, seed = "20261125")
  void overAllTheGroundTheLedgerAgreesWithTheStandingWater(
      @ForAll @LongRange(min = 0, max = 100_000) long seed) {
    Terrain terrain = bumpy(seed, 1.5);
    Site site = site("POLYGON ((0 0, 60 0, 60 60, 0 60, 0 0))");
    SurfaceWater water = SurfaceWaterFinder.find(terrain, site);
    Storm storm = InflowLedgerFinderTest.storm(0.08);
    StandingWater standing = standing(site, water, storm);
    InflowLedger.Balance b =
        InflowLedgerFinder.of(site, terrain, water, storm, Optional.of(standing)).find().balance();
    assertEquals(0, b.errorM3(), 1e-9 * b.ownRainM3());
    assertEquals(standing.infiltratedM3(), b.infiltratedM3(), 1e-6 * b.ownRainM3());
    double ponds = standing.ponds().stream().mapToDouble(StandingWater.Pond::volumeM3).sum();
    assertTrue(ponds > 1, "there is something to hold");
    // hollows too small to be listed hold the rest
    assertEquals(ponds, b.standingM3(), 0.02 * ponds);
    assertEquals(standing.leftM3(), b.outflowM3(), standing.standingM3() - ponds + 0.02 * ponds);
  }

  /** What open inlets take, and what then leaves, must be what fill-spill-merge says. */
  @Property(tries = 10, seed = "20261125")
  void whatOpenInletsTakeIsWhatTheStandingWaterSays(
      @ForAll @LongRange(min = 0, max = 100_000) long seed) {
    Terrain terrain = bumpy(seed, 1.5);
    Site site = site("POLYGON ((0 0, 60 0, 60 60, 0 60, 0 0))");
    SurfaceWater water = SurfaceWaterFinder.find(terrain, site);
    Storm storm = InflowLedgerFinderTest.storm(0.08);
    double[] depth = SurfaceCover.of(site, water).runoffDepthM(storm.depthM());
    List<Coordinate> inlets =
        water.lowSpots().stream()
            .filter(spot -> spot.parentId().isEmpty())
            .limit(3)
            .map(LowSpot::deepest)
            .toList();
    StandingWater standing =
        StandingWaterFinder.after(water, depth, N * N * storm.depthM(), inlets);
    InflowLedger.Balance b =
        InflowLedgerFinder.of(site, terrain, water, storm, Optional.of(standing)).find().balance();
    double all = b.ownRainM3() - b.infiltratedM3();
    assertEquals(0, b.errorM3(), 1e-9 * b.ownRainM3());
    assertTrue(b.inletM3() > 0.01 * all, "the inlets take something");
    assertEquals(standing.inletM3(), b.inletM3(), 0.02 * all);
    assertEquals(standing.leftM3(), b.outflowM3(), 0.02 * all);
  }

  @Property(tries = 10, seed = "20261125")
  void lowSpotsNeverAddToWhatArrives(@ForAll @LongRange(min = 0, max = 100_000) long seed) {
    Terrain terrain = bumpy(seed, 1.5);
    Site site = site(MIDDLE);
    SurfaceWater water = SurfaceWaterFinder.find(terrain, site);
    Storm storm = InflowLedgerFinderTest.storm(0.08);
    InflowLedger full = InflowLedgerFinder.find(site, terrain, water, storm);
    InflowLedger held =
        InflowLedgerFinder.of(
                site, terrain, water, storm, Optional.of(standing(site, water, storm)))
            .find();
    assertEquals(0, held.balance().errorM3(), 1e-9 * held.balance().ownRainM3());
    assertTrue(held.balance().inflowM3() <= full.balance().inflowM3() * (1 + 1e-12));
    assertTrue(held.balance().outflowM3() <= full.balance().outflowM3() * (1 + 1e-12));
  }

  @Test
  void theSameInputGivesTheSameLedger() {
    List<String> runs = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      Terrain terrain = bumpy(5, 1);
      Site site = site(MIDDLE);
      SurfaceWater water = SurfaceWaterFinder.find(terrain, site);
      runs.add(
          InflowLedgerFinder.find(site, terrain, water, InflowLedgerFinderTest.storm(0.08))
              .all()
              .toString());
    }
    assertEquals(runs.get(0), runs.get(1));
  }
}
