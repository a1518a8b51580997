package org.yardfall.route;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import org.yardfall.site.Outlet;

/**
 * The drains proposed for a site, with what takes longer to tell for the asking: the alternatives
 * to the cheapest, and what would mend that which does not work.
 */
public final class Proposal {

  private final List<Route> cheapest;
  private final List<Outlet> found;
  private final Optional<RouteGround> ground;
  private final Supplier<List<Route>> whole;
  private final Function<List<Route>, RoutePlan> plan;
  private List<Route> routes;

  /**
   * A proposal.
   *
   * @param whole finds the alternatives and ranks all; asked once
   * @param plan makes the plan of the ranked routes
   */
  Proposal(
      List<Route> cheapest,
      List<Outlet> found,
      Optional<RouteGround> ground,
      Supplier<List<Route>> whole,
      Function<List<Route>, RoutePlan> plan) {
    this.cheapest = List.copyOf(cheapest);
    this.found = List.copyOf(found);
    this.ground = ground;
    this.whole = whole;
    this.plan = plan;
  }

  /** The proposal where there is nothing to propose for. */
  static Proposal none(RoutePlan none) {
    return new Proposal(List.of(), List.of(), Optional.empty(), List::of, routes -> none);
  }

  /** The drains found by price alone, best first; no more of them than there are routes. */
  public List<Route> cheapest() {
    return cheapest;
  }

  /** The routes, best first, the shallowest and the least disturbing among them. */
  public synchronized List<Route> routes() {
    if (routes == null) {
      routes = List.copyOf(whole.get());
    }
    return routes;
  }

  /** The plan that the routes belong to. */
  public RoutePlan plan() {
    return plan.apply(routes());
  }

  /** Daylight outlets found on the lot's own slope, which routes may name. */
  public List<Outlet> found() {
    return found;
  }

  /** The ground searched, for the same site with another pipe; empty without a lot. */
  public Optional<RouteGround> ground() {
    return ground;
  }
}
