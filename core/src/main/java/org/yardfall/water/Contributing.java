package org.yardfall.water;

/**
 * The ground that drains to each depression, up to the next real low spot above it: smaller hollows
 * and doubtful ones on the way are taken as full, a real one keeps its water until it spills.
 */
final class Contributing {

  private final DepressionHierarchy depressions;

  /** By node: area that drains to it in m². */
  final double[] areaM2;

  /** By root: itself where it is real, else the real root that its spill reaches first, else 0. */
  final int[] realBelow;

  /**
   * Adds up the areas.
   *
   * @param listing which depressions are real
   * @param ownM2 area by cell in m², the roofs' moved to where their water comes down
   */
  Contributing(DepressionHierarchy depressions, LowSpotListing listing, double[] ownM2) {
    this.depressions = depressions;
    int first = depressions.firstNode();
    areaM2 = new double[depressions.nodes()];
    realBelow = new int[depressions.nodes()];
    for (int c = 0; c < ownM2.length; c++) {
      areaM2[depressions.pitOf(c)] += ownM2[c];
    }
    double[] ofRoot = new double[depressions.nodes()];
    for (int n = first; n < areaM2.length; n++) {
      ofRoot[depressions.root(n)] += areaM2[n];
    }
    int[] roots = depressions.roots();
    for (int i = roots.length - 1; i >= 0; i--) {
      int into = depressions.spillsInto(roots[i]);
      if (!listing.isReal(roots[i]) && into >= first) {
        areaM2[into] += ofRoot[roots[i]];
        ofRoot[depressions.root(into)] += ofRoot[roots[i]];
      }
    }
    for (int root : roots) {
      int into = depressions.spillsInto(root);
      realBelow[root] =
          listing.isReal(root) ? root : into < first ? 0 : realBelow[depressions.root(into)];
    }
    for (int n = first; n < areaM2.length; n++) {
      if (!depressions.isPit(n)) {
        areaM2[n] = areaM2[depressions.left(n)] + areaM2[depressions.right(n)];
      }
    }
  }

  /** The real root that a cell drains to, or 0. */
  int of(int cell) {
    int pit = depressions.pitOf(cell);
    return pit < depressions.firstNode() ? 0 : realBelow[depressions.root(pit)];
  }
}
