package org.yardfall.route;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import org.locationtech.jts.densify.Densifier;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Assumption;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Obstacle.Kind;
import org.yardfall.site.Obstacle.Passage;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/**
 * Where in plan a trench may go, decided from exact geometry, never from cells.
 *
 * <p>Inside the lot the trench's centre line keeps the setback. It leaves the lot at most once,
 * outward, no further than 60° off the shortest way through the setback strip, and does not come
 * back. Outside it may use ground that lies in no parcel, or in an easement that admits it; never
 * another parcel, from which half a trench width is kept.
 */
final class TrenchRules {

  /** Offsets are drawn this much smaller, so that a line laid exactly on one is not outside it. */
  private static final double SLACK_M = 0.001;

  private static final double DEPTH_STEP_M = 0.1;

  private static final BufferParameters MITRED =
      new BufferParameters(4, BufferParameters.CAP_FLAT, BufferParameters.JOIN_MITRE, 5);

  /** Depth assumed in metres to the underside of a sprinkler line that none is given for. */
  static final double SPRINKLER_BOTTOM_M = 0.30;

  /** Depth assumed in metres to the underside of anything else to go under. */
  static final double UNDER_BOTTOM_M = 0.60;

  /** Ground that may not be used at all. */
  private record Forbidden(String name, Area area) {}

  private final Area lot;
  private final Area inner;
  private final Geometry lotShape;
  private final Geometry innerShape;
  private final List<Forbidden> forbidden = new ArrayList<>();
  private final List<Geometry> forbiddenShapes = new ArrayList<>();
  private final List<Zone> zones = new ArrayList<>();
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();

  TrenchRules(Site site, ElevationGrid ground, List<Zone> more) {
    zones.addAll(more);
    double half = site.drain().trenchWidthM() / 2;
    for (Building building : site.buildings()) {
      forbid(
          "building " + building.id(),
          offset(building.outline(), site.drain().fromBuildingM() - SLACK_M));
    }
    Geometry admitted = admittedByEasement(site);
    for (Obstacle obstacle : site.obstacles()) {
      add(obstacle, ground, site.drain());
    }
    for (Crossing slab : site.crossings()) {
      zones.add(
          new Zone(
              "slab " + slab.id(),
              Area.of(slab.outline()),
              Station.Span.BORED,
              OptionalDouble.empty(),
              slab.pipeTopM()));
    }
    if (!site.crossings().isEmpty()) {
      assumptions.add(
          new Assumption(
              "route.slabs",
              "slabs are not cut: under each the pipe is bored, its top below slab, base and the"
                  + " earth left under them; the least cover counts from the slab's top and is not"
                  + " asked once more below the base",
              "AASHTO LRFD Bridge Design Specifications 12.6.6.3, plastic pipe under rigid pavement,"
                  + " from memory; the owner of a walk or drive may ask for more"));
    }
    if (site.lot().isEmpty()) {
      lot = null;
      inner = null;
      lotShape = null;
      innerShape = null;
      return;
    }
    Parcel own = site.lot().get();
    for (Parcel parcel : site.neighbours()) {
      Geometry theirs = offset(parcel.outline(), half - SLACK_M);
      forbid("parcel " + parcel.id(), admitted == null ? theirs : theirs.difference(admitted));
    }
    stayInside(site, ground, own);
    lotShape = own.outline();
    lot = Area.of(lotShape);
    innerShape = offset(own.outline(), -(site.drain().setbackM() - SLACK_M));
    inner = Area.of(innerShape);
    assumptions.add(
        new Assumption(
            "route.right-of-way",
            "ground in no parcel of the parcel file, and in those named as right-of-way, is public:"
                + " the drain may use it to reach an outlet; no other parcel is entered without an"
                + " easement",
            "rule of this program; ask the local authority"));
    if (site.parcels().size() < 2) {
      warnings.add(
          "no other parcel was given: all ground beyond lot "
              + own.id()
              + " was taken as public right-of-way");
    }
    if (inner.isEmpty()) {
      warnings.add("the setback leaves no ground of lot " + own.id() + " for a trench");
    }
  }

  private static Geometry admittedByEasement(Site site) {
    List<Geometry> shapes =
        site.obstacles().stream()
            .filter(o -> o.kind() == Kind.EASEMENT && o.passage() != Passage.NONE)
            .map(Obstacle::shape)
            .toList();
    return shapes.isEmpty() ? null : UnaryUnionOp.union(shapes);
  }

