package org.yardfall.pipe;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

/**
 * How high the water stands along a drain while it carries its flow, from the outlet upstream.
 *
 * @param points the line by station, upstream to downstream, with the points in between
 * @param fullM length in metres that runs full
 * @param backwaterM length in metres from the outlet over which the water outside holds the drain's
 *     water more than {@value #NOTICEABLE_M} m higher than with a free outlet
 * @param outletLevelM level in metres at the outlet that the line starts from
 */
public record HydraulicGradeLine(
    List<Point> points, double fullM, double backwaterM, double outletLevelM) {

  /** Least rise in metres that counts as backwater. */
  public static final double NOTICEABLE_M = 0.001;

  private static final double STEP_M = 0.1;

  /** Nearer than this in metres to uniform depth the flow counts as uniform. */
  private static final double UNIFORM_M = 1e-7;

  /** Keeps the list to itself. */
  public HydraulicGradeLine {
    points = List.copyOf(points);
  }

  /**
   * A point of the pipe.
   *
   * @param stationM distance downstream in metres
   * @param groundM ground in metres
   * @param invertM invert in metres
   */
  public record Node(double stationM, double groundM, double invertM) {}

  /**
   * A stretch between two nodes.
   *
   * @param pipe the pipe
   * @param count how many of it lie side by side, sharing the flow
   * @param flowM3S flow in m³/s, 0 or more
   */
  public record Stretch(Pipe pipe, int count, double flowM3S) {

    /** Flow in m³/s of each pipe. */
    double eachM3S() {
      return flowM3S / count;
    }
  }

  /**
   * A point of the line.
   *
   * @param node the place
   * @param levelM the line there in metres; where the pipe runs part full, the water's surface
   * @param full whether the pipe runs full there
   */
  public record Point(Node node, double levelM, boolean full) {

    /** How far in metres the line stands over the ground; negative below it. */
    public double overGroundM() {
      return levelM - node.groundM();
    }
  }

  /**
   * The line along a drain by the standard step method (Chow 1959, ch. 10): the energy of two
   * sections differs by the friction between them, with Manning's friction slope at the upper one,
   * in full pipes as in part-full ones. On steep stretches the flow is uniform up to where the
   * outlet's backwater reaches; the jump is put at that curve's upper end, which is on the high
   * side. Losses at bends and at the inlet are left out. A free outlet stands at critical depth, at
   * uniform depth where the stretch is steep, and half way between critical depth and the crown
   * where the pipe runs full (FHWA HEC-22 ch. 7).
   *
   * @param nodes at least two, upstream to downstream
   * @param stretches one fewer than nodes
   * @param waterM level in metres of the water outside, empty where the outlet is free
   * @param lidM level in metres of a lid or grate that the water must rise to, where there is one
   */
  public static HydraulicGradeLine along(
      List<Node> nodes, List<Stretch> stretches, OptionalDouble waterM, OptionalDouble lidM) {
    if (nodes.size() < 2 || stretches.size() != nodes.size() - 1) {
      throw new IllegalArgumentException(
          "a stretch between every two nodes, and two nodes, needed");
    }
    double outside =
        Math.max(waterM.orElse(Double.NEGATIVE_INFINITY), lidM.orElse(Double.NEGATIVE_INFINITY));
    double free = freeOutletM(nodes, stretches);
    List<Point> line = climb(nodes, stretches, Math.max(free, outside));
    List<Point> undisturbed = outside > free ? climb(nodes, stretches, free) : line;

    double end = nodes.get(nodes.size() - 1).stationM();
    double full = 0;
    double backwater = 0;
    for (int i = 0; i < line.size(); i++) {
      Point point = line.get(i);
      if (i + 1 < line.size() && point.full() && line.get(i + 1).full()) {
        full += line.get(i + 1).node().stationM() - point.node().stationM();
      }
      if (point.levelM() - undisturbed.get(i).levelM() > NOTICEABLE_M) {
        backwater = Math.max(backwater, end - point.node().stationM());
      }
    }
    return new HydraulicGradeLine(line, full, backwater, Math.max(free, outside));
  }

  /** The point where the line stands highest over the ground, or comes closest to it. */
  public Point worst() {
    return Collections.max(points, Comparator.comparingDouble(Point::overGroundM));
  }

  /** Whether water would come out of the ground anywhere along the drain. */
  public boolean surcharges() {
    return worst().overGroundM() > 0;
  }

  /** The level in metres at a station, between points by proportion. */
  public double levelM(double stationM) {
    for (int i = 1; i < points.size(); i++) {
      Node down = points.get(i).node();
      if (stationM <= down.stationM() || i == points.size() - 1) {
        Node up = points.get(i - 1).node();
        double run = down.stationM() - up.stationM();
        double share = run > 0 ? Math.min(1, Math.max(0, (stationM - up.stationM()) / run)) : 1;
        return points.get(i - 1).levelM() * (1 - share) + points.get(i).levelM() * share;
      }
    }
    throw new IllegalStateException("a line has two points");
  }

  private static double freeOutletM(List<Node> nodes, List<Stretch> stretches) {
    int last = stretches.size() - 1;
    Stretch stretch = stretches.get(last);
    Node out = nodes.get(last + 1);
    double grade = grade(nodes.get(last), out);
    double inside = stretch.pipe().insideM();
    double critical = Manning.criticalDepthM(inside, stretch.eachM3S());
    double normal = Manning.normalDepthM(stretch.pipe(), grade, stretch.eachM3S());
    double depth = normal >= inside ? (critical + inside) / 2 : Math.min(critical, normal);
    return out.invertM() + depth;
  }

  private static List<Point> climb(List<Node> nodes, List<Stretch> stretches, double startM) {
    List<Point> upward = new ArrayList<>();
    double level = startM;
    upward.add(point(nodes.get(nodes.size() - 1), stretches.get(stretches.size() - 1), level));
    for (int i = stretches.size() - 1; i >= 0; i--) {
      Node up = nodes.get(i);
      Node down = nodes.get(i + 1);
      Stretch stretch = stretches.get(i);
      double run = down.stationM() - up.stationM();
      double flow = stretch.eachM3S();
      double critical = Manning.criticalDepthM(stretch.pipe().insideM(), flow);
      double normal = Manning.normalDepthM(stretch.pipe(), grade(up, down), flow);
      int steps = (int) Math.max(1, Math.ceil(run / STEP_M));
      for (int s = 1; s <= steps; s++) {
        Node from = between(down, up, (s - 1.0) / steps);
        Node to = s == steps ? up : between(down, up, (double) s / steps);
        level = step(stretch, critical, normal, from, to, level);
        upward.add(point(to, stretch, level));
      }
    }
    Collections.reverse(upward);
    return upward;
  }

  /** The level at the upper of two sections, given that at the lower. */
  private static double step(
      Stretch stretch, double critical, double normal, Node lower, Node upper, double levelM) {
    double flow = stretch.eachM3S();
    if (flow <= 0) {
      return Math.max(levelM, upper.invertM());
    }
    Pipe pipe = stretch.pipe();
    double run = lower.stationM() - upper.stationM();
    double friction = Manning.frictionSlope(pipe, flow, pipe.insideM());
    double depth = Math.max(levelM - lower.invertM(), Math.min(critical, normal));
    // Flow that arrives faster than critical comes from uniform flow above.
    if (depth < critical) {
      return upper.invertM() + normal;
    }
    boolean full = depth >= pipe.insideM();
    if (full && depth + lower.invertM() - upper.invertM() + run * friction >= pipe.insideM()) {
      return levelM + run * friction;
    }
    if (!full && Math.abs(depth - normal) < UNIFORM_M) {
      return upper.invertM() + normal;
    }
    double energy = lower.invertM() + head(pipe, flow, depth);
    double most = depth + pipe.insideM() + run * (1 + Manning.frictionSlope(pipe, flow, depth));
    if (upper.invertM() + balance(pipe, flow, critical, run) >= energy) {
      return upper.invertM() + (normal < critical ? normal : critical);
    }
    double found =
        Manning.rising(y -> upper.invertM() + balance(pipe, flow, y, run), energy, critical, most);
    // The curve nears uniform flow and never crosses it; a finite step might.
    if (normal < pipe.insideM()) {
      found = depth < normal ? Math.min(found, normal) : Math.max(found, normal);
    }
    return upper.invertM() + found;
  }

  /** Rises with the depth above critical, so a higher level below gives a higher one above. */
  private static double balance(Pipe pipe, double flow, double depth, double run) {
    return head(pipe, flow, depth) - run * Manning.frictionSlope(pipe, flow, depth);
  }

  /** Depth and velocity head in metres. */
  private static double head(Pipe pipe, double flow, double depth) {
    double velocity = flow / CircularSection.at(pipe.insideM(), depth).areaM2();
    return depth + velocity * velocity / (2 * Manning.GRAVITY);
  }

  private static Point point(Node node, Stretch stretch, double level) {
    return new Point(node, level, level >= node.invertM() + stretch.pipe().insideM() - 1e-9);
  }

  private static double grade(Node upper, Node lower) {
    double run = lower.stationM() - upper.stationM();
    return run > 0 ? (upper.invertM() - lower.invertM()) / run : 0;
  }

  private static Node between(Node from, Node to, double share) {
    return new Node(
        from.stationM() + share * (to.stationM() - from.stationM()),
        from.groundM() + share * (to.groundM() - from.groundM()),
        from.invertM() + share * (to.invertM() - from.invertM()));
  }
}
