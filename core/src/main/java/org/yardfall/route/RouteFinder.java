package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.Terrain;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.InflowLedgerFinder;
import org.yardfall.runoff.Interception;
import org.yardfall.runoff.Storm;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Outlet;
import org.yardfall.site.OutletRules;
import org.yardfall.site.Site;
import org.yardfall.trench.MetrePrice;
import org.yardfall.water.LevelledGround.Swale;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;

/**
 * Plans the drains of a lot: what to collect, where to let it go, the line between, and which of
 * the answers is best. Every drain proposed has passed the independent audit; every kind of drain
 * and every outlet that is not proposed is rejected with its reason.
 */
public final class RouteFinder {

  private final Site site;
  private final ElevationGrid ground;
  private final SurfaceWater water;
  private final OutletRules rules;
  private final RouteSettings settings;
  private final OutletInspector inspector;
  private final List<LowSpot> lowSpots;
  private final MetrePrice metrePrice;
  private final LotCollectors collectors;

  private RouteFinder(
      Site site,
      ElevationGrid ground,
      SurfaceWater water,
      RouteSettings settings,
      OutletRules rules,
      List<Swale> swales) {
    this.site = site;
    this.ground = ground;
    this.water = water;
    this.settings = settings;
    this.rules = rules;
    this.inspector = new OutletInspector(site, ground, water, rules);
    this.metrePrice = MetrePrice.of(site);
    this.lowSpots = LowSpotCollector.worthDraining(site, water);
    this.collectors = new LotCollectors(site, ground, water, lowSpots, swales);
  }

  /** The plan for a site with the usual settings and outlet rules. */
  public static RoutePlan plan(
      Site site, Terrain terrain, SurfaceWater water, List<BoundaryFlow> flows) {
    return plan(
        site, terrain, water, flows, RouteSettings.defaults(site.drain()), site.outletRules());
  }

  /**
   * The routes for a site with the usual settings and outlet rules, as {@link #plan}.
   *
   * @param interception tells what a drain takes of the storm's water
   * @param swales swales that are levelled in the terrain, each of which a drain replaces
   * @param searched the ground of an earlier proposal for the same site with another pipe, if any
   */
  public static Proposal propose(
      Site site,
      Terrain terrain,
      SurfaceWater water,
      List<BoundaryFlow> flows,
      Interception interception,
      List<Swale> swales,
      Optional<RouteGround> searched) {
    RouteSettings settings = RouteSettings.defaults(site.drain());
    return propose(
        site,
        terrain,
        water,
        flows,
        () -> interception,
        settings,
        site.outletRules(),
        swales,
        searched);
  }

  /**
   * The plan for a site, its low spots counted as full.
   *
   * @param flows where water crosses the property line
   * @throws BadInputException where outlets or limits make no sense, naming every fault at once
   */
  public static RoutePlan plan(
      Site site,
      Terrain terrain,
      SurfaceWater water,
      List<BoundaryFlow> flows,
      RouteSettings settings,
      OutletRules rules) {
    return propose(
            site,
            terrain,
            water,
            flows,
            () ->
                InflowLedgerFinder.of(
                        site, terrain, water, Storm.of(site.storm()), Optional.empty())
                    .interception(),
            settings,
            rules,
            List.of(),
            Optional.empty())
        .plan();
  }

  /**
   * The site's pinned lines alone: each as a route where it can be built as drawn, else rejected
   * with what is wrong with it and the least change that mends it. {@link #plan} does the same
   * beside its own search.
   *
   * @throws BadInputException where a line leaves the known ground, or outlets or limits make no
   *     sense
   */
  public static RoutePlan pinned(Site site, Terrain terrain, SurfaceWater water) {
    return new RouteFinder(
            site,
            terrain.ground(),
            water,
            RouteSettings.defaults(site.drain()),
            site.outletRules(),
            List.of())
        .pinned();
  }

