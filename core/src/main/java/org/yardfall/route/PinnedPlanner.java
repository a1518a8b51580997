package org.yardfall.route;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.simplify.DouglasPeuckerSimplifier;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.pipe.PipeTable;
import org.yardfall.site.Outlet;
import org.yardfall.site.PinnedLine;
import org.yardfall.site.Site;
import org.yardfall.trench.GroundCover;
import org.yardfall.trench.MetrePrice;
import org.yardfall.water.LowSpot;

/**
 * Plans the drains that the user drew: each is graded and audited as drawn, and is a drain like any
 * other where it can be built; else it is rejected with all that is wrong with it and the least
 * change that mends it.
 */
final class PinnedPlanner {

  /** A point this near to the straight between others, in metres, is no bend: files are rounded. */
  private static final double STRAIGHT_M = 0.005;

  /** The last metres before the outlet gather no water of the yard. */
  private static final double END_M = 3;

  private final Site site;
  private final RouteGround plain;
  private final ElevationGrid rawGround;
  private final OutletInspector inspector;
  private final List<LowSpot> lowSpots;
  private final MetrePrice metrePrice;
  private RouteGround deep;
  private final List<RouteRanking.Candidate> candidates = new ArrayList<>();
  private final List<Rejection> rejected = new ArrayList<>();

  PinnedPlanner(
      RouteGround ground,
      ElevationGrid rawGround,
      OutletInspector inspector,
      List<LowSpot> lowSpots,
      MetrePrice metrePrice) {
    this.site = ground.site();
    this.plain = ground;
    this.rawGround = rawGround;
    this.inspector = inspector;
    this.lowSpots = lowSpots;
    this.metrePrice = metrePrice;
  }

  /** The drawn drains that can be built. */
  List<RouteRanking.Candidate> candidates() {
    return candidates;
  }

  /** The drawn drains that cannot. */
  List<Rejection> rejected() {
    return rejected;
  }

  /** Grades and audits all drawn drains. */
  void plan() {
    DrawnNetwork.of(site.pinned(), site.outlets()).forEach(this::plan);
  }

