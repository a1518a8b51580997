package org.yardfall.route;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.Site;
import org.yardfall.site.Surface;
import org.yardfall.trench.GroundCover;
import org.yardfall.trench.Work;

/**
 * What the cells and the lines of the graph are dug through, looked up once for all searches: it
 * depends neither on the bounds nor on what is to be least. Safe for use by several threads: two
 * that look up the same find the same.
 */
final class StepCover {

  /** How each stretch of a line is built, and under which cover. */
  @SuppressWarnings("ArrayRecordComponent") // read in hot loops, never handed out
  record Stretches(Work[] work, Surface.Kind[] cover) {}

  private final StepGraph graph;
  private final GroundCover cover;
  private final Surface.Kind[] byCell;
  private final Map<GroundLine, Stretches> byLine = new ConcurrentHashMap<>();

  StepCover(StepGraph graph, Site site) {
    this.graph = graph;
    this.cover = GroundCover.of(site);
    this.byCell = new Surface.Kind[graph.frame.size()];
  }

  /** The cover anywhere. */
  GroundCover cover() {
    return cover;
  }

  Surface.Kind at(int cell) {
    if (byCell[cell] == null) {
      Coordinate c = graph.centre(cell);
      byCell[cell] = cover.at(c.x, c.y);
    }
    return byCell[cell];
  }

  /** The same, remembered: for lines that searches come back to. */
  Stretches ofGraph(GroundLine line) {
    return byLine.computeIfAbsent(line, this::along);
  }

  Stretches along(GroundLine line) {
    Work[] work = new Work[line.size() - 1];
    Surface.Kind[] kind = new Surface.Kind[line.size() - 1];
    for (int i = 0; i < work.length; i++) {
      double x = (line.x[i] + line.x[i + 1]) / 2;
      double y = (line.y[i] + line.y[i + 1]) / 2;
      work[i] = LaidCost.work(line.span[i], cover, x, y);
      kind[i] = cover.at(x, y);
    }
    return new Stretches(work, kind);
  }
}
