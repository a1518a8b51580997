package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;

/**
 * Checks a drain from its vertices, its stations and the raw ground alone. It shares no code with
 * the search: it samples the ground itself, every few centimetres, and measures distances with JTS.
 * So it also serves for lines read back from a file, or drawn by hand.
 *
 * <p>Lengths in plan may be short by {@value #PLAN_SLACK_M} m, which is less than a trench can be
 * set out, elevations and falls by a thousandth of a millimetre; of a file read back by what its
 * decimals leave open besides.
 */
public final class RouteAuditor {

  /** Slack of lengths in plan in metres. */
  public static final double PLAN_SLACK_M = 0.005;

  /** A line ends at its outlet or junction when it is as near as this, in metres. */
  private static final double ARRIVED_M = 0.05;

  /** The check that the upper end lies no lower than the lid that water must rise to. */
  static final String LID = "outlet-lid";

  /** The check that the water at the outlet stands below the ground over the drain. */
  static final String WATER = "outlet-water";

  private static final double LEVEL_SLACK_M = 1e-6;
  private static final double FALL_SLACK_M = 1e-6;

  private final Site site;
  private final DrainLimits limits;
  private final ElevationGrid ground;
  private final RouteSettings settings;
  private final List<Audit.Check> checks = new ArrayList<>();
  private final double moreSlackM;

  private RouteAuditor(Site site, ElevationGrid ground, RouteSettings settings, double moreSlackM) {
    this.site = site;
    this.limits = site.drain();
    this.ground = ground;
    this.settings = settings;
    this.moreSlackM = moreSlackM;
  }

  /**
   * Audits a drain.
   *
   * @param site the site with its limits
   * @param ground raw elevations
   * @param settings the bore's length, the daylight and the pipe under slabs that are allowed
   * @param outlet the outlet it says it reaches
   * @param main the line to the outlet
   * @param branches lines that join it or each other
   */
  public static Audit audit(
      Site site,
      ElevationGrid ground,
      RouteSettings settings,
      Outlet outlet,
      DrainLine main,
      List<Route.Branch> branches) {
    return auditRead(site, ground, settings, outlet, main, branches, 0);
  }

  /**
   * Audits a drain read from a file whose numbers are rounded.
   *
   * @param roundingM how far its coordinates and elevations may be off in metres
   */
  public static Audit auditRead(
      Site site,
      ElevationGrid ground,
      RouteSettings settings,
      Outlet outlet,
      DrainLine main,
      List<Route.Branch> branches,
      double roundingM) {
    RouteAuditor auditor = new RouteAuditor(site, ground, settings, roundingM);
    AuditedLine trunk = new AuditedLine(main, ground);
    auditor.line(trunk, outlet);
    auditor.arrival(trunk, outlet);
    List<AuditedLine> lines = new ArrayList<>(List.of(trunk));
    for (Route.Branch branch : branches) {
      AuditedLine line = new AuditedLine(branch.line(), ground);
      auditor.line(line, null);
      lines.add(line);
    }
    new TreeAudit(
            site.drain().trenchWidthM() - PLAN_SLACK_M - roundingM,
            ARRIVED_M + roundingM,
            LEVEL_SLACK_M + roundingM)
        .check(lines, branches, auditor.checks);
    return new Audit(auditor.checks);
  }

  private void line(AuditedLine line, Outlet outlet) {
    stations(line);
    falls(line);
    cover(line, outlet);
    new PlanAudit(
            site,
            ground,
            settings,
            PLAN_SLACK_M + moreSlackM,
            LEVEL_SLACK_M + moreSlackM,
            moreSlackM)
        .check(line, checks);
    RockAudit.check(
        line,
        site,
        outlet == null ? 0 : Math.max(1e-6, freeM(outlet)),
        PLAN_SLACK_M + moreSlackM,
        LEVEL_SLACK_M + moreSlackM,
        checks);
  }

  private void stations(AuditedLine line) {
    Tally order = Tally.atLeast("stations-rise", 0, "m", 1e-9);
    Tally off = Tally.atMost("stations-on-line", 0, "m", ARRIVED_M + moreSlackM);
    Tally raw = Tally.atMost("ground-as-read", 0, "m", 0.005 + moreSlackM);
    double last = 0;
    for (Station s : line.stations) {
      order.see(s.stationM() - last, s.stationM());
      last = s.stationM();
      Coordinate at = line.at(s.stationM());
      off.see(Math.hypot(at.x - s.x(), at.y - s.y()), s.stationM());
      raw.see(
          Math.abs(s.groundM() - AuditedLine.groundAt(ground, new Coordinate(s.x(), s.y()))),
          s.stationM());
    }
    off.see(Math.abs(last - line.lengthM), last);
    checks.add(order.check());
    checks.add(off.check());
    checks.add(raw.check());
  }

