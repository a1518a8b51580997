package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.operation.distance.IndexedFacetDistance;

/**
 * The part of the audit that holds the lines of a drain against each other: every branch ends on a
 * line listed before it, no lower than that line's pipe, and no two lines lie in one trench but
 * where they meet.
 */
final class TreeAudit {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** Two lines that meet may share so many trench widths: an angle of 20° or more. */
  private static final double MEETING_WIDTHS = 3;

  /** Two lines that do not meet may touch for so many trench widths. */
  private static final double TOUCHING_WIDTHS = 1;

  private final double widthM;
  private final double arrivedM;
  private final double levelSlackM;

  /**
   * An audit of a tree.
   *
   * @param widthM width of the trench in metres
   * @param arrivedM a line ends at its junction when it is as near as this, in metres
   * @param levelSlackM slack of elevations in metres
   */
  TreeAudit(double widthM, double arrivedM, double levelSlackM) {
    this.widthM = widthM;
    this.arrivedM = arrivedM;
    this.levelSlackM = levelSlackM;
  }

  /** Checks branches against each other; {@code lines} holds the main line before them. */
  void check(List<AuditedLine> lines, List<Route.Branch> branches, List<Audit.Check> checks) {
    for (int i = 0; i < branches.size(); i++) {
      Route.Branch branch = branches.get(i);
      boolean before = branch.joins() >= 0 && branch.joins() <= i;
      Tally joins = Tally.atMost("joins-earlier-line", 0, "", 0);
      joins.see(before ? 0 : 1, lines.get(i + 1).lengthM);
      checks.add(joins.check());
      if (before) {
        junction(lines.get(i + 1), lines.get(branch.joins()), branch.junctionM(), checks);
      }
    }
    if (!branches.isEmpty()) {
      Tally shared = Tally.atMost("shared-trench", 0, "m", 0);
      for (int i = 1; i < lines.size(); i++) {
        for (int k = 0; k < i; k++) {
          shared(lines.get(i), lines.get(k), lines, shared);
        }
      }
      checks.add(shared.check());
    }
  }

  private void junction(
      AuditedLine branch, AuditedLine onto, double junctionM, List<Audit.Check> checks) {
    Coordinate end = branch.vertices.get(branch.vertices.size() - 1);
    Coordinate on = onto.at(junctionM);
    Tally near = Tally.atMost("junction", 0, "m", arrivedM);
    near.see(Math.hypot(end.x - on.x, end.y - on.y), branch.lengthM);
    checks.add(near.check());
    Tally invert = Tally.atLeast("junction-invert", onto.invertAt(junctionM), "m", levelSlackM);
    invert.see(branch.stations.get(branch.stations.size() - 1).invertM(), branch.lengthM);
    checks.add(invert.check());
  }

  /** Each run of a line within the trench of another, less what may be where they meet. */
  private void shared(AuditedLine line, AuditedLine other, List<AuditedLine> all, Tally shared) {
    if (!line.plan.isWithinDistance(other.plan, widthM)) {
      return;
    }
    IndexedFacetDistance beside = new IndexedFacetDistance(other.plan);
    List<Point> meetings = new ArrayList<>();
    Point top = FACTORY.createPoint(line.vertices.get(0));
    if (top.isWithinDistance(FACTORY.createPoint(other.vertices.get(0)), widthM)) {
      meetings.add(top); // the two arms of a ring, broken at its high point
    }
    for (AuditedLine each : all.subList(1, all.size())) {
      Point end = FACTORY.createPoint(each.vertices.get(each.vertices.size() - 1));
      if (end.isWithinDistance(line.plan, widthM) && end.isWithinDistance(other.plan, widthM)) {
        meetings.add(end);
      }
    }
    double from = Double.NaN;
    boolean meets = false;
    for (int i = 0; i < line.places.size(); i++) {
      AuditedLine.Place p = line.places.get(i);
      Point at = FACTORY.createPoint(p.at());
      boolean within = beside.isWithinDistance(at, widthM);
      if (within) {
        from = Double.isNaN(from) ? p.stationM() : from;
        meets |= meetings.stream().anyMatch(m -> m.isWithinDistance(at, widthM));
      }
      if (!Double.isNaN(from) && (!within || i + 1 == line.places.size())) {
        double run = p.stationM() - from;
        double may = (meets ? MEETING_WIDTHS : TOUCHING_WIDTHS) * widthM;
        shared.see(run <= may ? 0 : run, p.stationM());
        from = Double.NaN;
        meets = false;
      }
    }
  }
}
