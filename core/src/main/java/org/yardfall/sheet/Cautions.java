package org.yardfall.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.yardfall.drain.Caution;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;
import org.yardfall.site.UnitSystem;

/**
 * What the builders must be told, the usual word of caution first; what holds at several places is
 * said once, after all of them.
 */
final class Cautions {

  private Cautions() {}

  /** The cautions of the given routes. */
  static List<String> of(Result result, List<Route> routes, UnitSystem units) {
    Wording wording = new Wording(result, units);
    Map<String, List<String>> places = new LinkedHashMap<>();
    places.put(PlanNotes.SAFETY, List.of());
    if (routes.isEmpty()) {
      places.put(PlanNotes.LOCATE, List.of());
    }
    for (Route route : routes) {
      route.cautions().forEach(words -> places.putIfAbsent(wording.of(words), new ArrayList<>()));
      result
          .design(route)
          .ifPresent(
              design -> {
                for (Caution caution : design.cautions()) {
                  List<String> at =
                      places.computeIfAbsent(
                          wording.of(caution.briefly()), words -> new ArrayList<>());
                  if (!Double.isNaN(caution.stationM())) {
                    at.add(route.id() + " " + caution.place(units));
                  }
                }
              });
    }
    return places.entrySet().stream()
        .map(
            said ->
                said.getValue().isEmpty()
                    ? said.getKey()
                    : String.join("; ", said.getValue()) + ": " + said.getKey())
        .toList();
  }
}
