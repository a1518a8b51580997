package org.yardfall.water;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.water.StandingWater.Pond;

/**
 * Describes the water that stands in the listed low spots. Where a low spot holds several sheets of
 * water that have not merged, they make one pond whose level is that of the largest.
 */
final class PondFinder {

  private final SurfaceWater water;
  private final ElevationGrid ground;
  private final DepressionHierarchy depressions;
  private final WetCells wet;
  private final DepressionMeasures measures;
  private final double[] held;
  private final double[] room;
  private final double[] inflow;
  private final double[] overflow;
  private final int[] listed;

  /** Depressions of the surface water, which differ where inlets are open. */
  private final DepressionMeasures listedMeasures;

  private final Ascent listedAscent;

  /**
   * Prepares.
   *
   * @param wet the cells under water when these depressions are full
   * @param measures of the depressions in which the water stands
   * @param direct runoff by pit in m³
   * @param held water by depression, above its children, in m³
   * @param room how much of that it can hold in m³
   */
  PondFinder(
      SurfaceWater water,
      DepressionHierarchy depressions,
      WetCells wet,
      DepressionMeasures measures,
      double[] direct,
      double[] held,
      double[] room) {
    this.water = water;
    this.ground = water.ground();
    this.depressions = depressions;
    this.wet = wet;
    this.measures = measures;
    this.held = held;
    this.room = room;
    inflow = direct.clone();
    overflow = new double[held.length];
    listed = nearestListed(water);
    listedMeasures =
        depressions == water.depressions()
            ? measures
            : new DepressionMeasures(
                water.depressions(),
                ground.z(),
                WetCells.of(water.depressions(), ground.z(), water.filled()));
    listedAscent = new Ascent(water.depressions());
  }

  private static int[] nearestListed(SurfaceWater water) {
    DepressionHierarchy all = water.depressions();
    int[] nearest = new int[all.nodes()];
    for (int node : water.lowSpotNodes()) {
      nearest[node] = node;
    }
    for (int n = nearest.length - 1; n >= all.firstNode(); n--) {
      nearest[n] = nearest[n] == n ? n : nearest[all.parent(n)];
    }
    return nearest;
  }

  List<Pond> find() {
    double[] total = totals();
    passOn(total);
    Map<Integer, List<Integer>> sheets = new TreeMap<>();
    int[] nearest = new int[held.length];
    boolean[] covered = new boolean[held.length];
    for (int n = held.length - 1; n >= depressions.firstNode(); n--) {
      int parent = depressions.parent(n);
      covered[n] = parent != 0 && (covered[parent] || isSheet(parent, total));
      nearest[n] = nearest[parent];
      if (!covered[n] && isSheet(n, total) && listed[sameListed(n)] != 0) {
        nearest[n] = n;
        sheets.computeIfAbsent(listed[sameListed(n)], k -> new ArrayList<>()).add(n);
      }
    }
    NodeCells cells = new NodeCells(depressions, measures, nearest, wet);
    List<Pond> ponds = new ArrayList<>();
    for (int i = 0; i < water.lowSpotNodes().length; i++) {
      List<Integer> nodes = sheets.get(water.lowSpotNodes()[i]);
      if (nodes != null) {
        ponds.add(pond(i, nodes, cells, total));
      }
    }
    return ponds;
  }

  /** The depression of the surface water that is the same as one of these. */
  private int sameListed(int node) {
    if (depressions == water.depressions()) {
      return node;
    }
    DepressionHierarchy all = water.depressions();
    float level = depressions.spillM(node);
    int same = listedAscent.over(all.pitOf(depressions.bottomCell(node)), Math.nextDown(level));
    // Of several that merge and spill at one level, the one that is as large.
    for (int up = all.parent(same);
        up != 0 && all.spillM(up) == level && listedMeasures.cells[up] <= measures.cells[node];
        up = all.parent(same)) {
      same = up;
    }
    return same;
  }

  private double[] totals() {
    double[] total = held.clone();
    for (int n = depressions.firstNode(); n < total.length; n++) {
      if (!depressions.isPit(n)) {
        total[n] += total[depressions.left(n)] + total[depressions.right(n)];
        inflow[n] += inflow[depressions.left(n)] + inflow[depressions.right(n)];
      }
    }
    return total;
  }

