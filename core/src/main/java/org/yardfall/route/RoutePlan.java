package org.yardfall.route;

import java.util.List;
import java.util.Optional;
import org.yardfall.site.Assumption;
import org.yardfall.site.Outlet;

/**
 * The routes proposed for a lot, the ones rejected, and the gravity reach they rest on.
 *
 * @param routes proposed routes by rank; empty where nothing works
 * @param rejected what was looked at and does not work, with reasons
 * @param reach the gravity reach; empty where the lot has no outlet at all
 * @param assumptions what was assumed
 * @param warnings what was odd, in words
 * @param found daylight outlets found on the lot's own slope, which routes may name
 */
public record RoutePlan(
    List<Route> routes,
    List<Rejection> rejected,
    Optional<GravityReach> reach,
    List<Assumption> assumptions,
    List<String> warnings,
    List<Outlet> found) {

  /** Keeps the lists to itself. */
  public RoutePlan {
    routes = List.copyOf(routes);
    rejected = List.copyOf(rejected);
    assumptions = List.copyOf(assumptions);
    warnings = List.copyOf(warnings);
    found = List.copyOf(found);
  }

  /** The lines that the user drew and that do not work. */
  public List<Rejection> rejectedAsDrawn() {
    return rejected.stream().filter(each -> each.kind() == DrainKind.PINNED).toList();
  }

  /** A plan without daylight outlets found. */
  public RoutePlan(
      List<Route> routes,
      List<Rejection> rejected,
      Optional<GravityReach> reach,
      List<Assumption> assumptions,
      List<String> warnings) {
    this(routes, rejected, reach, assumptions, warnings, List.of());
  }
}
