package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.util.LineStringExtracter;
import org.locationtech.jts.simplify.DouglasPeuckerSimplifier;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Site;
import org.yardfall.water.FlowField;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;

/**
 * Draws the low-spot drain: along the swale through the lot's low spots, from the deepest point of
 * one over its spill and down the flow path to the next. A low spot that stands alone gets a short
 * line through its deepest point, along the way its water would leave.
 */
final class LowSpotCollector {

  /** Least depth in metres of a low spot worth a drain. */
  static final double LEAST_DEPTH_M = 0.03;

  /** Least area in m² of a low spot worth a drain. */
  static final double LEAST_AREA_M2 = 2;

  /** Low spots farther apart than this along the swale, in metres, are not on one line. */
  static final double LINK_M = 40;

  /** Greatest length in metres of the line in a low spot that stands alone. */
  static final double ALONE_M = 8;

  private static final double STRAIGHTEN_M = 0.75;

  /** The line in a low spot that stands alone is at least twice as long as this, in metres. */
  private static final double HALF_M = Stubs.LEAST_M / 2;

  /** A floor that is level within this, in metres, is as deep in its middle as anywhere. */
  private static final double LEVEL_M = 0.01;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final SurfaceWater water;
  private final Geometry diggable;
  private double stubsM;

  private LowSpotCollector(SurfaceWater water, Geometry diggable) {
    this.water = water;
    this.diggable = diggable;
  }

  /**
   * The low spots of a site's lot that are worth a drain: those with their deepest point on the
   * lot, deep and wide enough, told apart only where more than one of the low spots inside a larger
   * one is. Doubtful ones are left out.
   */
  static List<LowSpot> worthDraining(Site site, SurfaceWater water) {
    Map<String, LowSpot> byId = new HashMap<>();
    water.lowSpots().forEach(s -> byId.put(s.id(), s));
    Geometry lot = site.lot().orElseThrow().outline();
    return water.lowSpots().stream()
        .filter(s -> !byId.containsKey(s.parentId()))
        .flatMap(s -> parts(s, byId).stream())
        .filter(s -> lot.contains(FACTORY.createPoint(s.deepest())))
        .toList();
  }

  private static List<LowSpot> parts(LowSpot spot, Map<String, LowSpot> byId) {
    List<LowSpot> inside =
        spot.childIds().stream()
            .filter(byId::containsKey)
            .flatMap(id -> parts(byId.get(id), byId).stream())
            .toList();
    boolean worth =
        spot.doubtful().isEmpty()
            && spot.depthM() >= LEAST_DEPTH_M
            && spot.areaM2() >= LEAST_AREA_M2;
    return inside.size() >= 2 || !worth ? inside : List.of(spot);
  }

  /**
   * The low-spot drain of a site's lot.
   *
   * @param lowSpots the low spots worth a drain
   */
  static Collector find(Site site, SurfaceWater water, List<LowSpot> lowSpots) {
    if (lowSpots.isEmpty()) {
      return Collector.none(DrainKind.LOW_SPOT, "not-needed", none(site, water));
    }
    return new LowSpotCollector(water, DiggableArea.of(site, water.ground()).area())
        .through(lowSpots);
  }

  private static String none(Site site, SurfaceWater water) {
    Geometry lot = site.lot().orElseThrow().outline();
    long doubtful =
        water.lowSpots().stream()
            .filter(s -> !s.doubtful().isEmpty())
            .filter(s -> lot.contains(FACTORY.createPoint(s.deepest())))
            .count();
    String why =
        String.format(
            Locale.ROOT,
            "no low spot on the lot is at least %.2f m deep and %.0f m2 wide",
            LEAST_DEPTH_M,
            LEAST_AREA_M2);
    return doubtful == 0
        ? why
        : why + "; " + doubtful + " doubtful ones were left out: shoot their levels first";
  }

  private Collector through(List<LowSpot> lowSpots) {
    Map<LowSpot, List<Coordinate>> links = new HashMap<>();
    Map<LowSpot, LowSpot> next = new HashMap<>();
    for (LowSpot spot : lowSpots) {
      List<Coordinate> path = new ArrayList<>();
      LowSpot reached = trace(spot, lowSpots, path);
      if (reached != null) {
        next.put(spot, reached);
        links.put(spot, path);
      }
    }
    List<LineString> lines = new ArrayList<>();
    List<LowSpot> sources = new ArrayList<>(lowSpots);
    sources.removeAll(next.values());
    // The longest chain first; a later chain ends where it meets an earlier one.
    sources.sort(Comparator.comparingDouble(s -> -chainM(s, next, links)));
    List<LowSpot> done = new ArrayList<>();
    List<String> left = new ArrayList<>();
    for (LowSpot source : sources) {
      List<LineString> drawn = chain(source, next, links, done);
      if (drawn.isEmpty()) {
        left.add(source.id());
      }
      lines.addAll(drawn);
    }
    return describe(lowSpots, lines, left, stubsM);
  }