  /** What each depression passes on: from outer to inner ones, roots against their order. */
  private void passOn(double[] total) {
    int[] roots = depressions.roots();
    for (int i = roots.length - 1; i >= 0; i--) {
      spill(roots[i], inflow[roots[i]] - total[roots[i]], 0);
      spillWithin(roots[i], total);
    }
  }

  private void spillWithin(int root, double[] total) {
    int[] stack = new int[64];
    stack[0] = root;
    for (int top = 1; top > 0; ) {
      int n = stack[--top];
      if (depressions.isPit(n) || isSheet(n, total)) {
        continue;
      }
      int left = depressions.left(n);
      int right = depressions.right(n);
      if (isFull(left, total) != isFull(right, total)) {
        int from = isFull(left, total) ? left : right;
        spill(from, inflow[from] - total[from], n);
      }
      if (top + 2 > stack.length) {
        stack = Arrays.copyOf(stack, top * 2);
      }
      stack[top++] = left;
      stack[top++] = right;
    }
  }

  /** Whether all water in a depression has merged. */
  private boolean isSheet(int node, double[] total) {
    return held[node] > 0 || (total[node] > 0 && isFull(node, total));
  }

  private boolean isFull(int node, double[] total) {
    return held[node] >= room[node] && total[node] >= measures.volumeM3[node] * (1 - 1e-12);
  }

  private void spill(int node, double amount, int within) {
    if (amount <= 1e-12 * inflow[node]) {
      return;
    }
    overflow[node] = amount;
    int into = depressions.spillsInto(node);
    if (into >= depressions.firstNode()) {
      for (int n = into; n != within && n != 0; n = depressions.parent(n)) {
        inflow[n] += amount;
      }
    }
  }

  private Pond pond(int index, List<Integer> nodes, NodeCells cells, double[] total) {
    int lowSpotNode = water.lowSpotNodes()[index];
    LowSpot lowSpot = water.lowSpots().get(index);
    int[] wet = new int[0];
    int largest = nodes.get(0);
    double largestLevelM = Double.NaN;
    double depthM = 0;
    double volumeM3 = 0;
    double overflowM3 = 0;
    String overflowTo = "";
    for (int n : nodes) {
      int[] bed = cells.of(n);
      double levelM =
          isFull(n, total) ? depressions.spillM(n) : PondTable.of(ground, bed).levelM(total[n]);
      int[] sheet = Arrays.stream(bed).filter(c -> ground.z()[c] < levelM).toArray();
      int[] joined = Arrays.copyOf(wet, wet.length + sheet.length);
      System.arraycopy(sheet, 0, joined, wet.length, sheet.length);
      wet = joined;
      if (Double.isNaN(largestLevelM) || total[n] > total[largest]) {
        largest = n;
        largestLevelM = levelM;
      }
      depthM = Math.max(depthM, levelM - ground.z()[depressions.bottomCell(n)]);
      volumeM3 += total[n];
      if (sameListed(n) == lowSpotNode && depressions.spillM(n) == (float) lowSpot.spillM()) {
        overflowM3 += overflow[n];
        overflowTo = overflow[n] > 0 ? receiver(n) : "";
      }
    }
    Geometry outline = CellOutline.thinned(ground.frame(), wet);
    return new Pond(
        lowSpot.id(),
        outline,
        largestLevelM,
        depthM,
        wet.length * ground.frame().cellAreaM2(),
        volumeM3,
        overflowM3,
        overflowTo);
  }

  private String receiver(int node) {
    int pit = depressions.spillsInto(node);
    while (pit >= depressions.firstNode()) {
      int at = listed[sameListed(pit)];
      if (at != 0) {
        for (int i = 0; i < water.lowSpotNodes().length; i++) {
          if (water.lowSpotNodes()[i] == at) {
            return water.lowSpots().get(i).id();
          }
        }
      }
      pit = depressions.spillsInto(depressions.root(pit));
    }
    return "";
  }
}
