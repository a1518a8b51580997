package org.yardfall.site;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The layer of obstacles that a plan writes holds what four sections of a site file gave. Read
 * back, it is given under each of them, and each takes its own.
 */
final class WrittenObstacles {

  /** By the kind that the layer writes, the section that it came from; all others: obstacles. */
  private static final Map<String, String> SECTIONS =
      new TreeMap<>(Map.of("building", "buildings", "slab", "crossings", "seep", "seeps"));

  /** How much a point or line was widened; 0 for others, but never left out. */
  private static final String WIDENED = "drawn-m";

  private WrittenObstacles() {}

  /**
   * Whether a feature is of that layer, which a field of its own gives away, and there of another
   * section than the given one.
   */
  static boolean isOfAnother(VectorFeature feature, String section) {
    if (feature.keyed(WIDENED).isEmpty() || feature.keyed("kind").isEmpty()) {
      return false;
    }
    String kind = feature.keyed("kind").get();
    return !SECTIONS.getOrDefault(kind, "obstacles").equals(section);
  }

  /** Warns of what is given under obstacles and would count only under a section not given. */
  static void warn(VectorLayer layer, Map<String, LayerSource> given, List<String> warnings) {
    SECTIONS.forEach(
        (kind, section) -> {
          long left =
              layer.features().stream()
                  .filter(f -> isOfAnother(f, "obstacles"))
                  .filter(f -> f.keyed("kind").orElse("").equals(kind))
                  .count();
          if (left > 0 && !given.containsKey(section)) {
            warnings.add(
                layer.name()
                    + ": features of kind "
                    + kind
                    + " are left out; give the file under "
                    + section
                    + " too");
          }
        });
  }
}
