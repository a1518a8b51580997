package org.yardfall.route;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.distance.DistanceOp;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.Site;
import org.yardfall.water.LowSpot;

/**
 * Finds the sides of a lot where water arrives from beyond the property line, or stands along it,
 * and draws the perimeter drain there: the lot less its setback, corners mitred as they are dug.
 * Short dry gaps are bridged; a house too close to the line interrupts the drain.
 */
final class PerimeterCollector {

  /** A dry gap up to this long, in metres, is dug as well: one trench is cheaper than two. */
  static final double BRIDGE_M = 5;

  /** The drain reaches this far in metres beyond the water on each side. */
  static final double OVERLAP_M = 1;

  /** Lines shorter than this, in metres, are not worth a drain. */
  static final double LEAST_M = 3;

  /** An inflow with less area than this, in m², or less than 2 % of all that arrives, is let be. */
  static final double LEAST_INFLOW_M2 = 10;

  static final double LEAST_SHARE = 0.02;

  /** Less than this share of an inflow's ground beyond the neighbour is not worth a word. */
  private static final double SLIGHT = 0.02;

  /** How far in metres a stretch may lie from the property line as drawn. */
  private static final double STRETCH_TOLERANCE_M = 0.3;

  private final Site site;
  private final ElevationGrid ground;

  private PerimeterCollector(Site site, ElevationGrid ground) {
    this.site = site;
    this.ground = ground;
  }

  /**
   * The perimeter drain of a site's lot.
   *
   * @param ground the bare ground
   * @param flows where water crosses the property line
   * @param lowSpots the low spots worth a drain
   */
  static Collector find(
      Site site, ElevationGrid ground, List<BoundaryFlow> flows, List<LowSpot> lowSpots) {
    return new PerimeterCollector(site, ground).find(flows, lowSpots);
  }

  private Collector find(List<BoundaryFlow> flows, List<LowSpot> lowSpots) {
    Polygon lot = site.lot().orElseThrow().outline();
    List<BoundaryFlow> entering = worthTaking(flows);
    DiggableArea area = DiggableArea.of(site, ground);
    List<Polygon> rings = area.insetRings();
    if (rings.isEmpty()) {
      return Collector.none(
          DrainKind.PERIMETER, "no-room", "the lot is narrower than twice the setback everywhere");
    }
    Geometry keepOut = area.keepOut(Optional.empty());
    List<LineString> lines = new ArrayList<>();
    Set<LowSpot> along = new LinkedHashSet<>();
    double lostM = 0;
    double stubsM = 0;
    for (Polygon polygon : rings) {
      DrainRing ring = new DrainRing(polygon.getExteriorRing());
      ring.block(keepOut);
      ring.want(p -> arrives(entering, lot, p));
      for (LowSpot spot : lowSpots) {
        if (spot.outline().intersects(polygon.getExteriorRing())) {
          along.add(spot);
          ring.want(p -> spot.outline().intersects(lot.getFactory().createPoint(p)));
        }
      }
      lines.addAll(
          ring.runs(BRIDGE_M, OVERLAP_M, LEAST_M, p -> ground.bilinear(p.getX(), p.getY())));
      lostM += ring.lostM();
      stubsM += ring.stubsM();
    }
    lines.sort((a, b) -> Double.compare(b.getLength(), a.getLength()));
    return describe(entering, along, lines, lostM, stubsM);
  }

  private static List<BoundaryFlow> worthTaking(List<BoundaryFlow> flows) {
    double all =
        flows.stream().filter(BoundaryFlow::enters).mapToDouble(BoundaryFlow::areaM2).sum();
    double least = Math.max(LEAST_INFLOW_M2, LEAST_SHARE * all);
    return flows.stream().filter(f -> f.enters() && f.areaM2() >= least).toList();
  }

  /** Whether the nearest piece of the property line is one that water crosses inward. */
  private static boolean arrives(List<BoundaryFlow> entering, Polygon lot, Coordinate p) {
    if (entering.isEmpty()) {
      return false;
    }
    Point here = lot.getFactory().createPoint(p);
    Point onLine =
        lot.getFactory().createPoint(DistanceOp.nearestPoints(lot.getExteriorRing(), here)[0]);
    return entering.stream().anyMatch(f -> f.stretch().distance(onLine) <= STRETCH_TOLERANCE_M);
  }

  private static Collector describe(
      List<BoundaryFlow> entering,
      Set<LowSpot> along,
      List<LineString> lines,
      double lostM,
      double stubsM) {
    if (entering.isEmpty() && along.isEmpty()) {
      return Collector.none(
          DrainKind.PERIMETER,
          "not-needed",
          String.format(
              Locale.ROOT,
              "no water worth a drain crosses the property line inward (%.0f m2 or more), and none"
                  + " stands along it",
              LEAST_INFLOW_M2));
    }
    if (lines.isEmpty()) {
      return Collector.none(
          DrainKind.PERIMETER,
          "no-room",
          "water arrives at the property line, but buildings or obstacles leave no room for a"
              + " trench there");
    }
    List<String> serves = new ArrayList<>();
    entering.forEach(f -> serves.add(f.id()));
    along.forEach(s -> serves.add(s.id()));
    // What enters mostly drains to the low spots along the line: counted once, not twice.
    double servedM2 =
        Math.max(
            entering.stream().mapToDouble(BoundaryFlow::areaM2).sum(),
            along.stream().mapToDouble(LowSpot::contributingM2).sum());
    return new Collector(
        DrainKind.PERIMETER,
        lines,
        why(entering, along, lostM) + Stubs.words(stubsM),
        serves,
        servedM2);
  }

  private static String why(List<BoundaryFlow> entering, Set<LowSpot> along, double lostM) {
    StringBuilder why = new StringBuilder();
    if (!entering.isEmpty()) {
      why.append("water arrives over the property line, the runoff of ")
          .append(String.join(", ", arriving(entering)));
    }
    if (!along.isEmpty()) {
      why.append(why.length() == 0 ? "" : "; ")
          .append("water stands along the line: ")
          .append(
              String.join(
                  ", ",
                  along.stream()
                      .map(
                          s -> s.id() + ", to which " + Figures.area(s.contributingM2()) + " drain")
                      .toList()));
    }
    if (lostM >= OVERLAP_M) {
      why.append(
          String.format(
              Locale.ROOT,
              "; %.0f m of the wet side cannot be dug, a building or obstacle being too close",
              lostM));
    }
    return why.toString();
  }

  /** Ground by the parcel across the line, and how much of it is that parcel's own. */
  private static List<String> arriving(List<BoundaryFlow> entering) {
    Map<String, Double> all = new TreeMap<>();
    Map<String, Double> own = new TreeMap<>();
    for (BoundaryFlow flow : entering) {
      all.merge(flow.neighbour(), flow.areaM2(), Double::sum);
      own.merge(flow.neighbour(), flow.ownM2(), Double::sum);
    }
    List<String> parts = new ArrayList<>();
    all.forEach(
        (id, m2) -> {
          double passing = m2 - own.get(id);
          parts.add(
              Figures.area(m2)
                  + " from "
                  + (id.isEmpty() ? "ground in no parcel" : "parcel " + id)
                  + (passing < SLIGHT * m2
                      ? ""
                      : " ("
                          + Figures.area(own.get(id))
                          + " its own, "
                          + Figures.area(passing)
                          + " only passing through it from farther uphill)"));
        });
    return parts;
  }
}
