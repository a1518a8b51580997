package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;

/**
 * Takes the stencil's stair-steps out of a trunk, so that a crew can dig it: of all lines through
 * some of its corners, in their order, that stay within every limit, the one that costs least. Each
 * stretch is judged anew over all the ground it crosses, at any angle. Since the trunk itself is
 * one of these lines, the result never costs more.
 */
final class Straightener {

  /** More corners than this are thinned out first. */
  private static final int MANY_CORNERS = 48;

  /** A line that ends at a corner. */
  private record Label(int corner, double invertM, double cost, Label before) {}

  private final RouteGround ground;
  private final Bounds bounds;
  private final StepCost cost;
  private final OutletTarget outlet;
  private final List<Coordinate> corners;

  private Straightener(
      RouteGround ground,
      Bounds bounds,
      StepCost cost,
      OutletTarget outlet,
      List<Coordinate> corners) {
    this.ground = ground;
    this.bounds = bounds;
    this.cost = cost;
    this.outlet = outlet;
    this.corners = corners;
  }

  /** The straightened trunk; the trunk as it is where nothing can be taken out. */
  static List<Coordinate> straighten(
      RouteGround ground,
      Bounds bounds,
      StepCost cost,
      OutletTarget outlet,
      double startInvertM,
      List<Coordinate> trunk) {
    List<Coordinate> corners = PlanLine.tidy(trunk);
    if (corners.size() > MANY_CORNERS) {
      return corners;
    }
    return new Straightener(ground, bounds, cost, outlet, corners).straighten(startInvertM);
  }

  private List<Coordinate> straighten(double startInvertM) {
    int n = corners.size();
    List<List<Label>> at = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      at.add(new ArrayList<>());
    }
    at.get(0).add(new Label(0, startInvertM, 0, null));
    for (int i = 0; i < n - 1; i++) {
      for (int j = i + 1; j < n && !at.get(i).isEmpty(); j++) {
        GroundLine line = ground.graph().admitted(corners.get(i), corners.get(j));
        if (line != null) {
          for (Label label : at.get(i)) {
            extend(label, j, j == n - 1 ? outlet.ending(line, ground) : line, at.get(j));
          }
        }
      }
    }
    return at.get(n - 1).stream()
        .min((a, b) -> Double.compare(a.cost, b.cost))
        .map(this::points)
        .orElse(corners);
  }

  private void extend(Label label, int to, GroundLine line, List<Label> there) {
    double v = StepGraph.highestAtEnd(line, label.invertM, bounds);
    boolean last = to == corners.size() - 1;
    if (v == Double.NEGATIVE_INFINITY
        || (last && v < outlet.invertM() - bounds.outletLoweredM() - 1e-9)) {
      return;
    }
    double turn =
        label.before == null
            ? 0
            : cost.turns(
                List.of(
                    corners.get(label.before.corner), corners.get(label.corner), corners.get(to)));
    Label mine = new Label(to, v, label.cost + turn + cost.line(line, label.invertM, v), label);
    for (Label other : there) {
      if (other.cost <= mine.cost && other.invertM >= mine.invertM) {
        return;
      }
    }
    there.removeIf(other -> mine.cost <= other.cost && mine.invertM >= other.invertM);
    there.add(mine);
  }

  private List<Coordinate> points(Label last) {
    List<Coordinate> points = new ArrayList<>();
    for (Label label = last; label != null; label = label.before) {
      points.add(0, corners.get(label.corner));
    }
    return points;
  }
}
