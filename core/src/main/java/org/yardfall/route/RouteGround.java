package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Point;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Assumption;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;

/**
 * The ground as a trench sees it: raw elevations around a lot and its outlets, and where in plan a
 * trench may go. Made once for a site; searches with different limits share it.
 *
 * <p>Safe for use by several threads.
 */
public final class RouteGround {

  /** Ground kept around the lot and its outlets in metres, so that a route may go round things. */
  private static final double MARGIN_M = 5;

  private final Site site;
  private final ElevationGrid ground;
  private final RouteSettings settings;
  private final TrenchRules rules;
  private final GroundSampler sampler;
  private final StepGraph graph;
  private final StepCover stepCover;

  /** Gravity reach of outlets within bounds, as several collecting lines ask for the same. */
  private final Map<ReachKey, GravityReach> reaches = new ConcurrentHashMap<>();

  private record ReachKey(List<OutletTarget> outlets, Bounds bounds) {}

  private RouteGround(Site site, RouteSettings settings, RouteGround shared) {
    this.site = site;
    this.ground = shared.ground;
    this.settings = settings;
    this.rules = shared.rules;
    this.sampler = shared.sampler;
    this.graph = shared.graph;
    this.stepCover = shared.stepCover;
  }

  private RouteGround(Site site, ElevationGrid ground, RouteSettings settings, List<Zone> more) {
    this.site = site;
    this.ground = ground;
    this.settings = settings;
    this.rules = new TrenchRules(site, ground, more);
    this.sampler = new GroundSampler(ground, rules.zones());
    this.graph = new StepGraph(ground, rules, sampler, settings);
    this.stepCover = new StepCover(graph, site);
  }

  /**
   * The ground of a site.
   *
   * @param site the site; without a lot, all ground counts as the owner's
   * @param ground raw elevations, not the filled ones; only the part around lot and outlets is used
   * @param settings how to search
   */
  public static RouteGround of(Site site, ElevationGrid ground, RouteSettings settings) {
    return new RouteGround(site, cropped(site, ground), settings, List.of());
  }

  /** The same ground, on which a drain must pass some places in a certain way besides. */
  RouteGround with(List<Zone> more) {
    return new RouteGround(site, ground, settings, more);
  }

  /**
   * The same ground for the same site with another pipe, of which neither the elevations nor where
   * a trench may go depends; found anew where the outlets lie so that more of it is needed, or
   * where there is rock, above which each pipe has its own room.
   *
   * @param whole raw elevations, as given before
   */
  RouteGround forPipe(Site other, ElevationGrid whole, RouteSettings how) {
    boolean same =
        cut(other, whole).equals(cut(site, whole))
            && how.neighbours() == settings.neighbours()
            && how.maxBoreM() == settings.maxBoreM()
            && site.obstacles().stream().noneMatch(o -> o.kind() == Obstacle.Kind.ROCK);
    return same ? new RouteGround(other, how, this) : of(other, whole, how);
  }

  /** Cells west, east, north and south of the part of the grid that a site needs. */
  private record Cut(int west, int east, int north, int south) {}

  private static Cut cut(Site site, ElevationGrid whole) {
    GridFrame f = whole.frame();
    if (site.lot().isEmpty()) {
      return new Cut(0, f.cols() - 1, 0, f.rows() - 1);
    }
    Envelope need = new Envelope(site.lot().get().outline().getEnvelopeInternal());
    for (Outlet outlet : site.outlets()) {
      need.expandToInclude(outlet.at());
    }
    site.pinned().forEach(p -> need.expandToInclude(p.line().getEnvelopeInternal()));
    need.expandBy(MARGIN_M);
    return new Cut(
        Math.max(0, f.col(need.getMinX())),
        Math.min(f.cols() - 1, f.col(need.getMaxX())),
        Math.max(0, f.row(need.getMaxY())),
        Math.min(f.rows() - 1, f.row(need.getMinY())));
  }

  private static ElevationGrid cropped(Site site, ElevationGrid whole) {
    GridFrame f = whole.frame();
    Cut cut = cut(site, whole);
    if (cut.west() > cut.east() || cut.north() > cut.south()) {
      return whole;
    }
    GridFrame part =
        new GridFrame(
            cut.east() - cut.west() + 1,
            cut.south() - cut.north() + 1,
            f.westM() + cut.west() * f.cellM(),
            f.northM() - cut.north() * f.cellM(),
            f.cellM());
    float[] z = new float[part.size()];
    for (int row = 0; row < part.rows(); row++) {
      System.arraycopy(
          whole.z(),
          (cut.north() + row) * f.cols() + cut.west(),
          z,
          row * part.cols(),
          part.cols());
    }
    return new ElevationGrid(part, z);
  }

  /** The site. */
  public Site site() {
    return site;
  }

  /** The part of the elevations that is used. */
  public ElevationGrid ground() {
    return ground;
  }

  /** Where that part lies. */
  public GridFrame frame() {
    return ground.frame();
  }

  /** How to search. */
  public RouteSettings settings() {
    return settings;
  }

