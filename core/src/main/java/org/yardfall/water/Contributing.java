package org.yardfall.water;

import java.util.Arrays;

/**
 * The ground that drains to each depression, up to the next one above that holds its water. Small
 * hollows, doubtful ones, and ones that a little runoff fills are taken as full: water runs through
 * them.
 */
final class Contributing {

  /** Runoff from all its ground that a low spot must be able to keep, in metres. */
  static final double KEPT_M = 0.01;

  private final DepressionHierarchy depressions;

  /** By node: area that drains to it in m². */
  final double[] areaM2;

  /**
   * By root: itself where it holds its water, else the first such that its spill reaches, else 0.
   */
  final int[] heldBy;

  private final boolean[] holds;

  /**
   * Adds up the areas.
   *
   * @param listing which depressions are real
   * @param measures what they hold
   * @param ownM2 area by cell in m², the roofs' moved to where their water comes down
   */
  Contributing(
      DepressionHierarchy depressions,
      LowSpotListing listing,
      DepressionMeasures measures,
      double[] ownM2) {
    this.depressions = depressions;
    int first = depressions.firstNode();
    areaM2 = new double[depressions.nodes()];
    heldBy = new int[depressions.nodes()];
    holds = new boolean[depressions.nodes()];
    for (int c = 0; c < ownM2.length; c++) {
      areaM2[depressions.pitOf(c)] += ownM2[c];
    }
    double[] ofRoot = new double[depressions.nodes()];
    for (int n = first; n < areaM2.length; n++) {
      ofRoot[depressions.root(n)] += areaM2[n];
    }
    int[] roots = depressions.roots();
    for (int i = roots.length - 1; i >= 0; i--) {
      int root = roots[i];
      int into = depressions.spillsInto(root);
      holds[root] = listing.isReal(root) && measures.volumeM3[root] >= KEPT_M * ofRoot[root];
      if (!holds[root] && into >= first) {
        areaM2[into] += ofRoot[root];
        ofRoot[depressions.root(into)] += ofRoot[root];
      }
    }
    for (int root : roots) {
      int into = depressions.spillsInto(root);
      heldBy[root] = holds[root] ? root : into < first ? 0 : heldBy[depressions.root(into)];
    }
    for (int n = first; n < areaM2.length; n++) {
      if (!depressions.isPit(n)) {
        areaM2[n] = areaM2[depressions.left(n)] + areaM2[depressions.right(n)];
      }
    }
  }

  /** Whether a root holds its water. */
  boolean holds(int root) {
    return holds[root];
  }

  /** The pit to which a cell drains, as {@link DepressionHierarchy#pitOf}. */
  int pitOf(int cell) {
    return depressions.pitOf(cell);
  }

  /**
   * By pit: the place among some roots of the one that holds its water, −1 if none of them does.
   */
  int[] numberByPit(int[] roots) {
    int[] number = new int[depressions.nodes()];
    Arrays.fill(number, -1);
    for (int i = 0; i < roots.length; i++) {
      number[roots[i]] = i;
    }
    int[] byPit = new int[depressions.nodes()];
    Arrays.fill(byPit, -1);
    for (int pit = depressions.firstNode(); pit < byPit.length && depressions.isPit(pit); pit++) {
      int holder = heldBy[depressions.root(pit)];
      byPit[pit] = holder == 0 ? -1 : number[holder];
    }
    return byPit;
  }
}
