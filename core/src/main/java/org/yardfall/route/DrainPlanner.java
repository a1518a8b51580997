package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import org.locationtech.jts.geom.LineString;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.pipe.PipeTable;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;
import org.yardfall.trench.GroundCover;
import org.yardfall.trench.MetrePrice;
import org.yardfall.water.LowSpot;

/**
 * Plans the drains that take one collector's water: to every outlet that may have it by the
 * cheapest way, and by the shallowest and the least disturbing where those differ. What fails is
 * rejected with the least change of each limit that would mend it.
 */
final class DrainPlanner {

  /** As many that differ are looked for before other measures than price are left alone. */
  private static final int ENOUGH = 3;

  /** How often a line is broken anew before it is given up. */
  private static final int MOST_BREAKS = 2;

  private final Site site;
  private final ElevationGrid rawGround;
  private final RouteGround ground;
  private final OutletInspector inspector;
  private final RefusalFinder refusals;
  private final FootingInfluence footing;
  private final List<LowSpot> lowSpots;
  private final List<Outlet> found;
  private final MetrePrice metrePrice;
  private final TrenchCost price;
  private final GroundCover cover;
  private final List<RouteRanking.Candidate> candidates = new ArrayList<>();
  private final List<Supplier<Rejection>> rejected = new ArrayList<>();
  private final Map<List<LineString>, DrainRouter> routers = new ConcurrentHashMap<>();
  private final List<Alternative> alternatives = new ArrayList<>();
  private final Set<String> refused = new HashSet<>();
  private boolean hitFooting;

  /** A drain that is worth looking for beside the cheapest. */
  private record Alternative(Collector collector, Outlet outlet, TrenchCost cost) {}

  DrainPlanner(
      RouteGround ground,
      ElevationGrid rawGround,
      OutletInspector inspector,
      List<LowSpot> lowSpots,
      List<Outlet> found,
      MetrePrice metrePrice) {
    this.site = ground.site();
    this.ground = ground;
    this.rawGround = rawGround;
    this.inspector = inspector;
    this.refusals = new RefusalFinder(ground);
    this.footing = new FootingInfluence(site, rawGround);
    this.lowSpots = lowSpots;
    this.found = found;
    this.metrePrice = metrePrice;
    this.price = TrenchCost.price(metrePrice);
    this.cover = GroundCover.of(site);
  }

  /** The drains that work. */
  List<RouteRanking.Candidate> candidates() {
    return candidates;
  }

  /** What does not work; what would mend it is only looked for here, as that takes the longest. */
  List<Rejection> rejected() {
    return rejected.parallelStream().map(Supplier::get).toList();
  }

  /** Whether a drain failed only because it would lie within a footing's influence. */
  boolean hitFooting() {
    return hitFooting;
  }

  /** Plans the cheapest drains for a collector that has lines; others where none of them stands. */
  void plan(Collector wanted) {
    Collector collector = PermittedLines.of(wanted, ground);
    if (collector.isEmpty()) {
      refuse(
          wanted,
          OutletInspector.Refusal.of(
              "no-room",
              "no stretch of the collecting line can be dug: %s",
              ground.whyNot(List.of(wanted.lines().get(0).getCoordinates()))));
      return;
    }
    List<Outlet> open = new ArrayList<>();
    for (Outlet outlet : site.outlets()) {
      Optional<OutletInspector.Refusal> refusal = inspector.refuse(outlet, collector, lowSpots);
      if (refusal.isPresent()) {
        reject(collector, outlet, refusal.get());
      } else {
        open.add(outlet);
      }
    }
    if (open.isEmpty() && rejected.isEmpty()) {
      refuse(
          collector,
          OutletInspector.Refusal.of(
              "no-outlet",
              "no outlet was given, and nowhere on the lot's own slope can a pipe come to daylight"
                  + " under the rules set without its water reaching a neighbour as a point; what"
                  + " is left is to let the water run as the broad sheet it is, spread level along"
                  + " the lot's own line, and to raise the matter with the neighbour"));
    }
    List<Outlet> reached = new ArrayList<>();
    List<Outlet> failed = new ArrayList<>();
    for (Outlet outlet : open) {
      Found found = add(collector, outlet, ground.settings(), price, List.of());
      if (found != Found.NONE || addBroken(collector, outlet)) {
        reached.add(outlet);
      } else if (!twinCrossing(collector, outlet)) {
        failed.add(outlet);
      }
    }
    addRest(collector, failed);
    // A daylight place that was only a try of ours is nothing to report when it fails.
    failed.stream()
        .filter(outlet -> !found.contains(outlet))
        .forEach(outlet -> rejected.add(() -> refusals.infeasible(collector, outlet)));
    if (reached.isEmpty() && rejected.isEmpty()) {
      rejected.add(() -> refusals.infeasible(collector, open.get(0)));
    }
    for (Outlet outlet : cheapestFirst(reached)) {
      for (TrenchCost cost : List.of(TrenchCost.depth(), TrenchCost.disturbance())) {
        alternatives.add(new Alternative(collector, outlet, cost));
      }
    }
    if (candidates.isEmpty()) {
      addAlternatives();
    }
  }