  private void add(Obstacle obstacle, ElevationGrid ground, DrainLimits limits) {
    double halfTrenchM = limits.trenchWidthM() / 2;
    if (obstacle.kind() == Kind.EASEMENT && obstacle.passage() != Passage.NONE) {
      return;
    }
    if (obstacle.kind() == Kind.ROCK && obstacle.passage() != Passage.NONE) {
      addRock(obstacle, limits);
      return;
    }
    String name =
        obstacle.kind().name().toLowerCase(Locale.ROOT).replace('_', '-') + " " + obstacle.id();
    Geometry shape =
        obstacle.sided()
            ? SidedClearance.of(obstacle, ground)
            : offset(obstacle.shape(), Math.max(obstacle.clearanceM(), halfTrenchM) - SLACK_M);
    if (obstacle.passage() == Passage.NONE) {
      forbid(name, shape);
      return;
    }
    Station.Span span =
        switch (obstacle.passage()) {
          case BORE -> Station.Span.BORED;
          case SOLID_PIPE -> Station.Span.SOLID;
          default -> Station.Span.OPEN;
        };
    OptionalDouble ceiling = OptionalDouble.empty();
    double below = 0;
    if (obstacle.bottomM().isPresent()) {
      ceiling = OptionalDouble.of(obstacle.bottomM().getAsDouble() - obstacle.verticalClearanceM());
    } else if (span != Station.Span.SOLID) {
      double bottom = obstacle.kind() == Kind.SPRINKLER ? SPRINKLER_BOTTOM_M : UNDER_BOTTOM_M;
      below = bottom + obstacle.verticalClearanceM();
      assumptions.add(
          new Assumption(
              "obstacles." + obstacle.id() + ".bottom",
              String.format(Locale.ROOT, "%.2f m below ground; have it located", bottom),
              "common practice, no source"));
    }
    zones.add(new Zone(name, Area.of(shape), span, ceiling, below));
  }

  /** Over rock a trench is dug less deep; where no pipe has room above it there is none. */
  private void addRock(Obstacle rock, DrainLimits limits) {
    Geometry beside =
        offset(rock.shape(), Math.max(rock.clearanceM(), limits.trenchWidthM() / 2) - SLACK_M);
    double deepest =
        DrainLimits.aboveRockM(
            rock.rockDepthM().orElseThrow(), limits.pipeOutsideM(), limits.pipeInsideM());
    if (deepest < limits.minCoverM() + limits.pipeOutsideM()) {
      forbid(
          String.format(
              Locale.ROOT,
              "rock %s, %.2f m down and too near for a pipe with its cover",
              rock.id(),
              rock.rockDepthM().orElseThrow()),
          beside);
    } else {
      zones.add(Zone.above(Area.of(beside), deepest));
    }
  }

  /** Where easements say so, a drain that leaves the lot stays inside them. */
  private void stayInside(Site site, ElevationGrid ground, Parcel own) {
    List<Geometry> stay = new ArrayList<>();
    for (Obstacle obstacle : site.obstacles()) {
      if (obstacle.stayInside()) {
        stay.add(obstacle.shape());
      }
    }
    if (!stay.isEmpty()) {
      Envelope all = new Envelope(ground.frame().envelope());
      all.expandToInclude(own.outline().getEnvelopeInternal());
      all.expandBy(1);
      stay.add(own.outline());
      forbid(
          "ground outside the easement that it must stay in",
          own.outline()
              .getFactory()
              .toGeometry(all)
              .difference(UnaryUnionOp.union(stay).buffer(SLACK_M)));
    }
  }

  /**
   * What a line meets that it may not, with how far it would have to move to be clear of it.
   *
   * @return name and distance in metres of each; infinite where no move leads past it
   */
  Map<String, Double> intrusions(LineString line) {
    Map<String, Double> met = new LinkedHashMap<>();
    for (int i = 0; i < forbidden.size(); i++) {
      double move = ClearingMove.ofM(line, forbiddenShapes.get(i));
      if (move > 0) {
        met.merge(forbidden.get(i).name, move, Math::max);
      }
    }
    return met;
  }

  /** How far in metres the line would have to move inward to keep the setback; 0 where it does. */
  double intoSetbackM(LineString line) {
    if (innerShape == null || innerShape.isEmpty()) {
      return 0;
    }
    double most = 0;
    LengthIndexedLine along = new LengthIndexedLine(line);
    // what leads straight out at the end is crossed as it must be
    double out = lotShape.covers(line.getEndPoint()) ? line.getLength() : lastInside(along);
    Geometry strip = along.extractLine(0, out).intersection(lotShape).difference(innerShape);
    if (strip.getLength() > 0) {
      for (Coordinate c : Densifier.densify(strip, DEPTH_STEP_M).getCoordinates()) {
        most = Math.max(most, innerShape.distance(line.getFactory().createPoint(c)));
      }
    }
    return most;
  }

