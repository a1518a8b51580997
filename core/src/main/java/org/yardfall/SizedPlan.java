package org.yardfall;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.yardfall.drain.DrainCatchment;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.pipe.Pipe;
import org.yardfall.pipe.PipeTable;
import org.yardfall.route.DrainKind;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Proposal;
import org.yardfall.route.Route;
import org.yardfall.route.RouteFinder;
import org.yardfall.route.RouteGround;
import org.yardfall.route.RoutePlan;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.runoff.DrainEffectFinder;
import org.yardfall.runoff.InflowLedgerFinder;
import org.yardfall.runoff.Interception;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;

/**
 * Routes planned with the pipe that their water needs. A pipe's size needs the flow, the flow needs
 * a route, and a route needs the pipe's outside diameter: so the plan is made with the smallest
 * pipe allowed, and again with the next as long as the best route's is too small for its water, or
 * would have to shrink on its way down. Alternatives to the cheapest routes are only looked for
 * once the pipe of the cheapest will do.
 *
 * @param site the site, its limits with the pipe planned with
 * @param plan the plan
 * @param designs the plan's routes made buildable, in their order
 * @param designer what made them so
 */
record SizedPlan(Site site, RoutePlan plan, List<DrainDesign> designs, DrainDesigner designer) {

  private static final int MAX_ROUNDS = 4;

  /** Routes by one pipe; of them only those are made buildable that are asked for. */
  private static final class Round {

    private final Site site;
    private final Proposal proposal;
    private final DrainDesigner designer;
    private final Map<Drain, DrainDesign> designs = new ConcurrentHashMap<>();

    Round(Site site, Proposal proposal, DrainDesigner designer) {
      this.site = site;
      this.proposal = proposal;
      this.designer = designer;
    }

    /** What a design depends on: a route may be ranked anew, and the drain be the same. */
    private record Drain(
        String id, DrainKind kind, String outletId, DrainLine main, List<Route.Branch> branches) {

      static Drain of(Route route) {
        return new Drain(
            route.id(), route.kind(), route.outletId(), route.main(), route.branches());
      }
    }

    private DrainDesign design(Route route) {
      return designs.computeIfAbsent(Drain.of(route), drain -> designer.design(route));
    }

    /**
     * The pipe that the best route needs, where its own is too small. Where the cheapest needs a
     * larger one, the round is over and its alternatives are not looked for.
     */
    Optional<Pipe> needed() {
      return needed(proposal.cheapest()).or(() -> needed(proposal.routes()));
    }

    private Optional<Pipe> needed(List<Route> routes) {
      return Stream.concat(routes.stream().limit(1), bestOfSurfaceWater(routes).stream())
          .flatMap(route -> design(route).tooSmall().stream())
          .max(Comparator.comparingDouble(Pipe::nominalIn));
    }

    /** An interceptor comes first, yet the storm's water is the drain's that comes after it. */
    private static Optional<Route> bestOfSurfaceWater(List<Route> routes) {
      boolean after = !routes.isEmpty() && routes.get(0).kind() == DrainKind.INTERCEPTOR;
      return after
          ? routes.stream().filter(route -> route.kind() != DrainKind.INTERCEPTOR).findFirst()
          : Optional.empty();
    }

    /** The plan's routes, their bores with the pipes that the water asks for. */
    private static List<Route> sized(List<Route> planned, List<DrainDesign> designs) {
      List<Route> sized = new ArrayList<>();
      for (int i = 0; i < planned.size(); i++) {
        sized.add(planned.get(i).withBores(designs.get(i).bores(planned.get(i))));
      }
      return sized;
    }

    SizedPlan saying(List<String> more) {
      RoutePlan plan = proposal.plan();
      List<String> warnings = new ArrayList<>(plan.warnings());
      warnings.addAll(more);
      List<DrainDesign> all = plan.routes().parallelStream().map(this::design).toList();
      return new SizedPlan(
          site,
          new RoutePlan(
              sized(plan.routes(), all),
              plan.rejected(),
              plan.reach(),
              plan.assumptions(),
              warnings,
              plan.found()),
          all,
          designer);
    }
  }

  static SizedPlan find(
      ShapedSite shaped, List<BoundaryFlow> flows, Interception interception, Storm storm) {
    Site site = shaped.site();
    Round found = plan(site, shaped, flows, interception, storm, Optional.empty());
    List<String> warnings = new ArrayList<>();
    int rounds = 1;
    Optional<Pipe> next = found.needed();
    while (next.isPresent() && rounds < MAX_ROUNDS) {
      Site larger = site.withDrain(PipeTable.with(site.drain(), next.get()));
      Round again = plan(larger, shaped, flows, interception, storm, found.proposal.ground());
      rounds++;
      if (again.proposal.cheapest().isEmpty()) {
        return found.saying(
            List.of(
                "the proposed routes need a larger pipe than they were planned with, and no route has"
                    + " fall and cover for "
                    + next.get().words()
                    + ": their own findings say where"));
      }
      found = again;
      next = found.needed();
    }
    if (next.isPresent()) {
      warnings.add(
          "after "
              + rounds
              + " rounds the proposed route still needs a larger pipe than it was planned with: "
              + next.get().words());
    }
    if (rounds > 1) {
      warnings.add(
          "planned in "
              + rounds
              + " rounds: a smaller pipe than that of the result could not carry the storm, or would"
              + " have to shrink downstream");
    }
    return found.saying(warnings);
  }

  private static Round plan(
      Site site,
      ShapedSite shaped,
      List<BoundaryFlow> flows,
      Interception interception,
      Storm storm,
      Optional<RouteGround> searched) {
    Proposal proposal =
        RouteFinder.propose(
            site, shaped.terrain(), shaped.water(), flows, interception, shaped.swales(), searched);
    Site whole = site.withOutlets(outlets(site, proposal.found()));
    DrainDesigner designer =
        shaped
            .levelled()
            .map(levelled -> DrainDesigner.of(whole, levelled, shaped.water(), storm))
            .orElseGet(() -> DrainDesigner.of(whole, shaped.terrain(), shaped.water(), storm));
    return new Round(site, proposal, designer);
  }

  /**
   * What each proposed route changes across the property line, in their order.
   *
   * @param now the ledger of the ground as it is
   * @param shaped that of the ground as it will be
   */
  List<DrainEffect> effects(InflowLedgerFinder now, InflowLedgerFinder shaped) {
    if (designs.isEmpty()) {
      return List.of();
    }
    DrainEffectFinder finder = DrainEffectFinder.of(now, shaped);
    return plan.routes().parallelStream().map(route -> effect(finder, route)).toList();
  }

  private DrainEffect effect(DrainEffectFinder finder, Route route) {
    Outlet outlet =
        outlets(site, plan.found()).stream()
            .filter(o -> o.id().equals(route.outletId()))
            .findFirst()
            .orElseThrow();
    DrainDesign design = designs.get(plan.routes().indexOf(route));
    DrainCatchment takes =
        route.kind() == DrainKind.SWALE ? designer.takes(route) : design.catchment();
    return finder.find(takes.takes(), takes.keepsM3(), outlet);
  }

  private static List<Outlet> outlets(Site site, List<Outlet> found) {
    return Stream.concat(site.outlets().stream(), found.stream()).toList();
  }
}
