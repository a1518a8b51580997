package org.yardfall;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.elevation.Terrain;
import org.yardfall.pipe.Pipe;
import org.yardfall.pipe.PipeTable;
import org.yardfall.route.Route;
import org.yardfall.route.RouteFinder;
import org.yardfall.route.RoutePlan;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.runoff.DrainEffectFinder;
import org.yardfall.runoff.InflowLedgerFinder;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;
import org.yardfall.water.SurfaceWater;

/**
 * Routes planned with the pipe that their water needs. A pipe's size needs the flow, the flow needs
 * a route, and a route needs the pipe's outside diameter: so the plan is made with the smallest
 * pipe allowed, and again with the next as long as the best route's is too small for its water.
 *
 * @param site the site, its limits with the pipe planned with
 * @param plan the plan
 * @param designs the plan's routes made buildable, in their order
 */
record SizedPlan(Site site, RoutePlan plan, List<DrainDesign> designs) {

  private static final int MAX_ROUNDS = 4;

  static SizedPlan find(
      Site site, Terrain terrain, SurfaceWater water, List<BoundaryFlow> flows, Storm storm) {
    SizedPlan found = plan(site, terrain, water, flows, storm);
    int rounds = 1;
    Optional<Pipe> next = found.needed();
    while (next.isPresent() && rounds < MAX_ROUNDS) {
      Site larger = site.withDrain(PipeTable.with(site.drain(), next.get()));
      SizedPlan again = plan(larger, terrain, water, flows, storm);
      rounds++;
      if (again.plan.routes().isEmpty()) {
        return found.saying(
            "the pipe of the proposed routes is too small for the design storm, and no route has"
                + " fall and cover for "
                + next.get().words());
      }
      found = again;
      next = found.needed();
    }
    if (next.isPresent()) {
      found =
          found.saying(
              "after "
                  + rounds
                  + " rounds the pipe is still too small for the design storm; "
                  + next.get().words()
                  + " would be needed");
    }
    return rounds == 1
        ? found
        : found.saying(
            "planned in "
                + rounds
                + " rounds: a smaller pipe than that of the result could not carry the storm");
  }

  private static SizedPlan plan(
      Site site, Terrain terrain, SurfaceWater water, List<BoundaryFlow> flows, Storm storm) {
    RoutePlan plan = RouteFinder.plan(site, terrain, water, flows);
    DrainDesigner designer =
        DrainDesigner.of(site.withOutlets(outlets(site, plan)), terrain, water, storm);
    List<DrainDesign> designs = new ArrayList<>();
    for (Route route : plan.routes()) {
      designs.add(designer.design(route));
    }
    return new SizedPlan(site, plan, designs);
  }

  /** What each proposed route changes across the property line, in their order. */
  List<DrainEffect> effects(InflowLedgerFinder ledger) {
    if (designs.isEmpty()) {
      return List.of();
    }
    DrainEffectFinder finder = DrainEffectFinder.of(ledger);
    List<DrainEffect> effects = new ArrayList<>();
    for (DrainDesign design : designs) {
      Outlet outlet =
          outlets(site, plan).stream()
              .filter(o -> o.id().equals(design.outletId()))
              .findFirst()
              .orElseThrow();
      effects.add(finder.find(design.catchment().takes(), design.catchment().keepsM3(), outlet));
    }
    return effects;
  }

  private static List<Outlet> outlets(Site site, RoutePlan plan) {
    return Stream.concat(site.outlets().stream(), plan.found().stream()).toList();
  }

  /** The pipe that the best route needs, where its own is too small. */
  private Optional<Pipe> needed() {
    return designs.isEmpty() ? Optional.empty() : designs.get(0).tooSmall();
  }

  private SizedPlan saying(String warning) {
    List<String> warnings = new ArrayList<>(plan.warnings());
    warnings.add(warning);
    return new SizedPlan(
        site,
        new RoutePlan(
            plan.routes(),
            plan.rejected(),
            plan.reach(),
            plan.assumptions(),
            warnings,
            plan.found()),
        designs);
  }
}
