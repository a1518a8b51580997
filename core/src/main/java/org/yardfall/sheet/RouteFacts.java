package org.yardfall.sheet;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.yardfall.drain.DrainDesign;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;
import org.yardfall.site.UnitSystem;

/** What routes are compared by when they stand side by side. */
final class RouteFacts {

  private RouteFacts() {}

  /** The facts of a route by name, in the same order for every route. */
  static Map<String, String> of(Result result, Route route, UnitSystem units) {
    Optional<DrainDesign> design = result.design(route);
    Map<String, String> facts = new LinkedHashMap<>();
    facts.put("Kind", PageRoutes.words(route.kind()));
    facts.put("Outlet", route.outletId());
    facts.put("Length", units.length(route.lengthM()));
    facts.put("Fall", units.elevation(route.fallM()));
    facts.put("Least grade", UnitSystem.grade(route.minGrade()));
    facts.put("Greatest grade", UnitSystem.grade(route.maxGrade()));
    facts.put("Grade breaks", String.valueOf(route.gradeBreaks()));
    facts.put("Least cover", Stationing.depth(route.minCoverM(), units));
    facts.put("Greatest depth", Stationing.depth(route.maxDepthM(), units));
    facts.put("Dug", design.map(d -> units.volume(d.takeOff().dugM3())).orElse("–"));
    facts.put("Pipe at the outlet", design.map(PageRoutes::lastPipe).orElse("–"));
    facts.put("Peak at the outlet", design.map(d -> units.flow(d.outletM3S())).orElse("–"));
    facts.put("Price", design.map(PageRoutes::price).orElse("–"));
    facts.put(
        "Checks",
        (route.audit().passed() ? "all " : "NOT all ") + route.audit().checks().size() + " passed");
    return facts;
  }
}