  private void plan(DrawnNetwork network) {
    PinnedLine pinned = network.main();
    RouteGround ground = pinned.seepId().isEmpty() ? plain : onSeeps();
    List<Coordinate> drawn = bends(pinned);
    List<String> notes = new ArrayList<>();
    Optional<Outlet> meant = outlet(pinned, drawn, notes);
    if (meant.isEmpty()) {
      reject(pinned, "", List.of("there is no outlet that it could lead to"), List.of());
      return;
    }
    List<List<Coordinate>> plan = new ArrayList<>(List.of(drawn));
    network.branches().forEach(branch -> plan.add(bends(branch.line())));
    List<Integer> joins = network.branches().stream().map(DrawnNetwork.Branch::joins).toList();
    DrawnGrading.join(plan, joins);
    Outlet outlet = meant.get();
    OutletTarget target = OutletTarget.of(outlet, ground);
    RouteSettings settings = ground.settings();
    DrawnGrading graded =
        DrawnGrading.grade(ground, plan, joins, target, Bounds.of(site.drain(), settings));
    if (!graded.laid() && SlabPipes.twoMayHelp(site)) {
      RouteSettings twins = settings.withUnderSlabs(SlabPipes.two());
      DrawnGrading again =
          DrawnGrading.grade(ground, plan, joins, target, Bounds.of(site.drain(), twins));
      if (again.laid()) {
        graded = again;
        settings = twins;
        notes.add(SlabPipes.two().note(PipeTable.of(site.drain())));
      }
    }
    List<LineString> lines = plan.stream().map(bends -> line(pinned, bends)).toList();
    Collector collector =
        new Collector(
            DrainKind.PINNED,
            lines,
            "graded as you drew it (line "
                + pinned.id()
                + (joins.isEmpty() ? "" : " with its branches")
                + ")",
            pinned.seepId().isEmpty() ? List.of() : List.of(pinned.seepId()),
            0);
    List<String> faults = new ArrayList<>(graded.faults());
    List<Rejection.Relaxation> relax = new ArrayList<>(graded.relax());
    Collector gathering = gathering(collector, drawn);
    RouteSettings laidWith = settings;
    Optional<OutletInspector.Refusal> refusal = inspector.refuse(outlet, gathering, lowSpots);
    if (refusal.isPresent()) {
      faults.add(refusal.get().sentence());
      relax.clear(); // alone no limit mends it but the outlet's height
      Predicate<Outlet> works =
          lower ->
              inspector.refuse(lower, gathering, lowSpots).isEmpty()
                  && worksAsDrawn(ground, plan, joins, lower, laidWith);
      refusal
          .get()
          .shortfallM()
          .ifPresent(
              least ->
                  relax.addAll(
                      OutletLowering.relax(
                          new OutletLowering(outlet, ground).leastM(least, works))));
    }
    if (!graded.laid() || !faults.isEmpty()) {
      reject(pinned, outlet.id(), faults, relax);
      return;
    }
    DrainLine laid = graded.main().line().orElseThrow();
    List<Route.Branch> laidBranches = graded.laidBranches();
    FootingInfluence footings = new FootingInfluence(site, rawGround);
    double tooDeep = graded.lines().stream().mapToDouble(footings::tooDeepM).max().orElseThrow();
    if (tooDeep > 0) {
      faults.add(
          text(
              "the pipe would lie %.2f m too deep so near a building: inside the line falling at 45"
                  + " degrees from the footing's underside; move it away by as much",
              tooDeep));
    }
    Audit audit =
        SeepAudit.with(
            RouteAuditor.audit(site, rawGround, settings, outlet, laid, laidBranches),
            site,
            rawGround,
            collector.serves(),
            laid,
            laidBranches);
    for (Audit.Check check : audit.checks()) {
      if (!check.passed() && check.name().startsWith(SeepAudit.UPHILL)) {
        faults.add(
            text(
                "it passes uphill of %.0f %% of the width of wet patch %s: an interceptor dries the"
                    + " ground downslope of it and hardly any above, so it must lie above the whole"
                    + " patch",
                100 * check.worst(), pinned.seepId()));
      } else if (!check.passed()) {
        faults.add(
            text(
                "it does not pass the check '%s' at station %.1f m: %.3f %s against %.3f",
                check.name(), check.atStationM(), check.worst(), check.unit(), check.limit()));
      }
    }
    if (!faults.isEmpty()) {
      reject(pinned, outlet.id(), faults, relax);
      return;
    }
    GroundCover cover = GroundCover.of(site);
    double price = cost(graded, cover, TrenchCost.price(metrePrice));
    Draft draft = new Draft(outlet.id(), laid, laidBranches, price, List.of(), graded.notes());
    Crossings crossings = Crossings.of(ground, draft, settings.underSlabs());
    TrenchCost disturbance = TrenchCost.disturbance();
    candidates.add(
        new RouteRanking.Candidate(
            collector,
            draft,
            crossings,
            audit,
            price + crossings.moreCost(TrenchCost.price(metrePrice)),
            cost(graded, cover, disturbance) + crossings.moreCost(disturbance),
            notes));
  }

  /** Whether pipes fall along the lines to an outlet that asks for no more than that. */
  private boolean worksAsDrawn(
      RouteGround ground,
      List<List<Coordinate>> plan,
      List<Integer> joins,
      Outlet outlet,
      RouteSettings settings) {
    DrawnGrading graded =
        DrawnGrading.grade(
            ground,
            plan,
            joins,
            OutletTarget.of(outlet, ground),
            Bounds.of(site.drain(), settings));
    return graded.laid()
        && RouteAuditor.audit(
                site,
                rawGround,
                settings,
                outlet,
                graded.main().line().orElseThrow(),
                graded.laidBranches())
            .checks()
            .stream()
            .filter(c -> List.of(RouteAuditor.LID, RouteAuditor.WATER).contains(c.name()))
            .allMatch(Audit.Check::passed);
  }

