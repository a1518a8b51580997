package org.yardfall.sheet;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.yardfall.drain.Caution;
import org.yardfall.drain.DrainDesign;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;
import org.yardfall.site.UnitSystem;

/** What the builders must be told, the usual word of caution first, each said once. */
final class Cautions {

  private Cautions() {}

  /** The cautions of the given routes. */
  static List<String> of(Result result, List<Route> routes, UnitSystem units) {
    Wording wording = new Wording(result, units);
    Set<String> all = new LinkedHashSet<>();
    all.add(PlanNotes.SAFETY);
    for (Route route : routes) {
      List<DrainDesign> designs =
          result.designs().stream().filter(d -> d.routeId().equals(route.id())).toList();
      designs.forEach(
          design -> design.cautions().forEach(c -> all.add(words(route, c, units, wording))));
      if (designs.isEmpty()) {
        all.addAll(wording.of(route.cautions()));
      }
    }
    return List.copyOf(all);
  }

  private static String words(Route route, Caution caution, UnitSystem units, Wording wording) {
    return (Double.isNaN(caution.stationM()) ? "" : route.id() + " ")
        + wording.of(caution.sentence(units));
  }
}
