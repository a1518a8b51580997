package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.densify.Densifier;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/** The part of the audit that holds a line against what lies around it. */
final class PlanAudit {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private static final double ASK_EVERY_M = 0.25;

  /** A bore whose grade changes by more is not straight. */
  private static final double GRADE_SLACK = 1e-6;

  private final Site site;
  private final ElevationGrid ground;
  private final RouteSettings settings;
  private final double planSlackM;
  private final double levelSlackM;
  private final double roundingM;

  /**
   * An audit.
   *
   * @param planSlackM slack of lengths in plan in metres
   * @param levelSlackM slack of elevations in metres
   * @param roundingM how far coordinates and elevations may be off in metres; 0 but for files
   */
  PlanAudit(
      Site site,
      ElevationGrid ground,
      RouteSettings settings,
      double planSlackM,
      double levelSlackM,
      double roundingM) {
    this.site = site;
    this.ground = ground;
    this.settings = settings;
    this.planSlackM = planSlackM;
    this.levelSlackM = levelSlackM;
    this.roundingM = roundingM;
  }

  void check(AuditedLine line, List<Audit.Check> checks) {
    site.lot().ifPresent(lot -> setback(line, lot, checks));
    buildings(line, checks);
    Tally parcels = Tally.atMost("parcel", 0, "m", planSlackM);
    if (site.lot().isPresent()) {
      Geometry admitted = easements();
      for (Parcel parcel : site.neighbours()) {
        Geometry within = line.plan.intersection(parcel.outline());
        parcels.see((admitted == null ? within : within.difference(admitted)).getLength(), 0);
      }
      checks.add(parcels.check());
    }
    Tally clear = Tally.atLeast("clearance", 0, "m", planSlackM);
    Tally under = Tally.atLeast("clearance-under", 0, "m", levelSlackM);
    for (Obstacle obstacle : site.obstacles()) {
      obstacle(line, obstacle, clear, under);
      if (obstacle.passage() == Obstacle.Passage.BORE) {
        bored(line, obstacle, checks);
      }
    }
    stayInside(line, checks);
    checks.add(clear.check());
    if (under.met()) {
      checks.add(under.check());
    }
    for (Crossing slab : site.crossings()) {
      slab(line, slab, checks);
    }
  }

  private Geometry easements() {
    Geometry all = null;
    for (Obstacle o : site.obstacles()) {
      if (o.kind() == Obstacle.Kind.EASEMENT && o.passage() != Obstacle.Passage.NONE) {
        all = all == null ? o.shape() : all.union(o.shape());
      }
    }
    return all == null ? null : all.buffer(planSlackM);
  }

  /** Inside the setback until the last way out, which is short and ends the stay in the lot. */
  private void setback(AuditedLine line, Parcel lot, List<Audit.Check> checks) {
    Polygon outline = lot.outline();
    Geometry edge = outline.getBoundary();
    IndexedPointInAreaLocator where = new IndexedPointInAreaLocator(outline);
    double setback = site.drain().setbackM();
    double leftStripAt = Double.NaN;
    double leftLotAt = Double.NaN;
    boolean back = false;
    double strip = 0;
    for (AuditedLine.Place p : line.places) {
      boolean inside = where.locate(p.at()) != Location.EXTERIOR;
      boolean clear = inside && edge.distance(point(p)) >= setback - planSlackM;
      if (Double.isNaN(leftStripAt)) {
        leftStripAt = clear ? Double.NaN : p.stationM();
      } else {
        back |= clear;
      }
      if (!inside && Double.isNaN(leftLotAt)) {
        leftLotAt = p.stationM();
      }
      back |= inside && !Double.isNaN(leftLotAt) && edge.distance(point(p)) > planSlackM;
      if (!Double.isNaN(leftStripAt)) {
        strip = (Double.isNaN(leftLotAt) ? p.stationM() : leftLotAt) - leftStripAt;
      }
    }
    Tally once = Tally.atMost("setback", 2 * setback, "m", 0.15 + planSlackM);
    once.see(back ? Double.NaN : strip, Double.isNaN(leftStripAt) ? 0 : leftStripAt);
    checks.add(once.check());
  }

  private void buildings(AuditedLine line, List<Audit.Check> checks) {
    Tally tally = Tally.atLeast("building", site.drain().fromBuildingM(), "m", planSlackM);
    for (Building building : site.buildings()) {
      tally.see(line.plan.distance(building.outline()), 0);
    }
    checks.add(tally.check());
  }

  private void obstacle(AuditedLine line, Obstacle o, Tally clear, Tally under) {
    boolean entered = o.kind() == Obstacle.Kind.EASEMENT || o.kind() == Obstacle.Kind.ROCK;
    if (entered && o.passage() != Obstacle.Passage.NONE) {
      return;
    }
    double distance = line.plan.distance(o.shape());
    if (o.passage() == Obstacle.Passage.NONE && o.sided()) {
      sided(line, o, clear);
    } else if (o.passage() == Obstacle.Passage.NONE) {
      clear.see(distance - o.clearanceM(), 0);
    } else if (distance <= o.clearanceM() && o.passage() != Obstacle.Passage.SOLID_PIPE) {
      for (AuditedLine.Place p : line.places) {
        if (o.shape().distance(point(p)) <= o.clearanceM()) {
          under.see(ceiling(o, p) - p.invertM() - outside(p), p.stationM());
        }
      }
    }
  }

  /** Each place keeps the distance of its side: uphill where it is higher than all of the thing. */
  private void sided(AuditedLine line, Obstacle o, Tally clear) {
    double level = Double.NEGATIVE_INFINITY;
    for (Coordinate c : Densifier.densify(o.shape(), ASK_EVERY_M).getCoordinates()) {
      level = Math.max(level, AuditedLine.groundAt(ground, c));
    }
    double uphill = o.uphillM().orElse(o.clearanceM());
    double downhill = o.downhillM().orElse(o.clearanceM());
    for (AuditedLine.Place p : line.places) {
      double needed = p.groundM() > level ? uphill : downhill;
      clear.see(o.shape().distance(point(p)) - needed, p.stationM());
    }
  }

