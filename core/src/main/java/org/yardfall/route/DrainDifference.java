package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.operation.overlayng.OverlayNG;
import org.locationtech.jts.operation.overlayng.OverlayNGRobust;
import org.yardfall.site.Assumption;

/**
 * How much of a drain is another drain than a given one, and not the same with a bend moved.
 *
 * <p>The measure is the share of a drain's length, branches included, that lies more than {@value
 * #CORRIDOR_M} m from the other's lines in plan; of two drains the larger of their shares, so that
 * it does not matter which is asked about. Two drains are different where they take their water
 * from another kind of collecting line, lead to another outlet, or where that share is a quarter or
 * more. What that share should be is nowhere laid down: a rule of this program.
 */
final class DrainDifference {

  /** Two trenches no farther apart than this, in metres, lie in one corridor. */
  static final double CORRIDOR_M = 1;

  /** Drains are different from this share of other ground on. */
  static final double LEAST_SHARE = 0.25;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private DrainDifference() {}

  /** Whether two drains differ. */
  static boolean differ(RouteRanking.Candidate a, RouteRanking.Candidate b) {
    return a.collector().kind() != b.collector().kind()
        || !a.draft().outletId().equals(b.draft().outletId())
        || share(a.draft(), b.draft()) >= LEAST_SHARE;
  }

  /** How many drains there are that differ from each before them that does. */
  static int count(List<RouteRanking.Candidate> candidates) {
    List<RouteRanking.Candidate> different = new ArrayList<>();
    for (RouteRanking.Candidate each : candidates) {
      if (different.stream().allMatch(before -> differ(each, before))) {
        different.add(each);
      }
    }
    return different.size();
  }

  /** The larger of the shares of two drains that lie off the other's corridor, from 0 to 1. */
  static double share(Draft a, Draft b) {
    Geometry one = plan(a);
    Geometry other = plan(b);
    return Math.max(off(one, other), off(other, one));
  }

  private static double off(Geometry mine, Geometry other) {
    // the lines of a drain touch each other, which the plain overlay does not always survive
    return OverlayNGRobust.overlay(mine, other.buffer(CORRIDOR_M), OverlayNG.DIFFERENCE).getLength()
        / mine.getLength();
  }

  private static Geometry plan(Draft draft) {
    List<Geometry> lines = new ArrayList<>();
    lines.add(line(draft.main()));
    draft.branches().forEach(branch -> lines.add(line(branch.line())));
    return FACTORY.buildGeometry(lines);
  }

  private static Geometry line(DrainLine line) {
    return FACTORY.createLineString(line.vertices().toArray(Coordinate[]::new));
  }

  /** The measure as it stands in the results. */
  static Assumption assumption() {
    return new Assumption(
        "route.alternatives",
        String.format(
            Locale.ROOT,
            "two drains are different where their kinds or outlets differ, or where %.0f %% or more"
                + " of one lies over %.0f m from the other; one that is not is offered only where it"
                + " is %.2f m shallower or disturbs %.0f %% less",
            100 * LEAST_SHARE,
            CORRIDOR_M,
            RouteRanking.GAIN_M,
            100 * RouteRanking.GAIN_SHARE),
        "rule of this program");
  }
}
