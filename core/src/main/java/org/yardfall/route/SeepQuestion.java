package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.yardfall.site.Seep;
import org.yardfall.site.Site;
import org.yardfall.water.CellsWithin;
import org.yardfall.water.SurfaceWater;

/**
 * Asks of each wet patch whether the surface explains it: whether enough ground sheds its water
 * there, or water stands there. Elevations show surface water alone; which it is cannot be told
 * from them, so it is asked, never guessed.
 */
final class SeepQuestion {

  /**
   * Ground in m² that makes a patch wet by what it sheds; as little as is worth a drain at the
   * property line.
   */
  static final double ENOUGH_M2 = PerimeterCollector.LEAST_INFLOW_M2;

  private SeepQuestion() {}

  /** The question of a lot for which no drain can be proposed; empty where groundwater is known. */
  static Optional<String> withoutDrain(Site site) {
    return site.soil().groundwaterKnown()
        ? Optional.empty()
        : Optional.of(
            "surface or groundwater? Nothing was given of the water table, and only surface water was"
                + " looked at: where the ground stays wet long after rain, have a test pit dug before"
                + " anything is decided");
  }

  /** A question for each of the site's wet patches. */
  static List<String> of(Site site, SurfaceWater water) {
    List<String> questions = new ArrayList<>();
    for (Seep seep : site.seeps()) {
      double most = 0;
      for (int cell : CellsWithin.of(water.flow().frame(), UphillSide.patch(seep))) {
        most = Math.max(most, water.areaM2()[cell]);
      }
      boolean stands =
          water.lowSpots().stream()
              .anyMatch(
                  spot -> spot.doubtful().isEmpty() && spot.outline().intersects(seep.shape()));
      questions.add(
          most < ENOUGH_M2 && !stands
              ? String.format(
                  Locale.ROOT,
                  "surface or groundwater? Wet patch %s gets the surface water of %.0f m2 at most and"
                      + " none stands there, so the surface does not explain it: see by a test pit"
                      + " whether it is groundwater, and rule out a leaking pipe",
                  seep.id(),
                  most)
              : String.format(
                  Locale.ROOT,
                  "surface or groundwater? Wet patch %s gets the surface water of %.0f m2%s, which may"
                      + " be all that makes it wet: if it dries within days of rain, an interceptor"
                      + " is not what it needs",
                  seep.id(),
                  most,
                  stands ? " and lies in a low spot" : ""));
    }
    return questions;
  }
}
