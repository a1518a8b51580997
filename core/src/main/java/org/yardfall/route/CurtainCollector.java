package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.locationtech.jts.algorithm.Angle;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineSegment;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Building;
import org.yardfall.site.Site;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;

/**
 * Finds the sides of the house that surface water reaches and draws the curtain drain there: the
 * footprint offset outward, as an L, a U or a ring with its break at the highest ground.
 *
 * <p>A side of the ring is reached by water when, over the whole side, it takes at least {@link
 * #SIDE_M2_PER_M} of ground per metre, or one flow of at least {@link #FLOW_M2}, or where water
 * stands against it. Whole sides are drained, since that is how they are dug.
 */
final class CurtainCollector {

  /** Area in m² per metre of a side above which water reaches that side. */
  static final double SIDE_M2_PER_M = 3;

  /** Area in m² of a single flow that makes a side need a drain. */
  static final double FLOW_M2 = 25;

  /** A dry side up to this long, in metres, between wet ones is dug as well. */
  static final double BRIDGE_M = 5;

  private static final double OVERLAP_M = 1;
  private static final double LEAST_M = 2;

  /** Bends of the ring sharper than this part one side from the next, in degrees. */
  private static final double CORNER_DEG = 30;

  private final Site site;
  private final SurfaceWater water;
  private final ElevationGrid ground;

  private CurtainCollector(Site site, SurfaceWater water, ElevationGrid ground) {
    this.site = site;
    this.water = water;
    this.ground = ground;
  }

  /** The house of a site's lot: its largest building of which more than half stands on the lot. */
  static Optional<Building> house(Site site) {
    Polygon lot = site.lot().orElseThrow().outline();
    return site.buildings().stream()
        .filter(b -> b.outline().intersection(lot).getArea() > b.outline().getArea() / 2)
        .max(Comparator.comparingDouble(b -> b.outline().getArea()));
  }

  /**
   * The curtain drain of a site's lot.
   *
   * @param ground the bare ground
   * @param lowSpots the low spots worth a drain
   * @param distanceM distance in metres of the drain from the house, at least {@code fromBuildingM}
   */
  static Collector find(
      Site site,
      ElevationGrid ground,
      SurfaceWater water,
      List<LowSpot> lowSpots,
      double distanceM) {
    return house(site)
        .map(h -> new CurtainCollector(site, water, ground).round(h, lowSpots, distanceM))
        .orElseGet(
            () ->
                Collector.none(
                    DrainKind.CURTAIN,
                    "no-building",
                    "there is no building on the lot to protect"));
  }

  private Collector round(Building house, List<LowSpot> lowSpots, double distanceM) {
    DiggableArea area = DiggableArea.of(site, ground);
    Polygon polygon = area.ringRound(house, distanceM);
    List<Side> sides = sides(polygon);
    // Nearer than a cell to the wall the flow has turned along it already and crosses no line.
    double measuredM = Math.max(distanceM, ground.frame().cellM());
    double arrivingM2 =
        measureArrivals(measuredM > distanceM ? area.ringRound(house, measuredM) : polygon, sides);
    List<String> serves = new ArrayList<>();
    for (LowSpot spot : lowSpots) {
      if (spot.outline().intersects(polygon)) {
        boolean touches = false;
        for (Side side : sides) {
          if (spot.outline().intersects(side.line)) {
            side.stands = true;
            touches = true;
          }
        }
        if (touches) {
          serves.add(spot.id());
        }
      }
    }
    List<Side> wet = sides.stream().filter(Side::wet).toList();
    if (wet.isEmpty()) {
      return Collector.none(
          DrainKind.CURTAIN,
          "not-needed",
          String.format(
              Locale.ROOT,
              "surface water reaches no side of the house: %.0f m2 in all arrives within %.2f m of"
                  + " it, less than %.0f m2 per metre on each side",
              arrivingM2,
              measuredM,
              SIDE_M2_PER_M));
    }
    DrainRing ring = new DrainRing(polygon.getExteriorRing());
    Geometry keepOut = area.keepOut(Optional.of(house));
    ring.block(keepOut);
    ring.keepWithin(area.insideSetback());
    ring.want(p -> wet.stream().anyMatch(s -> s.holds(p)));
    List<LineString> lines =
        ring.runs(BRIDGE_M, OVERLAP_M, LEAST_M, p -> ground.bilinear(p.getX(), p.getY()));
    if (lines.isEmpty()) {
      return Collector.none(
          DrainKind.CURTAIN,
          "no-room",
          "water reaches the house, but the property line or obstacles leave no room for a trench"
              + " there");
    }
    double servedM2 = wet.stream().mapToDouble(s -> s.arrivingM2).sum();
    return new Collector(
        DrainKind.CURTAIN, lines, why(house, wet, sides.size(), servedM2, ring), serves, servedM2);
  }