  /** Follows the water from a low spot to the next one; null if it meets none within reach. */
  private LowSpot trace(LowSpot from, List<LowSpot> lowSpots, List<Coordinate> path) {
    FlowField flow = water.flow();
    GridFrame frame = flow.frame();
    int cell = frame.index(from.deepest().getX(), from.deepest().getY());
    double lengthM = 0;
    boolean left = false;
    path.add(from.deepest());
    while (cell >= 0 && lengthM <= LINK_M) {
      Coordinate here = frame.centre(cell);
      // Under standing water the way is straight; the flow path counts from the spill on.
      left |= !holds(from, here);
      if (left) {
        for (LowSpot spot : lowSpots) {
          if (!spot.id().equals(from.id()) && holds(spot, here)) {
            path.add(spot.deepest());
            return spot;
          }
        }
        lengthM += here.distance(path.get(path.size() - 1));
        path.add(here);
      }
      cell = flow.receiver(cell);
    }
    return null;
  }

  private static boolean holds(LowSpot spot, Coordinate p) {
    return spot.outline().getEnvelopeInternal().contains(p)
        && spot.outline().intersects(FACTORY.createPoint(p));
  }

  private static double chainM(
      LowSpot from, Map<LowSpot, LowSpot> next, Map<LowSpot, List<Coordinate>> links) {
    double m = 0;
    List<LowSpot> seen = new ArrayList<>();
    for (LowSpot s = from; next.containsKey(s) && !seen.contains(s); s = next.get(s)) {
      seen.add(s);
      m += line(links.get(s)).getLength();
    }
    return m;
  }

  private List<LineString> chain(
      LowSpot source,
      Map<LowSpot, LowSpot> next,
      Map<LowSpot, List<Coordinate>> links,
      List<LowSpot> done) {
    if (!next.containsKey(source)) {
      done.add(source);
      return clipped(alone(source));
    }
    List<Coordinate> path = new ArrayList<>();
    LowSpot at = source;
    while (at != null && !done.contains(at)) {
      done.add(at);
      List<Coordinate> link = links.get(at);
      if (link != null) {
        path.addAll(path.isEmpty() ? link : link.subList(1, link.size()));
      }
      at = next.get(at);
    }
    return clipped(line(path));
  }

  private static LineString line(List<Coordinate> path) {
    return FACTORY.createLineString(path.toArray(Coordinate[]::new));
  }

  /** The swale in straight stretches, as far as it can be dug. */
  private List<LineString> clipped(LineString line) {
    LineString straight = (LineString) DouglasPeuckerSimplifier.simplify(line, STRAIGHTEN_M);
    if (!diggable.covers(straight) && diggable.covers(line)) {
      straight = line;
    }
    List<LineString> parts = new ArrayList<>();
    for (Object part : LineStringExtracter.getLines(straight.intersection(diggable))) {
      LineString piece = (LineString) part;
      if (piece.getLength() >= Stubs.LEAST_M - 1e-6) {
        parts.add(piece);
      } else {
        stubsM += piece.getLength();
      }
    }
    parts.sort((a, b) -> Double.compare(b.getLength(), a.getLength()));
    return parts;
  }

  /** Through the deepest point, along the bearing of the spill, within the low spot's outline. */
  private LineString alone(LowSpot spot) {
    Coordinate middle = spot.outline().getInteriorPoint().getCoordinate();
    boolean level =
        water.ground().bilinear(middle.getX(), middle.getY()) <= spot.bottomM() + LEVEL_M;
    Coordinate d = level ? middle : spot.deepest();
    double dx = spot.spillPoint().getX() - d.getX();
    double dy = spot.spillPoint().getY() - d.getY();
    double m = Math.hypot(dx, dy);
    double half = Math.min(ALONE_M / 2, Math.max(HALF_M, Math.sqrt(spot.areaM2()) / 2));
    if (m == 0) {
      dx = 1;
      m = 1;
    }
    return FACTORY.createLineString(
        new Coordinate[] {
          new Coordinate(d.getX() - dx / m * half, d.getY() - dy / m * half),
          new Coordinate(d.getX() + dx / m * half, d.getY() + dy / m * half)
        });
  }

  private static Collector describe(
      List<LowSpot> lowSpots, List<LineString> lines, List<String> left, double stubsM) {
    if (lines.isEmpty()) {
      return Collector.none(
          DrainKind.LOW_SPOT,
          "no-room",
          "the low spots lie where no trench may be dug: on the setback, by the house or an"
              + " obstacle");
    }
    List<String> parts = new ArrayList<>();
    double contributingM2 = 0;
    for (LowSpot s : lowSpots) {
      parts.add(
          String.format(
              Locale.ROOT,
              "%s (up to %.2f m deep, %.1f m³ where it is full; runoff of %s)",
              s.id(),
              s.depthM(),
              s.volumeM3(),
              Figures.area(s.contributingM2())));
      contributingM2 += s.contributingM2();
    }
    String why =
        "water gathers in "
            + String.join("; ", parts)
            + (left.isEmpty() ? "" : "; out of a trench's reach: " + String.join(", ", left))
            + Stubs.words(stubsM);
    return new Collector(
        DrainKind.LOW_SPOT,
        lines,
        why,
        lowSpots.stream().map(LowSpot::id).filter(id -> !left.contains(id)).toList(),
        contributingM2);
  }
}