  private void falls(AuditedLine line) {
    Tally least = Tally.atLeast("falls", 0, "m", FALL_SLACK_M + 2 * moreSlackM);
    Tally most = Tally.atMost("max-grade", 0, "m", FALL_SLACK_M + 2 * moreSlackM);
    for (int i = 1; i < line.stations.size(); i++) {
      Station a = line.stations.get(i - 1);
      Station b = line.stations.get(i);
      double run = b.stationM() - a.stationM();
      double fall = a.invertM() - b.invertM();
      least.see(fall - limits.minGrade() * run, a.stationM());
      if (run > 1e-6) { // a drop has no run
        most.see(fall - limits.maxGrade() * run, a.stationM());
      }
    }
    checks.add(least.check());
    checks.add(most.check());
  }

  private void cover(AuditedLine line, Outlet outlet) {
    Tally cover = Tally.atLeast("cover", limits.minCoverM(), "m", LEVEL_SLACK_M + moreSlackM);
    Tally depth = Tally.atMost("depth", limits.maxDepthM(), "m", LEVEL_SLACK_M + moreSlackM);
    double free = outlet == null ? 0 : freeM(outlet);
    for (AuditedLine.Place p : line.places) {
      double left = line.lengthM - p.stationM();
      if (outlet != null && left <= Math.max(1e-6, free)) {
        continue;
      }
      boolean bored = p.span() == Station.Span.BORED;
      double outside = bored ? settings.crossingOutsideM() : limits.pipeOutsideM();
      cover.see(p.groundM() - p.invertM() - outside, p.stationM());
      if (!bored) {
        depth.see(p.groundM() - p.invertM(), p.stationM());
      }
    }
    checks.add(cover.check());
    checks.add(depth.check());
    if (outlet != null && open(outlet)) {
      checks.add(comesOut(line, outlet));
    }
  }

  private static boolean open(Outlet outlet) {
    return switch (outlet.kind()) {
      case DITCH, WATERWAY, STREET, DAYLIGHT -> true;
      case CATCH_BASIN, DRY_WELL -> false;
    };
  }

  /** In the last metres the pipe is out of the ground only as far as its outlet makes it so. */
  private Audit.Check comesOut(AuditedLine line, Outlet outlet) {
    Tally out =
        Tally.atMost("out-of-ground", 0, "m", LEVEL_SLACK_M + FALL_SLACK_M + 2 * moreSlackM);
    double end = outlet.invertM().orElse(AuditedLine.groundAt(ground, outlet.at()));
    double outside = Math.max(limits.pipeOutsideM(), settings.crossingOutsideM());
    for (Station s : line.stations) {
      double left = line.lengthM - s.stationM();
      if (left <= Math.max(1e-6, freeM(outlet))) {
        double least = end + outside + limits.minGrade() * left;
        out.see(s.invertM() + limits.pipeOutsideM() - Math.max(s.groundM(), least), s.stationM());
      }
    }
    return out.check();
  }

  /**
   * Last metres without cover: the daylight, or the wall of a basin as finely as the grid tells.
   */
  private double freeM(Outlet outlet) {
    return switch (outlet.kind()) {
      case DITCH, WATERWAY, STREET, DAYLIGHT ->
          Math.max(settings.daylightM(), 2.3 * ground.frame().cellM());
      case CATCH_BASIN, DRY_WELL -> 0.75 * ground.frame().cellM();
    };
  }

  private void arrival(AuditedLine line, Outlet outlet) {
    Coordinate end = line.vertices.get(line.vertices.size() - 1);
    Tally near = Tally.atMost("outlet", 0, "m", ARRIVED_M + moreSlackM);
    near.see(Math.hypot(end.x - outlet.at().x, end.y - outlet.at().y), line.lengthM);
    checks.add(near.check());
    Station last = line.stations.get(line.stations.size() - 1);
    double lowest = outlet.invertM().orElse(AuditedLine.groundAt(ground, outlet.at()));
    Tally invert = Tally.atLeast("outlet-invert", lowest, "m", LEVEL_SLACK_M + moreSlackM);
    invert.see(last.invertM(), last.stationM());
    checks.add(invert.check());
    if (site.outletRules().pumped()) {
      return; // a pump lifts the water, past what stands outside
    }
    if (outlet.lidM().isPresent() && outlet.kind() != Outlet.Kind.CATCH_BASIN) {
      // water must rise to the lid: the upper end of the pipe must not lie below it
      Tally lid = Tally.atLeast(LID, outlet.lidM().getAsDouble(), "m", LEVEL_SLACK_M + moreSlackM);
      lid.see(line.stations.get(0).invertM(), 0);
      checks.add(lid.check());
    }
    if (outlet.waterLevelM().isPresent()) {
      // water that stands higher than the ground over the drain would come up in the yard
      Tally water = Tally.atLeast(WATER, outlet.waterLevelM().getAsDouble(), "m", 0);
      for (AuditedLine.Place p : line.places) {
        if (line.lengthM - p.stationM() > Math.max(freeM(outlet), settings.daylightM())) {
          water.see(p.groundM(), p.stationM());
        }
      }
      checks.add(water.check());
    }
  }
}
