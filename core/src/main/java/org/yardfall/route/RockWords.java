package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Site;

/** What rock near the ground does to a drain, and what is left where it leaves no room for one. */
final class RockWords {

  private static final String SWALE =
      "; where no pipe has fall above it, an open swale of 2 % or more leads the water without a"
          + " trench";

  private RockWords() {}

  /** A sentence for the rock under all of the site, and one for each area of it that counts. */
  static List<String> of(Site site) {
    List<String> all = new ArrayList<>();
    DrainLimits limits = site.drain();
    double rock = site.soil().rockDepthM().orElse(Double.POSITIVE_INFINITY);
    if (aboveM(rock, limits) <= limits.maxDepthM() + 1e-9) {
      all.add(String.format(Locale.ROOT, "rock %.2f m down ends every trench there", rock) + SWALE);
    }
    for (Obstacle area : site.obstacles()) {
      if (area.rockDepthM().isPresent()
          && aboveM(area.rockDepthM().getAsDouble(), limits) < limits.maxDepthM()) {
        all.add(sentence(area, limits) + SWALE);
      }
    }
    return all;
  }

  private static String sentence(Obstacle area, DrainLimits limits) {
    double depth = area.rockDepthM().orElseThrow();
    double above = aboveM(depth, limits);
    return above < limits.minCoverM() + limits.pipeOutsideM()
        ? String.format(
            Locale.ROOT,
            "rock %s, %.2f m down, leaves no room for a pipe of %.3f m on its bed under %.2f m of"
                + " cover: no trench is dug there",
            area.id(),
            depth,
            limits.pipeOutsideM(),
            limits.minCoverM())
        : String.format(
            Locale.ROOT,
            "rock %s, %.2f m down, ends every trench there: an invert lies %.2f m deep at most",
            area.id(),
            depth,
            above);
  }

  private static double aboveM(double rockDepthM, DrainLimits limits) {
    return DrainLimits.aboveRockM(rockDepthM, limits.pipeOutsideM(), limits.pipeInsideM());
  }
}