  private static String why(
      Building house, List<Side> wet, int sides, double servedM2, DrainRing ring) {
    boolean runs = Math.round(servedM2) > 0;
    StringBuilder why =
        new StringBuilder(
            String.format(
                Locale.ROOT,
                "%s reaches %d of %d sides of building %s (toward grid %s)",
                runs ? "the runoff of " + Figures.area(servedM2) : "standing water",
                wet.size(),
                sides,
                house.id(),
                String.join(", ", wet.stream().map(Side::facing).distinct().toList())));
    if (runs && wet.stream().anyMatch(s -> s.stands)) {
      why.append("; water stands against it");
    }
    if (ring.lostM() >= OVERLAP_M) {
      why.append(
          String.format(
              Locale.ROOT,
              "; %.0f m of the wet sides cannot be dug, the line or an obstacle being too close",
              ring.lostM()));
    }
    return why.append(Stubs.words(ring.stubsM())).toString();
  }

  /** Sums the area that flows inward over a ring at each side; returns the sum over all. */
  private double measureArrivals(Polygon polygon, List<Side> sides) {
    IndexedPointInAreaLocator inside = new IndexedPointInAreaLocator(polygon);
    GridFrame frame = water.flow().frame();
    Envelope reach = polygon.getEnvelopeInternal();
    reach.expandBy(frame.cellM());
    int lastCol = Math.min(frame.cols() - 1, frame.col(reach.getMaxX()));
    int lastRow = Math.min(frame.rows() - 1, frame.row(reach.getMinY()));
    double sum = 0;
    for (int row = Math.max(0, frame.row(reach.getMaxY())); row <= lastRow; row++) {
      for (int col = Math.max(0, frame.col(reach.getMinX())); col <= lastCol; col++) {
        int cell = row * frame.cols() + col;
        int next = water.flow().receiver(cell);
        if (next < 0) {
          continue;
        }
        Coordinate from = new Coordinate(frame.x(col), frame.y(row));
        Coordinate to = frame.centre(next);
        if (inside.locate(from) == Location.EXTERIOR && inside.locate(to) != Location.EXTERIOR) {
          Side side = crossed(sides, new LineSegment(from, to));
          side.arrivingM2 += water.areaM2()[cell];
          side.greatestM2 = Math.max(side.greatestM2, water.areaM2()[cell]);
          sum += water.areaM2()[cell];
        }
      }
    }
    return sum;
  }

  private static Side crossed(List<Side> sides, LineSegment step) {
    return sides.stream().min(Comparator.comparingDouble(s -> s.distance(step))).orElseThrow();
  }

  /** The ring's sides from corner to corner, slight bends passed over. */
  private static List<Side> sides(Polygon polygon) {
    Coordinate[] ring = polygon.getExteriorRing().getCoordinates();
    int n = ring.length - 1;
    int first = 0;
    while (first < n - 1 && !corner(ring, first, n)) {
      first++;
    }
    List<Side> sides = new ArrayList<>();
    List<Coordinate> side = new ArrayList<>(List.of(ring[first]));
    for (int k = 1; k <= n; k++) {
      int i = (first + k) % n;
      side.add(ring[i]);
      if (k == n || corner(ring, i, n)) {
        sides.add(new Side(polygon.getFactory().createLineString(side.toArray(Coordinate[]::new))));
        side = new ArrayList<>(List.of(ring[i]));
      }
    }
    return sides;
  }

  private static boolean corner(Coordinate[] ring, int i, int n) {
    double turn =
        Angle.diff(
            Angle.angle(ring[(i + n - 1) % n], ring[i]), Angle.angle(ring[i], ring[(i + 1) % n]));
    return Math.toDegrees(turn) > CORNER_DEG;
  }

  private static final class Side {
    private final LineString line;
    private double arrivingM2;
    private double greatestM2;
    private boolean stands;

    Side(LineString line) {
      this.line = line;
    }

    boolean wet() {
      return stands
          || greatestM2 >= FLOW_M2
          || arrivingM2 >= SIDE_M2_PER_M * Math.max(1, line.getLength());
    }

    boolean holds(Coordinate p) {
      return line.distance(line.getFactory().createPoint(p)) < 1e-6;
    }

    double distance(LineSegment step) {
      double least = Double.POSITIVE_INFINITY;
      for (int i = 1; i < line.getNumPoints(); i++) {
        least =
            Math.min(
                least,
                new LineSegment(line.getCoordinateN(i - 1), line.getCoordinateN(i)).distance(step));
      }
      return least;
    }

    /** The compass point that the side faces; the ring's inside lies to its right. */
    String facing() {
      Coordinate a = line.getCoordinateN(0);
      Coordinate b = line.getCoordinateN(line.getNumPoints() - 1);
      double outwardDeg = 450 - Math.toDegrees(Angle.angle(a, b)) - 90;
      String[] points = {
        "north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"
      };
      return points[Math.floorMod((int) Math.round(outwardDeg / 45), 8)];
    }
  }
}
