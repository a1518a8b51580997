package org.yardfall;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.yardfall.drain.DrainCatchment;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.pipe.Pipe;
import org.yardfall.pipe.PipeTable;
import org.yardfall.route.DrainKind;
import org.yardfall.route.Route;
import org.yardfall.route.RouteFinder;
import org.yardfall.route.RouteGround;
import org.yardfall.route.RoutePlan;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.runoff.DrainEffectFinder;
import org.yardfall.runoff.InflowLedgerFinder;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;

/**
 * Routes planned with the pipe that their water needs. A pipe's size needs the flow, the flow needs
 * a route, and a route needs the pipe's outside diameter: so the plan is made with the smallest
 * pipe allowed, and again with the next as long as the best route's is too small for its water, or
 * would have to shrink on its way down.
 *
 * @param site the site, its limits with the pipe planned with
 * @param plan the plan
 * @param designs the plan's routes made buildable, in their order
 * @param designer what made them so
 */
record SizedPlan(Site site, RoutePlan plan, List<DrainDesign> designs, DrainDesigner designer) {

  private static final int MAX_ROUNDS = 4;

  /** Routes by one pipe, the best made buildable. */
  private record Round(
      Site site,
      RouteFinder.Proposal proposal,
      DrainDesigner designer,
      Optional<DrainDesign> best) {

    /** The pipe that the best route needs, where its own is too small. */
    Optional<Pipe> needed() {
      return Stream.concat(best.stream(), bestOfSurfaceWater().stream())
          .flatMap(design -> design.tooSmall().stream())
          .max(Comparator.comparingDouble(Pipe::nominalIn));
    }

    /** An interceptor comes first, yet the storm's water is the drain's that comes after it. */
    private Optional<DrainDesign> bestOfSurfaceWater() {
      boolean after =
          proposal.routes().stream()
              .findFirst()
              .map(first -> first.kind() == DrainKind.INTERCEPTOR)
              .orElse(false);
      return after
          ? proposal.routes().stream()
              .filter(route -> route.kind() != DrainKind.INTERCEPTOR)
              .findFirst()
              .map(designer::design)
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
      RoutePlan plan = proposal.plan().get();
      List<String> warnings = new ArrayList<>(plan.warnings());
      warnings.addAll(more);
      Stream<DrainDesign> others =
          proposal.routes().parallelStream().skip(1).map(route -> designer.design(route));
      List<DrainDesign> designs = Stream.concat(best.stream(), others).toList();
      return new SizedPlan(
          site,
          new RoutePlan(
              sized(plan.routes(), designs),
              plan.rejected(),
              plan.reach(),
              plan.assumptions(),
              warnings,
              plan.found()),
          designs,
          designer);
    }
  }

  static SizedPlan find(ShapedSite shaped, List<BoundaryFlow> flows, Storm storm) {
    Site site = shaped.site();
    Round found = plan(site, shaped, flows, storm, Optional.empty());
    List<String> warnings = new ArrayList<>();
    int rounds = 1;
    Optional<Pipe> next = found.needed();
    while (next.isPresent() && rounds < MAX_ROUNDS) {
      Site larger = site.withDrain(PipeTable.with(site.drain(), next.get()));
      Round again = plan(larger, shaped, flows, storm, found.proposal.ground());
      rounds++;
      if (again.proposal.routes().isEmpty()) {
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
      Storm storm,
      Optional<RouteGround> searched) {
    RouteFinder.Proposal proposal =
        RouteFinder.propose(
            site, shaped.terrain(), shaped.water(), flows, shaped.swales(), searched);
    Site whole = site.withOutlets(outlets(site, proposal.found()));
    DrainDesigner designer =
        shaped
            .levelled()
            .map(levelled -> DrainDesigner.of(whole, levelled, shaped.water(), storm))
            .orElseGet(() -> DrainDesigner.of(whole, shaped.terrain(), shaped.water(), storm));
    Optional<DrainDesign> best = proposal.routes().stream().findFirst().map(designer::design);
    return new Round(site, proposal, designer, best);
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
