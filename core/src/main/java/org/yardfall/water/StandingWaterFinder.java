package org.yardfall.water;

import java.util.Arrays;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * Puts the runoff of a storm on the ground, lets it run to the pits, spill, merge and stand: the
 * fill–spill–merge of Barnes, Callaghan &amp; Wickert 2021 ("Computing water flow through complex
 * landscapes – Part 3", Earth Surface Dynamics 9) on the depression hierarchy.
 *
 * <p>Each depression keeps what it holds above its full children. Once full, it passes everything
 * on: over its spill while the depression beyond has room, then up to the depression in which both
 * merge. Where a full depression passes its water never changes back, so the way is shortened as it
 * is walked and pouring takes near constant time a pit.
 */
public final class StandingWaterFinder {

  /** How far from an inlet its grate's lowest cell is looked for, in metres. */
  private static final double INLET_REACH_M = 1;

  private final SurfaceWater water;
  private final ElevationGrid ground;
  private final DepressionHierarchy depressions;
  private final WetCells wet;
  private final DepressionMeasures measures;
  private final double[] direct;
  private final double[] held;
  private final double[] room;
  private final int[] next;

  private StandingWaterFinder(
      SurfaceWater water, DepressionHierarchy depressions, double[] runoffDepthM) {
    this.water = water;
    this.ground = water.ground();
    this.depressions = depressions;
    int nodes = depressions.nodes();
    float[] filled = depressions == water.depressions() ? water.filled() : depressions.filled();
    wet = WetCells.of(depressions, ground.z(), filled);
    measures = new DepressionMeasures(depressions, ground.z(), wet);
    direct = new double[nodes];
    held = new double[nodes];
    room = new double[nodes];
    next = new int[nodes];
    double cellAreaM2 = ground.frame().cellAreaM2();
    double[] onGround = water.roofs().spread(runoffDepthM);
    for (int c = 0; c < onGround.length; c++) {
      int pit = depressions.pitOf(c);
      if (pit != Basins.UNKNOWN) {
        direct[pit] += onGround[c] * cellAreaM2;
      }
    }
    for (int n = depressions.firstNode(); n < nodes; n++) {
      next[n] = n;
      room[n] = measures.volumeM3[n];
      if (!depressions.isPit(n)) {
        room[n] -= measures.volumeM3[depressions.left(n)] + measures.volumeM3[depressions.right(n)];
        room[n] = Math.max(0, room[n]);
      }
    }
  }

  /**
   * What stands after a storm while every inlet is blocked, or where there is none.
   *
   * @param water the surface water of the ground
   * @param runoffDepthMByCell rain that runs off, in metres by cell, 0 or more; what falls on roofs
   *     comes down at their downspouts or drip lines; ignored where the ground is not known
   * @param rainM3 rain on the ground that is counted in m³; what does not run off has soaked in
   * @throws IllegalArgumentException if a depth is negative or not a number, or if more runs off
   *     than has rained
   */
  public static StandingWater after(
      SurfaceWater water, double[] runoffDepthMByCell, double rainM3) {
    return after(water, runoffDepthMByCell, rainM3, List.of());
  }

  /**
   * What stands after a storm while some inlets are open; leave one out to see it blocked. An open
   * inlet takes all water that reaches the lowest cell within 1 m of it.
   *
   * @param openInlets places of the inlets in metres of the working plane; ones off the known
   *     ground are ignored
   */
  public static StandingWater after(
      SurfaceWater water, double[] runoffDepthMByCell, double rainM3, List<Coordinate> openInlets) {
    double runoffM3 = runoffM3(water, runoffDepthMByCell);
    if (runoffM3 > rainM3 * (1 + 1e-9)) {
      throw new IllegalArgumentException(
          "runoff of " + runoffM3 + " m3 from " + rainM3 + " m3 of rain");
    }
    int[] inlets = inletCells(water.ground(), openInlets);
    DepressionHierarchy depressions =
        inlets.length == 0 ? water.depressions() : DepressionHierarchy.of(water.ground(), inlets);
    return new StandingWaterFinder(water, depressions, runoffDepthMByCell)
        .find(rainM3, Math.max(0, rainM3 - runoffM3), centres(water.ground().frame(), inlets));
  }

  private static double runoffM3(SurfaceWater water, double[] depthM) {
    if (depthM.length != water.ground().z().length) {
      throw new IllegalArgumentException(
          depthM.length + " runoff depths for " + water.ground().frame());
    }
    double sum = 0;
    for (int c = 0; c < depthM.length; c++) {
      if (!Float.isNaN(water.ground().z()[c])) {
        if (!(depthM[c] >= 0)) {
          throw new IllegalArgumentException("runoff depth " + depthM[c] + " m in cell " + c);
        }
        sum += depthM[c];
      }
    }
    return sum * water.ground().frame().cellAreaM2();
  }

  private static int[] inletCells(ElevationGrid ground, List<Coordinate> inlets) {
    GridFrame frame = ground.frame();
    return inlets.stream()
        .mapToInt(at -> lowestNear(ground, at, (int) (INLET_REACH_M / frame.cellM())))
        .filter(c -> c >= 0)
        .sorted()
        .distinct()
        .toArray();
  }

  private static int lowestNear(ElevationGrid ground, Coordinate at, int reach) {
    GridFrame frame = ground.frame();
    int lowest = -1;
    for (int row = frame.row(at.y) - reach; row <= frame.row(at.y) + reach; row++) {
      for (int col = frame.col(at.x) - reach; col <= frame.col(at.x) + reach; col++) {
        if (frame.has(col, row)) {
          int c = row * frame.cols() + col;
          float z = ground.z()[c];
          if (!Float.isNaN(z) && (lowest < 0 || z < ground.z()[lowest])) {
            lowest = c;
          }
        }
      }
    }
    return lowest;
  }

  private static List<Coordinate> centres(GridFrame frame, int[] cells) {
    return Arrays.stream(cells).mapToObj(c -> frame.centre(c)).toList();
  }

  private StandingWater find(double rainM3, double infiltratedM3, List<Coordinate> inlets) {
    int first = depressions.firstNode();
    double[] out = new double[first];
    for (int pit = 0; pit < first; pit++) {
      out[pit] = direct[pit];
    }
    for (int pit = first; pit < depressions.nodes() && depressions.isPit(pit); pit++) {
      pour(pit, direct[pit], out);
    }
    double standing = 0;
    for (int n = first; n < held.length; n++) {
      standing += held[n];
    }
    double taken = 0;
    for (int inlet = Basins.FIRST; inlet < first; inlet++) {
      taken += out[inlet];
    }
    return new StandingWater(
        new PondFinder(water, depressions, wet, measures, direct, held, room).find(),
        rainM3,
        infiltratedM3,
        standing,
        out[Basins.OUTSIDE],
        taken,
        inlets);
  }

  private void pour(int pit, double amount, double[] out) {
    double left = amount;
    int n = pit;
    while (left > 0) {
      n = withRoom(n);
      if (n < depressions.firstNode()) {
        out[n] += left;
        return;
      }
      double takes = Math.min(left, room[n] - held[n]);
      if (takes == left) {
        held[n] += takes;
        if (held[n] >= room[n]) {
          close(n);
        }
        return;
      }
      left -= takes;
      held[n] = room[n];
      close(n);
    }
  }

  private void close(int n) {
    int parent = depressions.parent(n);
    if (parent == 0) {
      next[n] = depressions.spillsInto(n);
      return;
    }
    int other =
        depressions.left(parent) == n ? depressions.right(parent) : depressions.left(parent);
    next[n] = next[other] == other ? depressions.spillsInto(n) : parent;
  }

  /** The first depression with room down a full one's way, or a number below the first node. */
  private int withRoom(int node) {
    int n = node;
    while (n >= depressions.firstNode() && next[n] != n) {
      int beyond = next[n];
      if (beyond >= depressions.firstNode() && next[beyond] != beyond) {
        next[n] = next[beyond];
      }
      n = next[n];
    }
    return n;
  }
}