  private RoutePlan pinned() {
    PlanProblems.check(site, ground);
    RouteGround routeGround = RouteGround.of(site, ground, settings);
    PinnedPlanner drawn = pinned(routeGround);
    return new RoutePlan(
        routes(
            new RouteRanking(
                List.of(), drawn.candidates(), draft -> 0, PriceWord.of(site.prices())),
            site),
        numbered(drawn.rejected()),
        Optional.empty(),
        routeGround.assumptions(),
        routeGround.warnings());
  }

  private PinnedPlanner pinned(RouteGround routeGround) {
    PinnedPlanner planner = new PinnedPlanner(routeGround, ground, inspector, lowSpots, metrePrice);
    planner.plan();
    return planner;
  }

  private static Proposal propose(
      Site site,
      Terrain terrain,
      SurfaceWater water,
      List<BoundaryFlow> flows,
      Supplier<Interception> interception,
      RouteSettings settings,
      OutletRules rules,
      List<Swale> swales,
      Optional<RouteGround> searched) {
    if (site.lot().isEmpty()) {
      RoutePlan none =
          new RoutePlan(
              List.of(),
              List.of(),
              Optional.empty(),
              List.of(),
              List.of("no lot was given, so no drain was planned"));
      return Proposal.none(none);
    }
    return new RouteFinder(site, terrain.ground(), water, settings, rules, swales)
        .propose(flows, interception.get(), searched);
  }

  private Proposal propose(
      List<BoundaryFlow> flows, Interception interception, Optional<RouteGround> searched) {
    PlanProblems.check(site, ground);
    List<Outlet> found =
        DaylightFinder.find(site, ground, rules, inspector, lowSpots, settings.daylightM());
    Site whole = withOutlets(found);
    RouteGround routeGround =
        searched
            .map(before -> before.forPipe(whole, ground, settings))
            .orElseGet(() -> RouteGround.of(whole, ground, settings));
    List<Collector> wanted = collectors.find(flows);
    PinnedPlanner drawn = pinned(routeGround);
    List<Drains> drains =
        wanted.parallelStream().map(collector -> drains(collector, routeGround, found)).toList();
    Supplier<List<Route>> ranked =
        () -> {
          List<RouteRanking.Candidate> candidates = new ArrayList<>(drawn.candidates());
          drains.forEach(each -> candidates.addAll(each.candidates()));
          return routes(
              new RouteRanking(
                  wanted,
                  candidates,
                  draft -> interception.areaM2(draft.open()),
                  PriceWord.of(site.prices())),
              whole);
        };
    return new Proposal(
        ranked.get(),
        found,
        Optional.of(routeGround),
        () -> {
          drains.parallelStream().forEach(Drains::addAlternatives);
          return ranked.get();
        },
        routes -> {
          List<Rejection> all = new ArrayList<>(drawn.rejected());
          drains.forEach(each -> all.addAll(each.rejected()));
          List<Rejection> no = numbered(all);
          PlanNotes notes = new PlanNotes(site, ground, water, settings);
          List<String> warnings = notes.warnings(routeGround, wanted);
          warnings.addAll(askedInVain(routes, no));
          if (routes.isEmpty() && !wanted.stream().allMatch(Collector::isEmpty)) {
            SeepQuestion.withoutDrain(site).ifPresent(warnings::add);
          }
          return new RoutePlan(
              routes,
              no,
              reach(routeGround),
              notes.assumptions(routeGround, collectors),
              warnings,
              found);
        });
  }

  /** What the user asked for and does not get, each with its reason. */
  private static List<String> askedInVain(List<Route> routes, List<Rejection> rejected) {
    return rejected.stream()
        .filter(no -> RouteRanking.ASKED_FOR.contains(no.kind()))
        .filter(no -> routes.stream().noneMatch(route -> route.kind() == no.kind()))
        .map(no -> "asked for, but not to be had: " + no.kind().words() + ": " + no.sentence())
        .toList();
  }

  /** The drains planned for a collector; none where it has no lines. */
  private record Drains(Collector collector, Optional<DrainPlanner> planner) {

    List<RouteRanking.Candidate> candidates() {
      return planner.map(DrainPlanner::candidates).orElse(List.of());
    }

    void addAlternatives() {
      planner.ifPresent(DrainPlanner::addAlternatives);
    }

