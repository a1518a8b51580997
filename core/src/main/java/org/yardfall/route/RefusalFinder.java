package org.yardfall.route;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Predicate;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.operation.distance.DistanceOp;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Crossing;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;

/**
 * Says why a collector's water gets to an outlet by no drain: whether the way is closed in plan or
 * the fall, the depth or the cover does not suffice, by how much each limit alone would have to
 * give, and what a pump would have to lift. Each limit is found by halving, so this takes longer
 * than the search that failed.
 */
final class RefusalFinder {

  /** A limit relaxed by so much, in metres, is as good as no limit. */
  private static final double NO_LIMIT_M = RelaxationFinder.MOST_M;

  /** Limits are found to about this, in metres. */
  private static final double LEVEL_M = 0.002;

  private final RouteGround ground;
  private final Site site;

  RefusalFinder(RouteGround ground) {
    this.ground = ground;
    this.site = ground.site();
  }

  /** A drain refused for a reason that is known already, and that nothing is known to mend. */
  static Rejection refused(Collector collector, String outletId, OutletInspector.Refusal refusal) {
    return rejection(
        collector, outletId, refusal.code(), refusal.sentence(), List.of(), refusal.shortfallM());
  }

  /**
   * A drain refused since its outlet lies too high, with the least lowering that mends it.
   *
   * @param works whether a drain to the outlet, which was lowered, may be proposed
   */
  Rejection tooHigh(
      Collector collector,
      Outlet outlet,
      OutletInspector.Refusal refusal,
      Predicate<Outlet> works) {
    OutletLowering lowering = new OutletLowering(outlet, ground);
    DrainRouter router = DrainRouter.of(ground, collector.lines());
    Bounds bounds = Bounds.of(site.drain(), ground.settings());
    OptionalDouble falls =
        lowering.leastM(
            refusal.shortfallM().orElseThrow(),
            lower -> router.feasible(List.of(OutletTarget.of(lower, ground)), bounds));
    OptionalDouble least = falls.isPresent() ? lowering.leastM(falls.getAsDouble(), works) : falls;
    return rejection(
        collector,
        outlet.id(),
        refusal.code(),
        refusal.sentence() + OutletLowering.words(least),
        OutletLowering.relax(least),
        refusal.shortfallM());
  }

  /** A drain that no line falls along, with the least change of each limit that would mend it. */
  Rejection infeasible(Collector collector, Outlet outlet) {
    List<OutletTarget> target = List.of(OutletTarget.of(outlet, ground));
    Bounds bounds = Bounds.of(site.drain(), ground.settings());
    DrainRouter router = DrainRouter.of(ground, collector.lines());
    Predicate<Bounds> feasible = b -> router.feasible(target, b);
    List<Rejection.Relaxation> relax = List.of();
    String code = "blocked";
    Bounds boundless =
        bounds
            .withMaxDepth(bounds.maxDepthM() + NO_LIMIT_M)
            .withOutletLowered(NO_LIMIT_M)
            .withMinCover(0);
    if (feasible.test(boundless)) {
      relax = RelaxationFinder.find(bounds, feasible);
      code = code(relax);
    }
    OptionalDouble shortfall = RelaxationFinder.shortfallM(relax);
    return rejection(
        collector,
        outlet.id(),
        code,
        sentence(code, collector, outlet, relax, bounds, feasible)
            + belly(collector, target, bounds, shortfall),
        relax,
        shortfall);
  }

  /**
   * Says where it is only a slab that takes the fall: under it the pipe lies deeper than cover
   * asks, and would have to rise again beyond. No slab takes more than the pipe's top lies deeper
   * under it than cover asks.
   */
  private String belly(
      Collector collector, List<OutletTarget> target, Bounds bounds, OptionalDouble shortfall) {
    double thickest = site.crossings().stream().mapToDouble(Crossing::pipeTopM).max().orElse(0);
    if (shortfall.isEmpty()
        || shortfall.getAsDouble() > thickest - site.drain().minCoverM() + LEVEL_M) {
      return "";
    }
    RouteGround bare = RouteGround.of(site.withoutSlabs(), ground.ground(), ground.settings());
    return DrainRouter.of(bare, collector.lines()).feasible(target, bounds)
        ? "; but for the slab on the way it would: under the slab the pipe lies deeper than its"
            + " cover asks, and would have to rise again beyond, which leaves a belly"
        : "";
  }

  private static String code(List<Rejection.Relaxation> relax) {
    if (relax.stream().anyMatch(r -> r.limit().equals("max-depth"))) {
      return "too-deep";
    }
    boolean fall =
        relax.stream().anyMatch(r -> r.limit().equals("outlet") || r.limit().equals("min-grade"));
    return fall || relax.isEmpty() ? "no-fall" : "no-cover";
  }

