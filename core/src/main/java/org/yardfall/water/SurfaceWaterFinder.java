package org.yardfall.water;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CompletableFuture;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/** Finds what the surface water does: the whole water stage in one call. */
public final class SurfaceWaterFinder {

  private final Terrain terrain;
  private final Site site;
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();

  private SurfaceWaterFinder(Terrain terrain, Site site) {
    this.terrain = terrain;
    this.site = site;
  }

  /**
   * The surface water of some ground.
   *
   * @param terrain the ground
   * @param site its buildings stand in the flow and its openings are cut through; where there is a
   *     lot, its catchment comes first among the catchments
   * @throws BadInputException if no elevation is known at all
   */
  public static SurfaceWater find(Terrain terrain, Site site) {
    return new SurfaceWaterFinder(terrain, site).find();
  }

  private SurfaceWater find() {
    ShapedGround shaped = GroundShaper.shape(terrain.ground(), site);
    assumptions.addAll(shaped.assumptions());
    warnings.addAll(shaped.warnings());
    ElevationGrid ground = shaped.ground();
    int knownCells = countKnown(ground);

    assumeThinned(ground.frame());

    DepressionHierarchy depressions = DepressionHierarchy.of(ground);
    float[] filled = depressions.filled();
    // Flow and what depressions hold do not need each other, nor do paths and low spots: a core for
    // each.
    CompletableFuture<FlowField> routing =
        CompletableFuture.supplyAsync(
            () -> FlowRouter.of(ground, filled, depressions.basins().toward()));
    WetCells wet = WetCells.of(depressions, ground.z(), filled);
    DepressionMeasures measures = new DepressionMeasures(depressions, ground.z(), wet);
    LowSpotListing listing = new LowSpotListing(depressions, measures, ground.z(), terrain);
    assumptions.addAll(listing.assumptions());
    NodeCells nodeCells = new NodeCells(depressions, measures, listing.nearestListed(), wet);
    double[] areaM2 = ownArea(ground);
    shaped.roofs().move(areaM2);
    Contributing contributing = new Contributing(depressions, listing, measures, areaM2);
    CatchmentFinder catchmentFinder = new CatchmentFinder(ground);
    List<Catchment> ofLowSpots =
        catchmentFinder.ofLowSpots(contributing, listing, site.lot().isPresent() ? 2 : 1);
    FlowField flow = routing.join();
    BitSet edge = EdgeReach.of(flow);

    Accumulation.passDown(flow, areaM2); // in place: what was each cell's own is all its ground's
    for (int c : shaped.roofs().cells()) {
      areaM2[c] = Math.max(areaM2[c], ground.frame().cellAreaM2());
    }
    PondPaths ponds = new PondPaths(ground, depressions, contributing, nodeCells, filled);
    FlowPathFinder paths = new FlowPathFinder(flow, areaM2, knownCells, ponds);
    assumptions.add(paths.assumption());
    CompletableFuture<List<List<Integer>>> tracing = CompletableFuture.supplyAsync(paths::ways);
    BitSet undetermined = undetermined(ground, filled, flow, depressions, listing);
    warnUndetermined(undetermined.cardinality(), knownCells);
    List<LowSpot> lowSpots =
        new LowSpotFinder(ground, depressions, measures, listing, contributing, edge)
            .find(nodeCells);
    List<Catchment> catchments = new ArrayList<>();
    site.lot()
        .map(Parcel::outline)
        .ifPresent(lot -> catchments.add(ofLot(catchmentFinder, flow, lot)));
    catchments.addAll(ofLowSpots);
    List<FlowPath> flowPaths = paths.along(tracing.join(), edge, undetermined);

    return new SurfaceWater(
        ground,
        filled,
        flow,
        areaM2,
        edge,
        lowSpots,
        flowPaths,
        catchments,
        undetermined,
        shaped.roofs(),
        shaped.altered(),
        depressions,
        listing.nodes,
        assumptions,
        warnings);
  }

  private void assumeThinned(GridFrame frame) {
    int block = CellOutline.blockCells(frame);
    if (block > 1) {
      assumptions.add(
          new Assumption(
              "outlines",
              String.format(
                  Locale.ROOT,
                  "of low spots, catchments and standing water are drawn along blocks of %d by %d"
                      + " cells, as the ground is so large; their numbers are of each cell",
                  block,
                  block),
              "common practice, no source"));
    }
  }

  private int countKnown(ElevationGrid ground) {
    int known = 0;
    for (float z : ground.z()) {
      known += Float.isNaN(z) ? 0 : 1;
    }
    if (known == 0) {
      throw new BadInputException(
          "elevation",
          "no elevation is known in the area asked for",
          "check that the raster covers it");
    }
    warnHoles(ground);
    warnAllEdge(ground.frame());
    return known;
  }

  private void warnAllEdge(GridFrame frame) {
    if (frame.cols() < 3 || frame.rows() < 3) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "the ground is of %d by %d cells, each of them at its edge; no low spot can show",
              frame.cols(),
              frame.rows()));
    }
  }

  private void warnHoles(ElevationGrid ground) {
    int inside = UnknownGround.enclosed(ground);
    if (inside > 0) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%d cells (%.0f m2) within the ground have no elevation; water is taken to leave"
                  + " there",
              inside,
              inside * ground.frame().cellAreaM2()));
    }
  }

  private static double[] ownArea(ElevationGrid ground) {
    double[] own = new double[ground.z().length];
    double cellAreaM2 = ground.frame().cellAreaM2();
    for (int c = 0; c < own.length; c++) {
      own[c] = Float.isNaN(ground.z()[c]) ? 0 : cellAreaM2;
    }
    return own;
  }

  /** Level ground that is not under water, and hollows that rounding may have drawn. */
  private static BitSet undetermined(
      ElevationGrid ground,
      float[] filled,
      FlowField flow,
      DepressionHierarchy depressions,
      LowSpotListing listing) {
    float[] z = ground.z();
    BitSet level = new BitSet(z.length);
    for (int c = 0; c < z.length; c++) {
      if (filled[c] > z[c]) {
        if (listing.drawnByRounding(depressions.root(depressions.pitOf(c)))) {
          level.set(c);
        }
      } else {
        int next = flow.receiver(c);
        if (next >= 0 && z[next] == z[c]) {
          level.set(c);
        }
      }
    }
    return level;
  }

  private void warnUndetermined(int cells, int known) {
    if (cells * 20L > known) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "on %.0f %% of the ground the elevations are level or too coarsely rounded%s to tell"
                  + " which way water runs",
              100.0 * cells / known,
              terrain.stepM() > 0 ? " (steps of " + (float) terrain.stepM() + " m)" : ""));
    }
  }

  private Catchment ofLot(CatchmentFinder finder, FlowField flow, Polygon lot) {
    Catchment ofLot = finder.ofLot(flow, lot);
    CutOff.warning(ofLot, lot, flow.frame().envelope()).ifPresent(warnings::add);
    return ofLot;
  }
}
