package org.yardfall.route;

import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.elevation.GridFrame;

/**
 * The cells to which the exits of a collecting line lead, with the highest invert that their pipe
 * can have there: where a search upstream from the outlets is awaited.
 */
final class ExitCells {

  private static final double EPSILON_M = 1e-9;

  /** Room for rounding, so that nothing that arrives is ever given up. */
  private static final double ROUNDING_M = 1e-6;

  private final GridFrame frame;
  private final double minGrade;
  private final BitSet marked = new BitSet();
  private final Map<Integer, Double> highestM = new HashMap<>();
  private final Envelope around = new Envelope();
  private double topM = Double.NEGATIVE_INFINITY;

  private ExitCells(GridFrame frame, double minGrade) {
    this.frame = frame;
    this.minGrade = minGrade;
  }

  static ExitCells of(RouteGround ground, List<TrunkFinder.Start> starts, Bounds b) {
    ExitCells cells = new ExitCells(ground.frame(), b.minGrade());
    for (TrunkFinder.Start start : starts) {
      for (StepGraph.Link link : start.links(ground)) {
        cells.add(link.cell(), StepGraph.highestAtEnd(link.line(), start.invertM(), b));
      }
    }
    return cells;
  }

  private void add(int cell, double invertM) {
    if (invertM > highestM.getOrDefault(cell, Double.NEGATIVE_INFINITY)) {
      highestM.put(cell, invertM);
      marked.set(cell);
      topM = Math.max(topM, invertM);
      around.expandToInclude(frame.x(cell % frame.cols()), frame.y(cell / frame.cols()));
    }
  }

  /** Whether a pipe from an exit can go on from the cell at the given invert. */
  boolean at(int cell, double invertM) {
    return marked.get(cell) && highestM.get(cell) >= invertM - EPSILON_M;
  }

  /** The least that a pipe rises from the cell to any exit: by the least grade, straight. */
  double leastRiseM(int cell) {
    double x = frame.x(cell % frame.cols());
    double y = frame.y(cell / frame.cols());
    double dx = Math.max(0, Math.max(around.getMinX() - x, x - around.getMaxX()));
    double dy = Math.max(0, Math.max(around.getMinY() - y, y - around.getMaxY()));
    return minGrade * Math.sqrt(dx * dx + dy * dy);
  }

  /** Whether a pipe that must reach so high can still come from an exit. */
  boolean within(double leastInvertM) {
    return leastInvertM <= topM + ROUNDING_M;
  }
}
