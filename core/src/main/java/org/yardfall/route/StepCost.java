package org.yardfall.route;

import java.util.Arrays;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.trench.Work;

/** What steps, bores and whole lines cost with a pipe at given inverts. */
final class StepCost {

  private final StepGraph graph;
  private final StepCover cover;
  private final TrenchCost cost;
  private final double[][] turn;

  /** By the directions plus one, from which 0 stands for none. */
  private final double[][] dearer;

  StepCost(RouteGround ground, TrenchCost cost) {
    this.graph = ground.graph();
    this.cover = ground.stepCover();
    this.cost = cost;
    int steps = graph.stencil.steps;
    turn = new double[steps][steps];
    for (int a = 0; a < steps; a++) {
      for (int b = 0; b < steps; b++) {
        turn[a][b] = cost.turn(turnDeg(a, b));
      }
    }
    dearer = new double[steps + 1][steps + 1];
    for (int a = 0; a < steps; a++) {
      for (int b = 0; b < steps; b++) {
        for (int on = 0; on < steps; on++) {
          dearer[a + 1][b + 1] = Math.max(dearer[a + 1][b + 1], turn[a][on] - turn[b][on]);
          dearer[a + 1][0] = Math.max(dearer[a + 1][0], turn[a][on]);
        }
      }
    }
  }

  private double turnDeg(int a, int b) {
    Stencil s = graph.stencil;
    double cross = s.dCol[a] * s.dRow[b] - s.dRow[a] * s.dCol[b];
    double dot = s.dCol[a] * s.dCol[b] + s.dRow[a] * s.dRow[b];
    return Math.toDegrees(Math.abs(Math.atan2(cross, dot)));
  }

  double turn(int a, int b) {
    return turn[a][b];
  }

  /** The cheapest turn that costs anything; 0 where none does. */
  double leastTurn() {
    return Arrays.stream(turn)
        .flatMapToDouble(Arrays::stream)
        .filter(price -> price > 0)
        .min()
        .orElse(0);
  }

  /** The most by which any turn can be dearer coming in direction a than b; −1: no turn at all. */
  double dearerTurn(int a, int b) {
    return dearer[a + 1][b + 1];
  }

  /** Cost of a step with the given inverts at its ends. */
  double step(int n, int k, double topInvertM, double endInvertM) {
    int to = graph.target(n, k);
    if ((graph.special[n] >> k & 1) != 0) {
      return line(graph.specialLine(n, k), topInvertM, endInvertM);
    }
    double depth =
        (Math.max(0, graph.groundM(n) - topInvertM) + Math.max(0, graph.groundM(to) - endInvertM))
            / 2;
    return graph.stencil.length[k]
        * graph.frame.cellM()
        * cost.metre(Work.OPEN, depth, cover.at(n));
  }

  /** Cost of a line at one grade from one invert to the other. */
  double line(GroundLine line, double topInvertM, double endInvertM) {
    double[] v = new double[line.size()];
    double length = Math.max(line.lengthM(), 1e-9);
    Arrays.setAll(v, i -> topInvertM + (endInvertM - topInvertM) * line.stationM[i] / length);
    return line(line, v, cover.ofGraph(line));
  }

  /** Cost of a line with the given inverts, its turns left out. */
  double line(GroundLine line, double[] invertM) {
    return line(line, invertM, cover.along(line));
  }

  private double line(GroundLine line, double[] invertM, StepCover.Stretches stretches) {
    double sum = 0;
    for (int i = 0; i + 1 < line.size(); i++) {
      double depth =
          (Math.max(0, line.groundM[i] - invertM[i])
                  + Math.max(0, line.groundM[i + 1] - invertM[i + 1]))
              / 2;
      sum +=
          (line.stationM[i + 1] - line.stationM[i])
              * cost.metre(stretches.work()[i], depth, stretches.cover()[i]);
    }
    return sum;
  }

  /** Cost that a bend may add in straightening. */
  double bend() {
    return cost.bend();
  }

  /** Cost of the turns of a line. */
  double turns(List<Coordinate> points) {
    return LaidCost.turns(points, cost);
  }

  /** Cost of a line as laid. */
  double laid(DrainLine line) {
    return LaidCost.of(line, cover.cover(), cost);
  }
}