  /**
   * Its bends; a line that a plan wrote has a point at every station, most of them on straights.
   */
  private static List<Coordinate> bends(PinnedLine pinned) {
    Geometry line = DouglasPeuckerSimplifier.simplify(pinned.line(), STRAIGHT_M);
    return new ArrayList<>(List.of(line.getCoordinates()));
  }

  private static double cost(DrawnGrading graded, GroundCover cover, TrenchCost cost) {
    return graded.lines().stream().mapToDouble(line -> LaidCost.of(line, cover, cost)).sum();
  }

  /** The ground on which a line for a wet patch must reach the water. */
  private RouteGround onSeeps() {
    if (deep == null) {
      deep = new UphillInterceptor(site, rawGround).on(plain);
    }
    return deep;
  }

  /** The outlet that the line leads to; a line drawn upstream is turned, a near end moved to it. */
  private Optional<Outlet> outlet(PinnedLine pinned, List<Coordinate> drawn, List<String> notes) {
    Comparator<Outlet> nearness = Comparator.comparingDouble(o -> toEnd(o, drawn));
    Optional<Outlet> meant =
        site.outlets().stream()
            .filter(o -> pinned.outletId().isEmpty() || o.id().equals(pinned.outletId()))
            .min(nearness.thenComparing(Outlet::id));
    meant.ifPresent(
        outlet -> {
          Coordinate first = drawn.get(0);
          Coordinate last = drawn.get(drawn.size() - 1);
          if (first.distance(outlet.at()) < last.distance(outlet.at())) {
            Collections.reverse(drawn);
            notes.add("drawn from its outlet upward, and taken the other way");
          }
          double gap = drawn.get(drawn.size() - 1).distance(outlet.at());
          if (gap > 0 && gap <= DrawnNetwork.MEANT_M) {
            drawn.set(drawn.size() - 1, new Coordinate(outlet.at().x, outlet.at().y));
            if (gap > 0.05) {
              notes.add(
                  text("its end, drawn %.2f m from outlet %s, was put there", gap, outlet.id()));
            }
          }
        });
    return meant;
  }

  private static double toEnd(Outlet outlet, List<Coordinate> drawn) {
    return Math.min(
        drawn.get(0).distance(outlet.at()), drawn.get(drawn.size() - 1).distance(outlet.at()));
  }

  private static LineString line(PinnedLine pinned, List<Coordinate> drawn) {
    return pinned.line().getFactory().createLineString(drawn.toArray(Coordinate[]::new));
  }

  /** The line where it takes water in, without its end at the outlet. */
  private static Collector gathering(Collector collector, List<Coordinate> drawn) {
    double length = PlanLine.length(drawn);
    List<Coordinate> upper = PlanLine.part(drawn, 0, Math.max(length / 2, length - END_M));
    List<LineString> lines = new ArrayList<>(collector.lines());
    GeometryFactory factory = lines.get(0).getFactory();
    lines.set(0, factory.createLineString(upper.toArray(Coordinate[]::new)));
    return new Collector(
        collector.kind(), lines, collector.why(), collector.serves(), collector.servedM2());
  }

  private void reject(
      PinnedLine pinned, String outletId, List<String> faults, List<Rejection.Relaxation> relax) {
    String mends =
        relax.isEmpty()
            ? ""
            : "; it would fall with "
                + (relax.size() == 1 ? "" : "any one of: ")
                + String.join(", ", relax.stream().map(Rejection.Relaxation::words).toList());
    rejected.add(
        new Rejection(
            "X",
            DrainKind.PINNED,
            outletId,
            List.of(pinned.line().getCoordinates()),
            "as-drawn",
            "line " + pinned.id() + " as drawn: " + String.join("; ", faults) + mends,
            relax,
            RelaxationFinder.shortfallM(relax)));
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