    List<Rejection> rejected() {
      return planner.map(DrainPlanner::rejected).orElseGet(() -> List.of(notNeeded(collector)));
    }
  }

  private Drains drains(Collector collector, RouteGround routeGround, List<Outlet> found) {
    if (collector.isEmpty()) {
      return new Drains(collector, Optional.empty());
    }
    RouteGround on = collectors.on(collector, routeGround);
    DrainPlanner planner = planned(collector, on, found);
    for (int i = 0; planner.candidates().isEmpty() && planner.hitFooting(); i++) {
      Optional<Collector> moved = collectors.moved(collector, i);
      if (moved.isEmpty()) {
        break;
      }
      planner = planned(moved.get(), on, found);
    }
    return new Drains(collector, Optional.of(planner));
  }

  private DrainPlanner planned(Collector collector, RouteGround on, List<Outlet> found) {
    DrainPlanner planner = new DrainPlanner(on, ground, inspector, lowSpots, found, metrePrice);
    planner.plan(collector);
    return planner;
  }

  private List<Route> routes(RouteRanking ranking, Site whole) {
    List<Route> routes = new ArrayList<>();
    for (int i = 0; i < ranking.ranked().size(); i++) {
      RouteRanking.Candidate c = ranking.ranked().get(i);
      routes.add(
          new RouteMeasures(c.draft())
              .route(
                  RouteRanking.id(i),
                  c.collector().kind(),
                  i + 1,
                  c.price(),
                  c.crossings(),
                  reasons(ranking, i),
                  cautions(c, whole),
                  c.audit()));
    }
    return routes;
  }

  private List<String> reasons(RouteRanking ranking, int index) {
    List<String> reasons = new ArrayList<>(ranking.reasons(index));
    PriceWord.note(site.prices()).ifPresent(reasons::add);
    return reasons;
  }

  private List<String> cautions(RouteRanking.Candidate candidate, Site whole) {
    List<Station> stations = candidate.draft().main().stations();
    Outlet outlet =
        whole.outlets().stream()
            .filter(o -> o.id().equals(candidate.draft().outletId()))
            .findFirst()
            .orElseThrow();
    List<String> all =
        new ArrayList<>(
            OutletCautions.of(site, outlet, stations.get(stations.size() - 1).invertM()));
    all.addAll(LotCollectors.cautions(candidate.collector()));
    return all;
  }

  private static Rejection notNeeded(Collector collector) {
    return new Rejection(
        "X",
        collector.kind(),
        "",
        List.of(),
        collector.code(),
        collector.why(),
        List.of(),
        OptionalDouble.empty());
  }

  private static List<Rejection> numbered(List<Rejection> rejected) {
    List<Rejection> numbered = new ArrayList<>();
    for (Rejection r : rejected) {
      numbered.add(
          new Rejection(
              "X" + (numbered.size() + 1),
              r.kind(),
              r.outletId(),
              r.vertices(),
              r.code(),
              r.sentence(),
              r.relax(),
              r.shortfallM()));
    }
    return numbered;
  }

  /**
   * The gravity reach of every outlet that is not refused whatever the drain, and what it lacks.
   */
  private Optional<GravityReach> reach(RouteGround routeGround) {
    Collector any = Collector.none(DrainKind.PERIMETER, "", "");
    List<OutletTarget> targets =
        routeGround.site().outlets().stream()
            .filter(o -> inspector.refuse(o, any, List.of()).isEmpty())
            .map(o -> OutletTarget.of(o, routeGround))
            .toList();
    if (targets.isEmpty()) {
      return Optional.empty();
    }
    Bounds bounds = Bounds.of(site.drain(), settings);
    GravityReach reach = GravityReachFinder.find(routeGround, targets, bounds);
    return Optional.of(reach.with(ReachShortfallFinder.find(routeGround, targets, bounds, reach)));
  }

  private Site withOutlets(List<Outlet> more) {
    List<Outlet> outlets = new ArrayList<>(site.outlets());
    outlets.addAll(more);
    return site.withOutlets(outlets);
  }
}