  /** Within what is to be bored under: bored, straight and short. */
  private void bored(AuditedLine line, Obstacle o, List<Audit.Check> checks) {
    double within = o.clearanceM() - planSlackM;
    if (line.plan.distance(o.shape()) > within) {
      return;
    }
    String what = "bore " + o.id().toLowerCase(Locale.ROOT);
    Tally open = Tally.atMost(what + " open trench", 0, "", 0);
    for (AuditedLine.Place p : line.places) {
      if (o.shape().distance(point(p)) <= within) {
        open.see(p.span() == Station.Span.BORED ? 0 : 1, p.stationM());
      }
    }
    Tally bends = Tally.atMost(what + " bends", 0, "", 0);
    List<Coordinate> before = line.vertices.subList(0, line.vertices.size() - 1);
    bends.see(
        (double)
            before.stream()
                .filter(v -> o.shape().distance(FACTORY.createPoint(v)) < within)
                .count(),
        0);
    Tally length = Tally.atMost(what + " length", settings.maxBoreM(), "m", planSlackM);
    Geometry stretch = line.plan.intersection(o.shape().buffer(Math.max(0, within)));
    for (int i = 0; i < stretch.getNumGeometries(); i++) {
      length.see(stretch.getGeometryN(i).getLength(), 0);
    }
    checks.add(open.check());
    checks.add(bends.check());
    checks.add(length.check());
  }

  /** Beyond the lot nothing of the line is outside the easements that it must stay in. */
  private void stayInside(AuditedLine line, List<Audit.Check> checks) {
    List<Geometry> stay =
        new ArrayList<>(
            site.obstacles().stream().filter(Obstacle::stayInside).map(Obstacle::shape).toList());
    if (stay.isEmpty()) {
      return;
    }
    site.lot().ifPresent(lot -> stay.add(lot.outline()));
    Tally outside = Tally.atMost("stay-inside", 0, "m", planSlackM);
    outside.see(line.plan.difference(UnaryUnionOp.union(stay).buffer(planSlackM)).getLength(), 0);
    checks.add(outside.check());
  }

  private double outside(AuditedLine.Place p) {
    return p.span() == Station.Span.BORED
        ? settings.crossingOutsideM()
        : site.drain().pipeOutsideM();
  }

  private static double ceiling(Obstacle o, AuditedLine.Place p) {
    double bottom =
        o.bottomM().orElse(p.groundM() - (o.kind() == Obstacle.Kind.SPRINKLER ? 0.30 : 0.60));
    return bottom - o.verticalClearanceM();
  }

  /** Under a slab: bored, straight in plan and in fall, short, and below it, base and earth. */
  private void slab(AuditedLine line, Crossing slab, List<Audit.Check> checks) {
    Geometry core = slab.outline().buffer(-planSlackM);
    Geometry within = line.plan.intersection(core);
    if (within.getLength() <= planSlackM) {
      return;
    }
    String what = "bore " + slab.id().toLowerCase(Locale.ROOT);
    Tally length = Tally.atMost(what + " length", settings.maxBoreM(), "m", planSlackM);
    for (int i = 0; i < within.getNumGeometries(); i++) {
      length.see(within.getGeometryN(i).getLength(), 0);
    }
    Tally straight = Tally.atMost(what + " bends", 0, "", 0);
    List<Coordinate> before = line.vertices.subList(0, line.vertices.size() - 1);
    long bends = before.stream().filter(v -> core.contains(FACTORY.createPoint(v))).count();
    straight.see((double) bends, 0);
    double below = slab.thicknessM() + slab.baseM() + slab.coverM();
    Tally top = Tally.atLeast(what + " top", below, "m", levelSlackM);
    Tally open = Tally.atMost(what + " open trench", 0, "", 0);
    IndexedPointInAreaLocator where = new IndexedPointInAreaLocator(core);
    for (AuditedLine.Place p : line.places) {
      if (where.locate(p.at()) == Location.INTERIOR) {
        top.see(p.groundM() - p.invertM() - settings.crossingOutsideM(), p.stationM());
        open.see(p.span() == Station.Span.BORED ? 0 : 1, p.stationM());
      }
    }
    Tally belly = Tally.atMost(what + " grade change", 0, "m/m", GRADE_SLACK);
    double grade = Double.NaN;
    double over = 0;
    for (int i = 1; i < line.stations.size(); i++) {
      Station a = line.stations.get(i - 1);
      Station b = line.stations.get(i);
      double middle = (a.stationM() + b.stationM()) / 2;
      double run = b.stationM() - a.stationM();
      if (run > 0.05 && where.locate(line.at(middle)) == Location.INTERIOR) {
        double now = (a.invertM() - b.invertM()) / run;
        if (!Double.isNaN(grade)) {
          // what rounded levels, and rounded lengths, can feign at most
          double feigned = 2 * roundingM * (1 + Math.abs(now)) * (1 / run + 1 / over);
          belly.see(Math.max(0, Math.abs(now - grade) - feigned), a.stationM());
        }
        grade = now;
        over = run;
      } else if (run > 0.05) {
        grade = Double.NaN;
      }
    }
    checks.add(length.check());
    checks.add(straight.check());
    checks.add(open.check());
    checks.add(top.check());
    if (belly.met()) {
      checks.add(belly.check());
    }
  }

  private static Point point(AuditedLine.Place p) {
    return FACTORY.createPoint(p.at());
  }
}
