package org.yardfall.elevation;

import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.yardfall.site.WorkingCrs;

/**
 * Finds shots recorded in feet among shots in metres, or the other way round: where sizes fall into
 * two close groups and one is the other's times 3.28, they are the same places in two units. It
 * cannot be seen where the numbers are small beside the survey's own extent.
 */
final class UnitMix {

  private static final double FEET_IN_A_METRE = 1 / WorkingCrs.INTERNATIONAL_FOOT_M;

  /** How far the ratio of the groups may be from that of the units. */
  private static final double RATIO_OFF = 0.05;

  /** How far a group may spread about its middle, as a share of it. */
  private static final double SPREAD = 0.2;

  private UnitMix() {}

  /**
   * The shots of the smaller group in their order; none where there is one group only.
   *
   * @param size a shot's distance from the origin, or its elevation
   */
  static List<Shot> find(List<Shot> shots, ToDoubleFunction<Shot> size) {
    List<Shot> sorted = shots.stream().sorted(Comparator.comparingDouble(size)).toList();
    int split = 0;
    double widest = 0;
    for (int i = 1; i < sorted.size(); i++) {
      double before = size.applyAsDouble(sorted.get(i - 1));
      double ratio = before > 0 ? size.applyAsDouble(sorted.get(i)) / before : 0;
      if (ratio > widest) {
        widest = ratio;
        split = i;
      }
    }
    if (split == 0) {
      return List.of();
    }
    List<Shot> low = sorted.subList(0, split);
    List<Shot> high = sorted.subList(split, sorted.size());
    double ratio = middle(high, size) / middle(low, size);
    boolean mixed =
        Math.abs(ratio / FEET_IN_A_METRE - 1) < RATIO_OFF && close(low, size) && close(high, size);
    if (!mixed) {
      return List.of();
    }
    Set<Shot> fewer = new HashSet<>(low.size() < high.size() ? low : high);
    return shots.stream().filter(fewer::contains).toList();
  }

  private static double middle(List<Shot> sorted, ToDoubleFunction<Shot> size) {
    return size.applyAsDouble(sorted.get(sorted.size() / 2));
  }

  private static boolean close(List<Shot> sorted, ToDoubleFunction<Shot> size) {
    double first = size.applyAsDouble(sorted.get(0));
    double last = size.applyAsDouble(sorted.get(sorted.size() - 1));
    return last - first < SPREAD * middle(sorted, size);
  }
}
