package org.yardfall.water;

/**
 * How large each depression is, its children included: cells under water when it is full, and the
 * volume. All volumes are sums of depths, so nothing cancels. O(n).
 */
final class DepressionMeasures {

  private final DepressionHierarchy depressions;

  /** Cells under water by node when it is full. */
  final int[] cells;

  /** Volume by node when it is full, in m³. */
  final double[] volumeM3;

  DepressionMeasures(DepressionHierarchy depressions, float[] z, WetCells wet) {
    this.depressions = depressions;
    int nodes = depressions.nodes();
    cells = new int[nodes];
    volumeM3 = new double[nodes];
    for (int i = 0; i < wet.cell.length; i++) {
      int node = wet.node[i];
      cells[node]++;
      volumeM3[node] += (double) depressions.spillM(node) - z[wet.cell[i]];
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
}
