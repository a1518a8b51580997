package org.yardfall.water;

/**
 * How large each depression is, its children included: cells under water when it is full, and the
 * volume. All volumes are sums of depths, so nothing cancels. O(n log d) for depressions nested d
 * deep.
 */
final class DepressionMeasures {

  private final DepressionHierarchy depressions;
  private final int[] depthInTree;
  private final int[] jump;

  /** Cells under water by node when it is full. */
  final int[] cells;

  /** Volume by node when it is full, in m³. */
  final double[] volumeM3;

  DepressionMeasures(DepressionHierarchy depressions, float[] z, float[] filled) {
    this.depressions = depressions;
    int nodes = depressions.nodes();
    depthInTree = new int[nodes];
    jump = new int[nodes];
    cells = new int[nodes];
    volumeM3 = new double[nodes];
    layJumps();
    for (int c = 0; c < z.length; c++) {
      if (filled[c] > z[c]) {
        int node = over(depressions.pitOf(c), z[c]);
        cells[node]++;
        volumeM3[node] += (double) depressions.spillM(node) - z[c];
      }
    }
    double cellAreaM2 = depressions.frame().cellAreaM2();
    for (int n = depressions.firstNode(); n < nodes; n++) {
      if (!depressions.isPit(n)) {
        addChild(n, depressions.left(n));
        addChild(n, depressions.right(n));
      }
    }
    for (int n = depressions.firstNode(); n < nodes; n++) {
      volumeM3[n] *= cellAreaM2;
    }
  }

  /** Cells under water in a full node that lie above its children's spill. */
  int ownCells(int node) {
    return depressions.isPit(node)
        ? cells[node]
        : cells[node] - cells[depressions.left(node)] - cells[depressions.right(node)];
  }

  private void addChild(int node, int child) {
    cells[node] += cells[child];
    volumeM3[node] +=
        volumeM3[child]
            + cells[child] * ((double) depressions.spillM(node) - depressions.spillM(child));
  }

  // Skew-binary jumps (Myers 1983): from any node to any ancestor in a logarithm of steps.
  private void layJumps() {
    for (int n = depressions.nodes() - 1; n >= depressions.firstNode(); n--) {
      int p = depressions.parent(n);
      if (p == 0) {
        jump[n] = n;
      } else {
        depthInTree[n] = depthInTree[p] + 1;
        int q = jump[p];
        jump[n] =
            depthInTree[p] - depthInTree[q] == depthInTree[q] - depthInTree[jump[q]] ? jump[q] : p;
      }
    }
  }

  /** The smallest depression holding a pit whose water, when it spills, stands above a height. */
  int over(int pit, float height) {
    int n = pit;
    while (depressions.spillM(n) <= height) {
      n = depressions.spillM(jump[n]) <= height ? jump[n] : depressions.parent(n);
    }
    return n;
  }
}