  /** What was assumed about where a trench may go. */
  public List<Assumption> assumptions() {
    return List.copyOf(rules.assumptions());
  }

  /** What was odd, in words. */
  public List<String> warnings() {
    return List.copyOf(rules.warnings());
  }

  /** Whether an open trench may be dug at a cell's centre. */
  public boolean open(int cell) {
    return graph.open[cell];
  }

  /** Where a collector may lie inside the lot, slabs included; empty without a lot. */
  public Optional<Geometry> permitted() {
    return Optional.ofNullable(rules.permitted());
  }

  /** Whether the line may be built as far as its plan goes. */
  public boolean permits(List<Coordinate> line) {
    return whyNot(line).isEmpty();
  }

  /** The first thing that forbids the line in plan, as a sentence; empty where nothing does. */
  public String whyNot(List<Coordinate> line) {
    if (line.size() < 2) {
      return "a line needs two points";
    }
    GroundLine profile = sampler.along(line);
    if (profile == null) {
      return "the line leaves the known ground";
    }
    double station = 0;
    for (int i = 1; i < line.size(); i++) {
      Coordinate a = line.get(i - 1);
      Coordinate b = line.get(i);
      String fault = rules.fault(a.x, a.y, b.x, b.y);
      boolean back = i > 1 && rules.ring(a.x, a.y) > rules.ring(b.x, b.y);
      if (fault != null || back) {
        return sentence(fault == null ? "the property line, crossed back" : fault, station, a, b);
      }
      if (i > 1 && slabAt(a)) {
        return String.format(
            Locale.ROOT,
            "at station %.1f m it bends under a slab: move the bend %.2f m to be off it",
            station,
            offSlabM(a));
      }
      station += a.distance(b);
    }
    if (profile.boredM() > settings.maxBoreM() + 1e-6) {
      return String.format(
          Locale.ROOT,
          "a bore of %.1f m is longer than the %.1f m allowed: cross more squarely, or allow as"
              + " much (bore-max-length)",
          profile.boredM(),
          settings.maxBoreM());
    }
    return "";
  }

  /** How far in metres a point under slabs is from the edge of the one that it is deepest in. */
  private double offSlabM(Coordinate p) {
    Point at = new GeometryFactory().createPoint(p);
    double off =
        site.crossings().stream()
            .filter(slab -> slab.outline().contains(at))
            .mapToDouble(slab -> slab.outline().getBoundary().distance(at))
            .max()
            .orElse(0);
    return PlanLine.centimetresUp(off);
  }

  private boolean slabAt(Coordinate p) {
    return rules.zones().stream()
        .anyMatch(z -> z.span() == Station.Span.BORED && z.area().contains(p.x, p.y));
  }

  private static String sentence(String what, double station, Coordinate a, Coordinate b) {
    return String.format(
        Locale.ROOT,
        "between stations %.1f and %.1f m it meets %s",
        station,
        station + a.distance(b),
        what);
  }

  /** The ground along a line, or empty where any of it is not known. */
  public Optional<GroundLine> line(List<Coordinate> line) {
    return Optional.ofNullable(sampler.along(line));
  }

  /**
   * A stretch that passes something.
   *
   * @param what what it passes, in words
   * @param fromM station in metres where it begins
   * @param toM station in metres where it ends
   * @param span how it is built
   */
  public record Crossed(String what, double fromM, double toM, Station.Span span) {}

  /** What a line passes under or through, by station. */
  public List<Crossed> crossed(List<Coordinate> line) {
    List<Crossed> crossed = new ArrayList<>();
    for (Zone zone : rules.zones()) {
      if (zone.name().isEmpty()) {
        continue;
      }
      double station = 0;
      Crossed open = null;
      for (int i = 1; i < line.size(); i++) {
        Coordinate a = line.get(i - 1);
        Coordinate b = line.get(i);
        double length = a.distance(b);
        double[] parts = zone.area().inside(a.x, a.y, b.x, b.y);
        for (int p = 0; p < parts.length; p += 2) {
          double from = station + parts[p] * length;
          double to = station + parts[p + 1] * length;
          if (open != null && from - open.toM() < 1e-6) {
            open = new Crossed(zone.name(), open.fromM(), to, zone.span());
          } else {
            if (open != null) {
              crossed.add(open);
            }
            open = new Crossed(zone.name(), from, to, zone.span());
          }
        }
        station += length;
      }
      if (open != null) {
        crossed.add(open);
      }
    }
    crossed.removeIf(c -> c.toM() - c.fromM() < 0.01); // a corner brushed, not crossed
    crossed.sort(java.util.Comparator.comparingDouble(Crossed::fromM));
    return crossed;
  }

  /** The gravity reach of outlets, found once. */
  GravityReach reach(List<OutletTarget> outlets, Bounds bounds) {
    return reaches.computeIfAbsent(
        new ReachKey(outlets, bounds), key -> GravityReachFinder.find(this, outlets, bounds));
  }

  StepGraph graph() {
    return graph;
  }

  StepCover stepCover() {
    return stepCover;
  }

  TrenchRules rules() {
    return rules;
  }
}