  /**
   * Station in metres at which a line is inside the setback for the last time; its end if never.
   */
  private double lastInside(LengthIndexedLine along) {
    for (double s = along.getEndIndex(); s > 0; s -= DEPTH_STEP_M) {
      Coordinate p = along.extractPoint(s);
      if (inner.contains(p.x, p.y)) {
        return s;
      }
    }
    return along.getEndIndex();
  }

  private void forbid(String name, Geometry shape) {
    forbidden.add(new Forbidden(name, Area.of(shape)));
    forbiddenShapes.add(shape);
  }

  /** The shape grown by a distance, or shrunk by a negative one; corners of areas are mitred. */
  private static Geometry offset(Geometry shape, double byM) {
    if (shape.getDimension() < 2) {
      return OuterBuffer.of(shape, byM);
    }
    return byM == 0 ? shape : BufferOp.bufferOp(shape, byM, MITRED);
  }

  List<Assumption> assumptions() {
    return assumptions;
  }

  List<String> warnings() {
    return warnings;
  }

  List<Zone> zones() {
    return zones;
  }

  /** Where a collector may lie: the lot inside its setback less all that is forbidden, or null. */
  Geometry permitted() {
    if (innerShape == null) {
      return null;
    }
    return forbiddenShapes.isEmpty()
        ? innerShape
        : innerShape.difference(UnaryUnionOp.union(forbiddenShapes));
  }

  /** 0 inside the setback, 1 in the strip along the property line, 2 beyond the lot. */
  int ring(double x, double y) {
    if (lot == null || inner.contains(x, y)) {
      return 0;
    }
    return lot.contains(x, y) ? 1 : 2;
  }

  /** Whether the point lies on ground that may be used, slabs aside. */
  boolean usable(double x, double y) {
    for (Forbidden f : forbidden) {
      if (f.area.contains(x, y)) {
        return false;
      }
    }
    return true;
  }

  /** Whether an open trench may lie at the point: usable and not under a slab. */
  boolean diggable(double x, double y) {
    if (!usable(x, y)) {
      return false;
    }
    for (Zone zone : zones) {
      if (zone.span() == Station.Span.BORED && zone.area().contains(x, y)) {
        return false;
      }
    }
    return true;
  }

  /** Whether no edge of anything lies within the distance, nor a zone around the point. */
  boolean nothingWithin(double x, double y, double distanceM) {
    for (Forbidden f : forbidden) {
      if (f.area.near(x, y, distanceM)) {
        return false;
      }
    }
    for (Zone zone : zones) {
      if (zone.area().contains(x, y) || zone.area().near(x, y, distanceM)) {
        return false;
      }
    }
    return lot == null || !(lot.near(x, y, distanceM) || inner.near(x, y, distanceM));
  }

  /** Whether the segment may be dug or bored in this direction as far as plan rules go. */
  boolean admits(double x0, double y0, double x1, double y1) {
    return fault(x0, y0, x1, y1) == null;
  }

  /** What forbids the segment in this direction, or null; slabs are judged elsewhere. */
  String fault(double x0, double y0, double x1, double y1) {
    for (Forbidden f : forbidden) {
      if (f.area.meets(x0, y0, x1, y1)) {
        return f.name;
      }
    }
    return lot == null ? null : stripFault(x0, y0, x1, y1);
  }

  private String stripFault(double x0, double y0, double x1, double y1) {
    double[] in = inner.inside(x0, y0, x1, y1);
    if (in.length == 2 && in[0] < 1e-9 && in[1] > 1 - 1e-9) {
      return null;
    }
    double[] own = lot.inside(x0, y0, x1, y1);
    if (own.length > 2 || (own.length == 2 && own[0] > 1e-9)) {
      return "the property line, crossed back into the lot";
    }
    if (in.length > 2 || (in.length == 2 && in[0] > 1e-9)) {
      return "the setback, left and entered again";
    }
    double leaves = own.length == 0 ? 0 : own[1];
    double strip = in.length == 0 ? 0 : in[1];
    if (leaves <= strip + 1e-9) {
      return null;
    }
    double before = lot.toEdge(x0 + strip * (x1 - x0), y0 + strip * (y1 - y0));
    double after = lot.toEdge(x0 + leaves * (x1 - x0), y0 + leaves * (y1 - y0));
    double run = (leaves - strip) * Math.hypot(x1 - x0, y1 - y0);
    return before - after >= 0.5 * run - 1e-6 ? null : "the setback, followed instead of crossed";
  }
}
