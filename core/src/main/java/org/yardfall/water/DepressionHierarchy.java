package org.yardfall.water;

import java.util.Arrays;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * Which depressions merge into which as water rises (Barnes, Callaghan &amp; Wickert 2020,
 * "Computing water flow through complex landscapes – Part 2: Finding hierarchies in depressions",
 * Earth Surface Dynamics 8). Nodes are numbered: the pits of {@link Basins} by their label, then
 * the merged depressions, each after its two children. The passes between basins are taken from low
 * to high; a pass that joins two depressions makes their parent, one that joins a depression to the
 * outside ends it there. A depression that has ended is a root; the roots' order is that in which
 * they ended, so each spills outside or into an earlier one.
 *
 * <p>No cell enters a heap: O(n) over the cells and O(p log p) over the p passes.
 */
public final class DepressionHierarchy {

  private static final int NONE = 0;

  private final ElevationGrid ground;
  private final Basins basins;
  private final int[] parent;
  private final int[] left;
  private final int[] right;
  private final float[] spill;
  private final int[] bottomCell;
  private final int[] spillCell;
  private final int[] spillLabel;
  private final int[] root;
  private final int[] roots;
  private final int nodes;

  private DepressionHierarchy(ElevationGrid ground, Basins basins, Passes passes) {
    this.ground = ground;
    this.basins = basins;
    int firstPit = basins.firstPit();
    int pits = basins.pitCells().length;
    int most = firstPit + Math.max(0, 2 * pits - 1);
    parent = new int[most];
    left = new int[most];
    right = new int[most];
    spill = new float[most];
    bottomCell = new int[most];
    spillCell = new int[most];
    spillLabel = new int[most];
    root = new int[most];
    System.arraycopy(basins.pitCells(), 0, bottomCell, firstPit, pits);
    int[] ended = new int[pits];
    nodes = merge(passes, firstPit, ended);
    int rootCount = 0;
    while (rootCount < pits && ended[rootCount] != NONE) {
      rootCount++;
    }
    roots = Arrays.copyOf(ended, rootCount);
    for (int n = nodes - 1; n >= firstPit; n--) {
      root[n] = parent[n] == NONE ? n : root[parent[n]];
    }
  }

  /**
   * The depressions of some ground.
   *
   * @param ground elevations; NaN is ground not known, and water leaves where it begins
   */
  public static DepressionHierarchy of(ElevationGrid ground) {
    return of(ground, new int[0]);
  }

  /**
   * The depressions of some ground in which inlets take all water that reaches them.
   *
   * @param inletCells cells of the inlets, all different and known
   */
  public static DepressionHierarchy of(ElevationGrid ground, int[] inletCells) {
    Basins basins = Basins.of(ground, inletCells);
    return new DepressionHierarchy(ground, basins, Passes.of(ground, basins));
  }

  private int merge(Passes passes, int firstPit, int[] ended) {
    int[] group = new int[basins.labels()];
    int[] top = new int[basins.labels()];
    for (int i = 0; i < group.length; i++) {
      group[i] = i < firstPit ? Basins.OUTSIDE : i;
      top[i] = i;
    }
    float[] z = ground.z();
    int next = basins.labels();
    int endedCount = 0;
    for (int pass : passes.lowestFirst()) {
      int a = passes.smaller(pass);
      int b = passes.larger(pass);
      int groupA = find(group, a);
      int groupB = find(group, b);
      if (groupA == groupB) {
        continue;
      }
      float height = passes.elevation(pass);
      int over = higherCell(passes, pass);
      if (groupA == Basins.OUTSIDE) {
        ended[endedCount++] = end(top[groupB], height, over, a);
        group[groupB] = Basins.OUTSIDE;
      } else if (groupB == Basins.OUTSIDE) {
        ended[endedCount++] = end(top[groupA], height, over, b);
        group[groupA] = Basins.OUTSIDE;
      } else {
        int nodeA = end(top[groupA], height, over, b);
        int nodeB = end(top[groupB], height, over, a);
        left[next] = nodeA;
        right[next] = nodeB;
        parent[nodeA] = next;
        parent[nodeB] = next;
        bottomCell[next] =
            z[bottomCell[nodeB]] < z[bottomCell[nodeA]] ? bottomCell[nodeB] : bottomCell[nodeA];
        group[groupB] = groupA;
        top[groupA] = next++;
      }
    }
    return next;
  }

  private int end(int node, float height, int over, int into) {
    spill[node] = height;
    spillCell[node] = over;
    spillLabel[node] = into;
    return node;
  }

  private int higherCell(Passes passes, int pass) {
    int c = passes.cell(pass);
    byte k = passes.way(pass);
    if (k == Passes.OVER_THE_EDGE) {
      return c;
    }
    int n = c + Neighbours.offsets(ground.frame().cols())[k];
    return ground.z()[n] > ground.z()[c] ? n : c;
  }

  private static int find(int[] group, int i) {
    int at = i;
    while (group[at] != at) {
      group[at] = group[group[at]];
      at = group[at];
    }
    return at;
  }

  /** The grid. */
  public GridFrame frame() {
    return ground.frame();
  }

  /** One more than the number of the last node. */
  public int nodes() {
    return nodes;
  }

  /** The number of the first node; pits come first. */
  public int firstNode() {
    return basins.firstPit();
  }

  /** Whether a node is a pit, holding no other. */
  public boolean isPit(int node) {
    return node < basins.labels();
  }

  /** The depression that a node merges into, or 0 for a root. */
  public int parent(int node) {
    return parent[node];
  }

  /** The first of the two depressions that merge into a node, or 0 for a pit. */
  public int left(int node) {
    return left[node];
  }

  /** The second of the two depressions that merge into a node, or 0 for a pit. */
  public int right(int node) {
    return right[node];
  }

  /** The depression, merged with no other, that holds a node. */
  public int root(int node) {
    return root[node];
  }

  /** The roots, each spilling outside or into an earlier one. */
  public int[] roots() {
    return roots.clone();
  }

  /** Elevation in metres at which a node spills. */
  public float spillM(int node) {
    return spill[node];
  }

  /** The higher of the two cells of the pass over which a node spills. */
  public int spillCell(int node) {
    return spillCell[node];
  }

  /**
   * The pit that receives a node's spill, or a number below {@link #firstNode()} where it leaves or
   * is taken by an inlet.
   */
  public int spillsInto(int node) {
    return spillLabel[node];
  }

  /** A node's lowest cell, the first of several. */
  public int bottomCell(int node) {
    return bottomCell[node];
  }

  /**
   * The pit to which a cell drains down the slope, or a number below {@link #firstNode()} where its
   * water leaves, is taken by an inlet or is not known.
   */
  public int pitOf(int cell) {
    return basins.label()[cell];
  }

  Basins basins() {
    return basins;
  }

  /** Elevation in metres to which water rises before it leaves, by cell; NaN where unknown. */
  float[] filled() {
    int firstPit = basins.firstPit();
    float[] level = new float[basins.labels()];
    Arrays.fill(level, 0, firstPit, Float.NEGATIVE_INFINITY);
    for (int pit = firstPit; pit < level.length; pit++) {
      level[pit] = spill[root[pit]];
    }
    float[] z = ground.z();
    int[] label = basins.label();
    float[] filled = new float[z.length];
    int cols = frame().cols();
    Stripes.run(
        cols,
        frame().rows(),
        (stripe, from, to) -> {
          for (int c = from * cols; c < to * cols; c++) {
            filled[c] = Math.max(z[c], level[label[c]]);
          }
        });
    return filled;
  }
}