  private String sentence(
      String code,
      Collector collector,
      Outlet outlet,
      List<Rejection.Relaxation> relax,
      Bounds bounds,
      Predicate<Bounds> feasible) {
    if (code.equals("blocked")) {
      return String.format(
          Locale.ROOT,
          "obstacles, buildings, other parcels, slabs too wide to bore, the setback%s or unknown ground"
              + " close every way from the %s line to"
              + " outlet %s, whatever the depth%s",
          rock() ? ", rock" : "",
          collector.kind().word(),
          outlet.id(),
          inTheWay(collector, outlet));
    }
    StringBuilder say =
        new StringBuilder(
            String.format(
                Locale.ROOT,
                "no line falls at %.2f %% all the way from the %s line to outlet %s with %.2f m of"
                    + " cover and no deeper than %.2f m",
                100 * site.drain().minGrade(),
                collector.kind().word(),
                outlet.id(),
                site.drain().minCoverM(),
                site.drain().maxDepthM()));
    if (relax.isEmpty()) {
      say.append("; ").append(RelaxationFinder.togetherWords(bounds, feasible));
      return say.append(pump(staticLiftM(collector, outlet), collector)).toString();
    }
    say.append(relax.size() == 1 ? "; it would with " : "; it would with any one of: ");
    say.append(String.join(", ", relax.stream().map(Rejection.Relaxation::words).toList()));
    relax.stream()
        .filter(r -> r.limit().equals("outlet"))
        .findFirst()
        .ifPresent(r -> say.append(pump(r.by(), collector)));
    return say.toString();
  }

  private String pump(double liftM, Collector collector) {
    return liftM > 0
        ? String.format(
            Locale.ROOT,
            "; a pump would have to lift the water %.3f m or more, and its storage and a one-way"
                + " valve be planned for an outage%s",
            liftM,
            perHour(collector))
        : "";
  }

  private boolean rock() {
    return site.obstacles().stream().anyMatch(o -> o.kind() == Obstacle.Kind.ROCK);
  }

  /** From the pipe at the lowest ground where it takes water in to the outlet's invert. */
  private double staticLiftM(Collector collector, Outlet outlet) {
    double lowest = Double.POSITIVE_INFINITY;
    for (LineString line : collector.lines()) {
      Optional<GroundLine> along = ground.line(List.of(line.getCoordinates()));
      for (int i = 0; along.isPresent() && i < along.get().size(); i++) {
        lowest = Math.min(lowest, along.get().groundM(i));
      }
    }
    double pipe = lowest - site.drain().minCoverM() - site.drain().pipeOutsideM();
    return OutletTarget.of(outlet, ground).invertM() - pipe;
  }

  /** What a sump has to store for each hour without power. */
  private String perHour(Collector collector) {
    if (!(collector.servedM2() > 0)) {
      return "";
    }
    Storm storm = Storm.of(site.storm());
    return String.format(
        Locale.ROOT,
        ", which in the design storm brings up to %.2f m3 an hour on the mean",
        collector.servedM2() * storm.depthM() / storm.durationS() * 3600);
  }

  /** What the straight way to an outlet meets, so that a reader sees where to look for a gap. */
  private String inTheWay(Collector collector, Outlet outlet) {
    if (collector.isEmpty()) {
      return "";
    }
    GeometryFactory factory = collector.lines().get(0).getFactory();
    Coordinate[] nearest =
        DistanceOp.nearestPoints(
            factory.buildGeometry(collector.lines()), factory.createPoint(outlet.at()));
    LineString straight = factory.createLineString(nearest);
    if (straight.getLength() > 0 && ground.line(List.of(nearest)).isEmpty()) {
      return "; the straight way there runs over ground whose elevation is not known: give rasters"
          + " or shots that cover it";
    }
    Set<String> met = new LinkedHashSet<>(ground.rules().intrusions(straight).keySet());
    for (Crossing slab : site.crossings()) {
      double wide = straight.intersection(slab.outline()).getLength();
      if (wide > site.drain().boreMaxLengthM()) {
        met.add(
            String.format(
                Locale.ROOT,
                "slab %s, %.2f m there, more than the %.2f m that may be bored",
                slab.id(),
                wide,
                site.drain().boreMaxLengthM()));
      }
    }
    if (met.isEmpty()) {
      return "";
    }
    String parcels =
        met.stream().anyMatch(name -> name.startsWith("parcel "))
            ? "; a street that has a parcel of its own is named under parcels: right-of-way, a"
                + " neighbour's leave is drawn as an easement"
            : "";
    return "; the straight way there meets " + String.join(", ", met) + parcels;
  }

  private static Rejection rejection(
      Collector collector,
      String outletId,
      String code,
      String sentence,
      List<Rejection.Relaxation> relax,
      OptionalDouble shortfallM) {
    List<Coordinate> drawn =
        collector.isEmpty() ? List.of() : List.of(collector.lines().get(0).getCoordinates());
    return new Rejection("X", collector.kind(), outletId, drawn, code, sentence, relax, shortfallM);
  }
}
