package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.locationtech.jts.geom.Coordinate;

/**
 * Takes the stencil's stair-steps out of a trunk, so that a crew can dig it: of all lines through
 * some of its corners, in their order, that stay within every limit, the one that costs least. Each
 * stretch is judged anew over all the ground it crosses, at any angle. Since the trunk itself is
 * one of these lines, the result never costs more; and what can not end up cheaper than it is left
 * out. Where the cost knows no turns, bends have one here ({@link TrenchCost#bend}), so that none
 * is left for a gain that nobody would dig it for.
 */
final class Straightener {

  /** More corners than this are thinned out first. */
  private static final int MANY_CORNERS = 48;

  /** Share of room for rounding where a line is left out as too dear. */
  private static final double ROUNDING = 1e-9;

  /** A line that ends at a corner. */
  private record Label(int corner, double invertM, double cost, Label before) {}

  private final RouteGround ground;
  private final Bounds bounds;
  private final StepCost cost;
  private final OutletTarget outlet;
  private final List<Coordinate> corners;

  /** The ground from corner to corner; null where that may not be built. */
  private final GroundLine[][] stretch;

  /** The least that a stretch can cost. */
  private final double[][] least;

  /** The least that it can cost from a corner on. */
  private final double[] toGo;

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
    int n = corners.size();
    stretch = new GroundLine[n][n];
    least = new double[n][n];
    toGo = new double[n];
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
    int last = corners.size() - 1;
    bound(startInvertM);
    double enough = Math.min(cost(stepByStep(), startInvertM), cost(shortest(), startInvertM));
    List<List<Label>> at = new ArrayList<>();
    for (int i = 0; i <= last; i++) {
      at.add(new ArrayList<>());
    }
    at.get(0).add(new Label(0, startInvertM, 0, null));
    for (int i = 0; i < last; i++) {
      for (int j = i + 1; j <= last; j++) {
        for (Label label : at.get(i)) {
          if (label.cost + least[i][j] + toGo[j] <= enough * (1 + ROUNDING)) {
            extend(label, j, at.get(j));
          }
        }
      }
    }
    return at.get(last).stream()
        .min((a, b) -> Double.compare(a.cost, b.cost))
        .map(this::points)
        .orElse(corners);
  }

  /**
   * The stretches between corners, and by the highest invert that a pipe can have at each corner
   * the least that a stretch costs, and all that comes after it; turns are left out.
   */
  private void bound(double startInvertM) {
    int last = corners.size() - 1;
    double[] highestM = new double[last + 1];
    Arrays.fill(highestM, Double.NEGATIVE_INFINITY);
    highestM[0] = startInvertM;
    for (int i = 0; i < last; i++) {
      Arrays.fill(least[i], Double.POSITIVE_INFINITY);
      for (int j = i + 1; j <= last && highestM[i] != Double.NEGATIVE_INFINITY; j++) {
        GroundLine line = ground.graph().admitted(corners.get(i), corners.get(j));
        if (line != null) {
          stretch[i][j] = j == last ? outlet.ending(line, ground) : line;
          double v = StepGraph.highestAtEnd(stretch[i][j], highestM[i], bounds);
          if (v != Double.NEGATIVE_INFINITY) {
            least[i][j] = cost.line(stretch[i][j], highestM[i], v);
            highestM[j] = Math.max(highestM[j], v);
          }
        }
      }
    }
    for (int i = last - 1; i >= 0; i--) {
      toGo[i] = Double.POSITIVE_INFINITY;
      for (int j = i + 1; j <= last; j++) {
        toGo[i] = Math.min(toGo[i], least[i][j] + toGo[j]);
      }
    }
  }

  private int[] stepByStep() {
    return IntStream.range(0, corners.size()).toArray();
  }

  /** The corners of the line that costs least by the bound. */
  private int[] shortest() {
    int last = corners.size() - 1;
    return IntStream.iterate(
            0,
            i -> i <= last,
            i ->
                i == last
                    ? last + 1
                    : IntStream.rangeClosed(i + 1, last)
                        .filter(j -> least[i][j] + toGo[j] == toGo[i])
                        .findFirst()
                        .orElse(last + 1))
        .toArray();
  }

  /** What a line through the given corners costs; infinite where it can not be built. */
  private double cost(int[] through, double startInvertM) {
    List<Label> reached = List.of(new Label(0, startInvertM, 0, null));
    for (int n = 1; n < through.length && !reached.isEmpty(); n++) {
      List<Label> next = new ArrayList<>();
      extend(reached.get(0), through[n], next);
      reached = next;
    }
    boolean whole = through[through.length - 1] == corners.size() - 1;
    return whole && !reached.isEmpty() ? reached.get(0).cost : Double.POSITIVE_INFINITY;
  }

  private void extend(Label label, int to, List<Label> there) {
    GroundLine line = stretch[label.corner][to];
    if (line == null) {
      return;
    }
    double v = StepGraph.highestAtEnd(line, label.invertM, bounds);
    boolean last = to == corners.size() - 1;
    if (v == Double.NEGATIVE_INFINITY
        || (last && v < outlet.invertM() - bounds.outletLoweredM() - 1e-9)) {
      return;
    }
    double turn =
        label.before == null
            ? 0
            : cost.bend()
                + cost.turns(
                    List.of(
                        corners.get(label.before.corner),
                        corners.get(label.corner),
                        corners.get(to)));
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