  /** Adds to the cheapest drains the shallowest and the least disturbing, where those differ. */
  void addAlternatives() {
    int different = DrainDifference.count(candidates);
    while (different < ENOUGH && !alternatives.isEmpty()) {
      List<Alternative> next =
          List.copyOf(alternatives.subList(0, Math.min(alternatives.size(), ENOUGH - different)));
      alternatives.subList(0, next.size()).clear();
      List<Optional<Draft>> drafts =
          next.parallelStream()
              .map(a -> route(a.collector(), a.outlet(), ground.settings(), a.cost()))
              .toList();
      for (int i = 0; i < next.size(); i++) {
        Alternative a = next.get(i);
        drafts
            .get(i)
            .ifPresent(
                draft ->
                    keep(
                        a.collector(),
                        a.outlet(),
                        ground.settings(),
                        draft,
                        LineNotes.leftOut(a.collector(), draft)));
      }
      different = DrainDifference.count(candidates);
    }
  }

  private List<Outlet> cheapestFirst(List<Outlet> reached) {
    List<Outlet> sorted = new ArrayList<>(reached);
    sorted.sort(
        Comparator.comparingDouble(
            o ->
                candidates.stream()
                    .filter(c -> c.draft().outletId().equals(o.id()))
                    .mapToDouble(RouteRanking.Candidate::price)
                    .min()
                    .orElse(Double.POSITIVE_INFINITY)));
    return sorted;
  }

  /** What a search came to. */
  private enum Found {
    /** No drain. */
    NONE,
    /** One that fails a later rule; it is rejected with that. */
    REFUSED,
    /** One that may be proposed. */
    KEPT
  }

  /** Finds the best drain by a cost. */
  private Found add(
      Collector collector,
      Outlet outlet,
      RouteSettings settings,
      TrenchCost cost,
      List<String> notes) {
    return route(collector, outlet, settings, cost)
        .map(
            draft -> {
              List<String> all = new ArrayList<>(notes);
              all.addAll(LineNotes.leftOut(collector, draft));
              return keep(collector, outlet, settings, draft, all);
            })
        .orElse(Found.NONE);
  }

  private Optional<Draft> route(
      Collector collector, Outlet outlet, RouteSettings settings, TrenchCost cost) {
    return routers
        .computeIfAbsent(collector.lines(), lines -> DrainRouter.of(ground, lines))
        .route(List.of(OutletTarget.of(outlet, ground)), Bounds.of(site.drain(), settings), cost);
  }

  /**
   * Tries the collector with its lines broken at their high ground, each part in turn as the one
   * that gets the main line; whether a drain was found that may be proposed.
   */
  private boolean addBroken(Collector collector, Outlet outlet) {
    HighGround high = new HighGround(rawGround, site.crossings());
    List<LineString> lines = collector.lines();
    for (int round = 0; round < MOST_BREAKS; round++) {
      List<LineString> parts = new ArrayList<>(high.broken(lines));
      if (parts.size() == lines.size()) {
        return false;
      }
      parts.sort(Comparator.comparingDouble(LineString::getLength).reversed());
      lines = List.copyOf(parts);
      for (LineString first : lines) {
        parts.remove(first);
        parts.add(0, first);
        List<String> note =
            List.of(
                "the collecting line is broken at its high ground into "
                    + parts.size()
                    + " stretches, each falling its own way");
        if (add(collector.with(parts), outlet, ground.settings(), price, note) == Found.KEPT) {
          return true;
        }
      }
    }
    return false;
  }

  /**
   * Leads what the best drain leaves out to the outlets that the longest line does not reach; those
   * that it gets to no longer count as failed. Where the longest line reaches none, the drain is
   * refused as a whole: the small part of it that falls would not keep the lot dry.
   */
  private void addRest(Collector collector, List<Outlet> failed) {
    List<LineString> rest =
        candidates.stream()
            .min(Comparator.comparingDouble(RouteRanking.Candidate::leftOutM))
            .map(best -> best.draft().unserved())
            .orElse(List.of());
    for (LineString first : rest) {
      List<LineString> lines = new ArrayList<>(collector.lines());
      if (lines.remove(first)) {
        lines.add(0, first);
        failed.removeIf(
            o -> add(collector.with(lines), o, ground.settings(), price, List.of()) == Found.KEPT);
      }
    }
  }

