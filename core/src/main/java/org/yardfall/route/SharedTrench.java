package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.util.LineStringExtracter;
import org.locationtech.jts.linearref.LengthIndexedLine;

/**
 * Keeps two lines of a drain out of one trench: those whose middles lie less than a trench's width
 * apart. A branch that comes so near to a laid line is led to it there, at 45 degrees as a wye
 * turns, or straight on where it meets the line anyway.
 */
final class SharedTrench {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** A branch within this many trench widths of its end is at its junction. */
  private static final double AT_JUNCTION_WIDTHS = 1.6;

  /** Two lines that meet lie together for at most so many trench widths. */
  private static final double MEETING_WIDTHS = 2.8;

  /** A last leg to a junction is at most so many trench widths long. */
  private static final double LEG_WIDTHS = 2.8;

  /** Room in metres by which lines are kept apart more than they must be. */
  private static final double ROOM_M = 0.02;

  private static final double EPSILON_M = 1e-6;

  private final RouteGround ground;
  private final DrainTree tree;
  private final double widthM;

  /**
   * How a branch joins.
   *
   * @param plan its line, which ends at the junction
   * @param joins number of the line that it joins
   * @param junctionM station on that line in metres
   */
  record Junction(List<Coordinate> plan, int joins, double junctionM) {}

  SharedTrench(RouteGround ground, DrainTree tree) {
    this.ground = ground;
    this.tree = tree;
    this.widthM = ground.site().drain().trenchWidthM() + ROOM_M;
  }

  /**
   * Whether two lines that meet run in one trench for longer than lines that meet at an angle do.
   *
   * @param widthM width of the trench in metres
   */
  static boolean together(LineString line, LineString other, double widthM) {
    return line.isWithinDistance(other, widthM)
        && line.intersection(other.buffer(widthM)).getLength() > MEETING_WIDTHS * widthM;
  }

  /** The parts of a line that no laid line from the given one on has in its trench. */
  List<LineString> outside(LineString line, int fromLine) {
    Geometry rest = line;
    boolean cut = false;
    for (int i = fromLine; i < tree.size(); i++) {
      LineString laid = tree.plan(i);
      if (laid.isWithinDistance(rest, widthM)) {
        rest = rest.difference(laid.buffer(widthM));
        cut = true;
      }
    }
    if (!cut) {
      return List.of(line);
    }
    List<LineString> parts = new ArrayList<>();
    for (Object part : LineStringExtracter.getLines(rest)) {
      parts.addAll(PermittedLines.endingOff((LineString) part, ground.site().crossings()));
    }
    return parts;
  }

  private boolean underSlab(Coordinate at) {
    return ground.site().crossings().stream()
        .anyMatch(slab -> slab.outline().intersects(FACTORY.createPoint(at)));
  }

  /**
   * The junction that was found for a branch, or the one where it first comes to a trench; empty
   * where it cannot join that.
   */
  Optional<Junction> of(Junction found) {
    List<Coordinate> plan = found.plan();
    LineString line = FACTORY.createLineString(plan.toArray(Coordinate[]::new));
    int joins = -1;
    double first = line.getLength() - AT_JUNCTION_WIDTHS * widthM;
    for (int i = 0; i < tree.size(); i++) {
      double at = enters(line, tree.plan(i));
      if (at < first) {
        first = at;
        joins = i;
      }
    }
    return joins < 0 ? Optional.of(found) : ending(plan, line, first, joins);
  }

  /** Where a line first comes into the trench of another, in metres from its upper end. */
  private double enters(LineString line, LineString laid) {
    double first = Double.POSITIVE_INFINITY;
    if (!line.isWithinDistance(laid, widthM)) {
      return first;
    }
    LengthIndexedLine along = new LengthIndexedLine(line);
    for (Object part :
        LineStringExtracter.getLines(line.intersection(laid.buffer(widthM - ROOM_M / 2)))) {
      LineString within = (LineString) part;
      double from = within.isEmpty() ? 0 : along.indicesOf(within)[0];
      if (from > EPSILON_M) {
        first = Math.min(first, from);
      }
    }
    return first;
  }

  private Optional<Junction> ending(
      List<Coordinate> plan, LineString line, double stationM, int joins) {
    List<Coordinate> head = PlanLine.part(plan, 0, stationM);
    Coordinate at = head.get(head.size() - 1);
    Coordinate before = head.get(head.size() - 2);
    LengthIndexedLine laid = new LengthIndexedLine(tree.plan(joins));
    Geometry ahead = new LengthIndexedLine(line).extractLine(stationM, stationM + 2 * widthM);
    Geometry meets = ahead.intersection(tree.plan(joins));
    if (!meets.isEmpty()) {
      double there = laid.project(meets.getCoordinate());
      double junction = tree.place(joins, there);
      List<Coordinate> on = new ArrayList<>(head.subList(0, head.size() - 1));
      Optional<Junction> straight = leg(on, joins, junction, true);
      if (straight.isPresent() && Math.abs(junction - there) <= widthM) {
        return straight;
      }
    }
    double foot = laid.project(at);
    Coordinate downstream = laid.extractPoint(foot + EPSILON_M * 1000);
    Coordinate here = laid.extractPoint(foot);
    boolean along =
        (downstream.x - here.x) * (at.x - before.x) + (downstream.y - here.y) * (at.y - before.y)
            >= 0;
    double wye = tree.place(joins, along ? foot + widthM : foot);
    return leg(head, joins, wye, false).or(() -> leg(head, joins, tree.place(joins, foot), false));
  }

  /** A last leg to a junction, where it may be dug. */
  private Optional<Junction> leg(
      List<Coordinate> head, int joins, double junctionM, boolean straightOn) {
    if (Double.isNaN(junctionM)) {
      return Optional.empty();
    }
    Coordinate from = head.get(head.size() - 1);
    Coordinate to = tree.at(joins, junctionM);
    double leg = straightOn ? 0 : from.distance(to);
    if (!straightOn && underSlab(from)) {
      return Optional.empty(); // no bend under a slab
    }
    if (from.distance(to) < EPSILON_M
        || leg > LEG_WIDTHS * widthM
        || ground.graph().admitted(from, to) == null) {
      return Optional.empty();
    }
    List<Coordinate> plan = new ArrayList<>(head);
    plan.add(to);
    return Optional.of(new Junction(PlanLine.tidy(plan), joins, junctionM));
  }
}
