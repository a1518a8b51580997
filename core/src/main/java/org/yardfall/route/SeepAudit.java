package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.densify.Densifier;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Seep;
import org.yardfall.site.Site;

/**
 * The part of the audit that holds an interceptor against the wet patch it is for: it must pass
 * uphill of nearly all of the patch's width, and lie as deep there as the water. It shares no code
 * with the search: it fits its own plane to the raw ground and turns the plan so that uphill is up.
 */
final class SeepAudit {

  /** Share of the patch's width that must lie below the drain. */
  private static final double LEAST_SHARE = 0.9;

  /** Head of the name of the check that the drain passes uphill. */
  static final String UPHILL = "uphill-of-seep ";

  private static final int PARTS = 50;

  /** A drain farther above the patch than this, in metres, is not for it. */
  private static final double FARTHEST_M = 15;

  private static final double ROUND_M = 3;
  private static final double ASK_EVERY_M = 0.25;
  private static final double LEVEL_SLACK_M = 0.001;

  private SeepAudit() {}

  /** The audit of a drain with the checks against the wet patches of the given ids. */
  static Audit with(
      Audit audit,
      Site site,
      ElevationGrid ground,
      List<String> seepIds,
      DrainLine main,
      List<Route.Branch> branches) {
    List<AuditedLine> lines = new ArrayList<>();
    lines.add(new AuditedLine(main, ground));
    branches.forEach(b -> lines.add(new AuditedLine(b.line(), ground)));
    List<Audit.Check> checks = new ArrayList<>(audit.checks());
    for (Seep seep : site.seeps()) {
      if (seepIds.contains(seep.id())) {
        checks.addAll(checks(seep, ground, lines));
      }
    }
    return new Audit(checks);
  }

  private static List<Audit.Check> checks(
      Seep seep, ElevationGrid ground, List<AuditedLine> lines) {
    Geometry patch = seep.shape().getDimension() == 2 ? seep.shape() : seep.shape().buffer(0.5);
    AffineTransformation turned = uphillUp(patch, ground);
    Geometry wet = Densifier.densify(turned.transform(patch), ASK_EVERY_M);
    Envelope box = wet.getEnvelopeInternal();
    double[] top = new double[PARTS];
    java.util.Arrays.fill(top, box.getMinY());
    for (Coordinate c : wet.getCoordinates()) {
      int part = part(c.x, box);
      top[part] = Math.max(top[part], c.y);
    }
    boolean[] covered = new boolean[PARTS];
    String what = seep.id().toLowerCase(Locale.ROOT);
    double needed = seep.waterDepthM().orElse(0.5);
    Tally depth = Tally.atLeast("water-bearing-depth " + what, needed, "m", LEVEL_SLACK_M);
    for (AuditedLine line : lines) {
      for (AuditedLine.Place p : line.places) {
        Coordinate at = turned.transform(p.at(), new Coordinate());
        if (at.x < box.getMinX() || at.x > box.getMaxX()) {
          continue;
        }
        int part = part(at.x, box);
        if (at.y > top[part] && at.y < top[part] + FARTHEST_M) {
          covered[part] = true;
          depth.see(p.groundM() - p.invertM(), p.stationM());
        }
      }
    }
    int uphill = 0;
    for (boolean each : covered) {
      uphill += each ? 1 : 0;
    }
    Tally share = Tally.atLeast(UPHILL + what, LEAST_SHARE, "", 0);
    share.see((double) uphill / PARTS, 0);
    return List.of(share.check(), depth.check());
  }

  private static int part(double x, Envelope box) {
    double share = (x - box.getMinX()) / box.getWidth();
    return Math.max(0, Math.min(PARTS - 1, (int) (share * PARTS)));
  }

  /** Turns the plan so that the least-squares plane of the ground rises along y. */
  private static AffineTransformation uphillUp(Geometry patch, ElevationGrid ground) {
    Coordinate centre = patch.getCentroid().getCoordinate();
    Envelope box = patch.getEnvelopeInternal();
    box.expandBy(ROUND_M);
    List<Coordinate> places = new ArrayList<>();
    for (double x = box.getMinX(); x <= box.getMaxX(); x += ASK_EVERY_M) {
      for (double y = box.getMinY(); y <= box.getMaxY(); y += ASK_EVERY_M) {
        Coordinate at = new Coordinate(x, y);
        at.z = AuditedLine.groundAt(ground, at);
        if (!Double.isNaN(at.z)) {
          places.add(at);
        }
      }
    }
    double x0 = places.stream().mapToDouble(p -> p.x).average().orElse(0);
    double y0 = places.stream().mapToDouble(p -> p.y).average().orElse(0);
    double xx = 0;
    double xy = 0;
    double yy = 0;
    double xz = 0;
    double yz = 0;
    for (Coordinate p : places) {
      xx += (p.x - x0) * (p.x - x0);
      xy += (p.x - x0) * (p.y - y0);
      yy += (p.y - y0) * (p.y - y0);
      xz += (p.x - x0) * p.z;
      yz += (p.y - y0) * p.z;
    }
    double det = xx * yy - xy * xy;
    double riseX = (xz * yy - yz * xy) / det;
    double riseY = (yz * xx - xz * xy) / det;
    return AffineTransformation.rotationInstance(
        Math.PI / 2 - Math.atan2(riseY, riseX), centre.x, centre.y);
  }
}
