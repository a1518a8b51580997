package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Building;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Outlet;
import org.yardfall.site.PinnedLine;
import org.yardfall.site.Problem;
import org.yardfall.site.Site;

/**
 * Looks for what no drain can be planned with: outlets that make no sense, limits that contradict
 * each other, drawn lines that leave the ground.
 */
final class PlanProblems {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final Site site;
  private final ElevationGrid ground;
  private final List<Problem> problems = new ArrayList<>();

  private PlanProblems(Site site, ElevationGrid ground) {
    this.site = site;
    this.ground = ground;
  }

  /**
   * Stops on outlets, limits and drawn lines that no drain can be planned with.
   *
   * @throws BadInputException naming every such fault at once
   */
  static void check(Site site, ElevationGrid ground) {
    PlanProblems found = new PlanProblems(site, ground);
    found.limits(site.drain());
    for (int i = 0; i < site.outlets().size(); i++) {
      found.outlet(site.outlets().get(i), site.outlets().subList(0, i));
    }
    site.pinned().forEach(found::pinned);
    if (!found.problems.isEmpty()) {
      throw new BadInputException(found.problems);
    }
  }

  private void add(String source, String mend, String format, Object... values) {
    problems.add(new Problem(source, String.format(Locale.ROOT, format, values), mend));
  }

  private void limits(DrainLimits limits) {
    if (limits.minCoverM() + limits.pipeOutsideM() > limits.maxDepthM()) {
      add(
          "drain",
          "lower min-cover or raise max-depth",
          "min-cover %.3f m and the pipe's outside diameter %.3f m do not fit above max-depth %.3f"
              + " m",
          limits.minCoverM(),
          limits.pipeOutsideM(),
          limits.maxDepthM());
    }
    if (!(limits.minGrade() > 0) || limits.minGrade() > limits.maxGrade()) {
      add(
          "drain",
          "correct one of them",
          "min-grade %.4f must be above 0 and no more than max-grade %.4f",
          limits.minGrade(),
          limits.maxGrade());
    }
  }

  private void outlet(Outlet outlet, List<Outlet> before) {
    String source = "outlet " + outlet.id();
    Point at = FACTORY.createPoint(outlet.at());
    for (Building building : site.buildings()) {
      if (building.outline().intersects(at)) {
        add(source, "move it outside the building", "lies inside building %s", building.id());
      }
    }
    if (Double.isNaN(ground.bilinear(outlet.at().x, outlet.at().y))) {
      add(source, "extend the elevations to it or move it", "lies where no elevation is known");
    }
    for (Outlet other : before) {
      if (other.at().distance(outlet.at()) < 0.01) {
        add(source, "keep one of them", "lies at the same point as outlet %s", other.id());
      }
    }
  }

  /** A drawn line must lie on known ground from end to end. */
  private void pinned(PinnedLine line) {
    double step = ground.frame().cellM() / 2;
    LengthIndexedLine along = new LengthIndexedLine(line.line());
    double length = line.line().getLength();
    int steps = Math.max(1, (int) Math.ceil(length / step));
    for (int i = 0; i <= steps; i++) {
      Coordinate p = along.extractPoint(length * i / steps);
      if (Double.isNaN(ground.bilinear(p.x, p.y))) {
        add(
            "pinned line " + line.id(),
            "draw it inside the elevations, or give elevations there",
            "leaves the known ground %.1f m from its upper end",
            length * i / steps);
        return;
      }
    }
  }
}