  private Found keep(
      Collector collector, Outlet outlet, RouteSettings settings, Draft draft, List<String> notes) {
    if (candidates.stream().anyMatch(c -> same(c.draft(), draft))) {
      return Found.KEPT;
    }
    double tooDeep = footing.tooDeepM(draft.main());
    for (Route.Branch branch : draft.branches()) {
      tooDeep = Math.max(tooDeep, footing.tooDeepM(branch.line()));
    }
    if (tooDeep > 0) {
      hitFooting = true;
      reject(
          collector,
          outlet,
          OutletInspector.Refusal.of(
              "footing",
              "the pipe would lie %.2f m too deep so near a building: inside the line falling at 45"
                  + " degrees from the footing's underside",
              tooDeep));
      return Found.REFUSED;
    }
    Audit audit =
        SeepAudit.with(
            RouteAuditor.audit(site, rawGround, settings, outlet, draft.main(), draft.branches()),
            site,
            rawGround,
            collector.serves(),
            draft.main(),
            draft.branches());
    if (!audit.passed()) {
      Audit.Check failed =
          audit.checks().stream().filter(c -> !c.passed()).findFirst().orElseThrow();
      reject(collector, outlet, refusal(outlet, failed));
      return Found.REFUSED;
    }
    Crossings crossings = Crossings.of(ground, draft, settings.underSlabs());
    candidates.add(
        new RouteRanking.Candidate(
            collector,
            draft,
            crossings,
            audit,
            cost(draft, crossings, price),
            cost(draft, crossings, TrenchCost.disturbance()),
            notes));
    return Found.KEPT;
  }

  /** Cost of the lines as laid; a branch joins with a fitting, as a square turn takes one. */
  private double cost(Draft draft, Crossings crossings, TrenchCost measure) {
    return LaidCost.of(draft.main(), cover, measure)
        + crossings.moreCost(measure)
        + draft.branches().stream()
            .mapToDouble(b -> LaidCost.of(b.line(), cover, measure) + measure.turn(90))
            .sum();
  }

  private static boolean same(Draft a, Draft b) {
    return a.outletId().equals(b.outletId())
        && a.main().vertices().equals(b.main().vertices())
        && a.branches().size() == b.branches().size();
  }

  /**
   * Two 4 in pipes side by side under slabs in place of one larger, where the larger would leave a
   * belly there ({@code common practice, no source}); whether such a drain may be proposed.
   */
  private boolean twinCrossing(Collector collector, Outlet outlet) {
    if (!SlabPipes.twoMayHelp(site)) {
      return false;
    }
    SlabPipes two = SlabPipes.two();
    return add(
            collector,
            outlet,
            ground.settings().withUnderSlabs(two),
            price,
            List.of(two.note(PipeTable.of(site.drain()))))
        == Found.KEPT;
  }

  private void refuse(Collector collector, OutletInspector.Refusal refusal) {
    rejected.add(() -> RefusalFinder.refused(collector, "", refusal));
  }

  private static OutletInspector.Refusal refusal(Outlet outlet, Audit.Check failed) {
    return switch (failed.name()) {
      case RouteAuditor.LID -> OutletInspector.belowLid(outlet, failed.worst());
      case RouteAuditor.WATER -> OutletInspector.aboveDrain(outlet, failed.worst());
      default ->
          OutletInspector.Refusal.of(
              "audit",
              "the drain found does not pass the independent check '%s' at station %.1f m: %.3f %s"
                  + " against %.3f",
              failed.name(),
              failed.atStationM(),
              failed.worst(),
              failed.unit(),
              failed.limit());
    };
  }

  private void reject(Collector collector, Outlet outlet, OutletInspector.Refusal refusal) {
    if (refused.add(outlet.id() + refusal)) { // the alternatives of a drain fail as it does
      rejected.add(
          () ->
              refusal.shortfallM().isPresent()
                  ? refusals.tooHigh(
                      collector, outlet, refusal, lower -> another().drains(collector, lower))
                  : RefusalFinder.refused(collector, outlet.id(), refusal));
    }
  }

  private DrainPlanner another() {
    return new DrainPlanner(ground, rawGround, inspector, lowSpots, found, metrePrice);
  }

  /** Whether a drain to the outlet may be proposed. */
  private boolean drains(Collector collector, Outlet outlet) {
    return inspector.refuse(outlet, collector, lowSpots).isEmpty()
        && (add(collector, outlet, ground.settings(), price, List.of()) == Found.KEPT
            || addBroken(collector, outlet)
            || twinCrossing(collector, outlet));
  }
}
