package org.yardfall.water;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.yardfall.elevation.ShotSupport;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.Assumption;

/**
 * Which of the many depressions of real ground are listed as low spots. One that no other holds is
 * listed where it is at least as deep as the elevations are accurate; where it is shallower but
 * wide, it is listed as doubtful. One within another is listed where both it and the one it merges
 * with are twice as deep, so that noise on the bed of a pond does not make ponds of its own: bottom
 * and sill are both off by the accuracy. Where the ground is made of shots, one is doubtful too
 * that may be open between them ({@link ShotSupport#openAt}).
 */
final class LowSpotListing {

  private static final int FEWEST_CELLS = 4;
  private static final double DOUBTFUL_AREA_M2 = 20;
  private static final double DOUBTFUL_SHARE = 1 / 3.0;
  private static final int MOST = 1000;

  private final DepressionHierarchy depressions;
  private final DepressionMeasures measures;
  private final float[] z;
  private final double accuracyM;
  private final double stepM;
  private final Optional<ShotSupport> support;

  /** By node: why it may not exist, empty where it does; null where it is not listed. */
  final String[] doubtful;

  /** The listed nodes, largest volume first. */
  final int[] nodes;

  /** Roots that are not listed. */
  private int unlisted;

  private double unlistedM3;

  LowSpotListing(
      DepressionHierarchy depressions, DepressionMeasures measures, float[] z, Terrain terrain) {
    this.depressions = depressions;
    this.measures = measures;
    this.z = z;
    this.accuracyM = terrain.accuracyM();
    this.stepM = terrain.stepM();
    this.support = terrain.support();
    doubtful = new String[depressions.nodes()];
    List<Integer> listed = new ArrayList<>();
    for (int n = depressions.firstNode(); n < doubtful.length; n++) {
      if (isListed(n)) {
        doubtful[n] = doubt(n);
        listed.add(n);
      } else if (depressions.parent(n) == 0) {
        unlisted++;
        unlistedM3 += measures.volumeM3[n];
      }
    }
    Comparator<Integer> largestFirst =
        Comparator.<Integer>comparingDouble(n -> -measures.volumeM3[n])
            .thenComparing(Comparator.reverseOrder());
    // Where there are too many, the ones within others go first, however large.
    listed.sort(
        Comparator.<Integer, Boolean>comparing(n -> depressions.parent(n) != 0)
            .thenComparing(largestFirst));
    for (int i = MOST; i < listed.size(); i++) {
      int n = listed.get(i);
      doubtful[n] = null;
      unlisted += depressions.parent(n) == 0 ? 1 : 0;
      unlistedM3 += depressions.parent(n) == 0 ? measures.volumeM3[n] : 0;
    }
    nodes = listed.stream().limit(MOST).sorted(largestFirst).mapToInt(n -> n).toArray();
  }

  /** Id of the low spot at a place of {@link #nodes}. */
  static String id(int place) {
    return "L" + (place + 1);
  }

  private boolean isListed(int node) {
    int parent = depressions.parent(node);
    if (parent == 0) {
      return isDeep(node, 1)
          || (measures.cells[node] >= FEWEST_CELLS
              && measures.cells[node] * depressions.frame().cellAreaM2() >= DOUBTFUL_AREA_M2
              && depthM(node) >= accuracyM * DOUBTFUL_SHARE);
    }
    int other =
        depressions.left(parent) == node ? depressions.right(parent) : depressions.left(parent);
    return isDeep(node, 2) && isDeep(other, 2);
  }

  private boolean isDeep(int node, int times) {
    return measures.cells[node] >= FEWEST_CELLS && depthM(node) >= times * accuracyM;
  }

  double depthM(int node) {
    return depressions.spillM(node) - bottomM(node);
  }

  private double bottomM(int node) {
    return z[depressions.bottomCell(node)];
  }

  private String doubt(int node) {
    double depthM = depthM(node);
    if (drawnByRounding(node)) {
      return "no deeper than the " + (float) stepM + " m step to which the elevations are rounded";
    }
    if (depthM < accuracyM) {
      return String.format(
          Locale.ROOT,
          "%.2f m deep, shallower than the elevations' accuracy of %.2f m",
          depthM,
          accuracyM);
    }
    OptionalDouble uneven =
        support
            .map(shots -> shots.openAt(depressions.spillCell(node), bottomM(node), depthM))
            .orElse(OptionalDouble.empty());
    if (uneven.isPresent()) {
      return String.format(
          Locale.ROOT,
          "%.2f m deep, but the shots at its sill stand %.2f m off the ground that their neighbours"
              + " give: it may be open between them",
          depthM,
          uneven.getAsDouble());
    }
    return "";
  }

  /** Whether rounding the elevations could have made a depression. */
  boolean drawnByRounding(int node) {
    return stepM > 0 && depthM(node) <= stepM * 1.001;
  }

  /** Whether a node is listed and not doubtful. */
  boolean isReal(int node) {
    return doubtful[node] != null && doubtful[node].isEmpty();
  }

  /** By node: itself where it is listed, else the nearest listed one that holds it, else 0. */
  int[] nearestListed() {
    int[] nearest = new int[doubtful.length];
    for (int n = nearest.length - 1; n >= depressions.firstNode(); n--) {
      nearest[n] = doubtful[n] != null ? n : nearest[depressions.parent(n)];
    }
    return nearest;
  }

  /** The rule of listing, and what was left out by it. */
  List<Assumption> assumptions() {
    List<Assumption> said = new ArrayList<>();
    said.add(
        new Assumption(
            "low spots",
            String.format(
                Locale.ROOT,
                "listed from %d cells and %.2f m of depth (the elevations' accuracy); doubtful"
                    + " ones from %.0f m2 and %.3f m; one within another from %.2f m; the %d largest"
                    + " at most, those within others last",
                FEWEST_CELLS,
                accuracyM,
                DOUBTFUL_AREA_M2,
                accuracyM * DOUBTFUL_SHARE,
                2 * accuracyM,
                MOST),
            "common practice, no source"));
    if (unlisted > 0) {
      said.add(
          new Assumption(
              "low spots not listed",
              String.format(
                  Locale.ROOT,
                  "%d smaller hollows holding %.2f m3 together; water stands in them too",
                  unlisted,
                  unlistedM3),
              "computed"));
    }
    return said;
  }
}
