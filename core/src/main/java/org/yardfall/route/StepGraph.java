package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicReference;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * The graph that is searched: cells whose centre may be dug, the stencil's steps between them that
 * may be dug in that direction, and straight bores under slabs. What a step costs in height is read
 * from all the ground it crosses.
 */
final class StepGraph {

  /** A straight bore from one cell to another, its ends open ground. */
  record Bore(int from, int to, int direction, GroundLine line) {}

  /** A way between a point off the cells and a cell. */
  record Link(int cell, GroundLine line) {}

  private record Around(double x, double y, double withinM, boolean toPoint) {}

  private static final Bore[] NO_BORES = {};

  /** A shorter bore in metres only brushes a slab's corner; a trench goes round that. */
  private static final double LEAST_BORE_M = 0.3;

  /** On a larger grid the falls along all steps would take too much memory to keep. */
  private static final int MOST_KEPT = 1_000_000;

  final GridFrame frame;
  final Stencil stencil;
  final boolean[] open;

  /** Bit k: the step in direction k may be dug downstream. */
  final int[] out;

  /** Bit k: the step that comes to the cell in direction k may be dug downstream. */
  final int[] in;

  /** Bit k: the step in direction k runs through a zone and has a ground line of its own. */
  final int[] special;

  private final float[] z;
  private final TrenchRules rules;
  private final GroundSampler sampler;
  private final double maxBoreM;
  private final int[][][] offsets;
  private final double[][][] weights;

  /** How far on in the grid a step leads. */
  private final int[] onward;

  /** By cell and direction; null at cells without any. */
  private final GroundLine[][] specialLine;

  private final Bore[][] boresFrom;
  private final Bore[][] boresTo;
  private final Map<Around, List<Link>> linksKnown = new ConcurrentHashMap<>();
  private final AtomicReference<StepFalls> falls = new AtomicReference<>();
  private final int mostLooks;

  StepGraph(
      ElevationGrid ground, TrenchRules rules, GroundSampler sampler, RouteSettings settings) {
    this.frame = ground.frame();
    this.z = ground.z();
    this.rules = rules;
    this.sampler = sampler;
    this.maxBoreM = settings.maxBoreM();
    this.stencil = new Stencil(settings.neighbours());
    this.open = new boolean[frame.size()];
    this.out = new int[frame.size()];
    this.in = new int[frame.size()];
    this.special = new int[frame.size()];
    this.specialLine = new GroundLine[frame.size()][];
    this.boresFrom = new Bore[frame.size()][];
    this.boresTo = new Bore[frame.size()][];
    Arrays.fill(boresFrom, NO_BORES);
    Arrays.fill(boresTo, NO_BORES);
    this.offsets = new int[stencil.steps][][];
    this.weights = new double[stencil.steps][][];
    this.onward = new int[stencil.steps];
    int most = 0;
    for (int k = 0; k < stencil.steps; k++) {
      offsets[k] = stencil.offsets(k, frame.cols());
      weights[k] = stencil.weights(k);
      onward[k] = stencil.dRow[k] * frame.cols() + stencil.dCol[k];
      most = Math.max(most, offsets[k].length);
    }
    mostLooks = most;
    openCells();
    for (int n = 0; n < out.length; n++) {
      for (int left = out[n]; left != 0; left &= left - 1) {
        int k = Integer.numberOfTrailingZeros(left);
        in[target(n, k)] |= 1 << k;
      }
    }
  }

  private void openCells() {
    int[] ring = new int[frame.size()];
    boolean[] quiet = new boolean[frame.size()];
    double reach = Arrays.stream(stencil.length).max().orElse(0) * frame.cellM() + 1e-6;
    for (int row = 0; row < frame.rows(); row++) {
      for (int col = 0; col < frame.cols(); col++) {
        int n = row * frame.cols() + col;
        double x = frame.x(col);
        double y = frame.y(row);
        open[n] = !Float.isNaN(z[n]) && rules.diggable(x, y);
        if (open[n]) {
          ring[n] = rules.ring(x, y);
          quiet[n] = ring[n] != 1 && rules.nothingWithin(x, y, reach);
        }
      }
    }
    for (int row = 0; row < frame.rows(); row++) {
      for (int col = 0; col < frame.cols(); col++) {
        int n = row * frame.cols() + col;
        if (open[n]) {
          for (int k = 0; k < stencil.steps; k++) {
            openStep(n, col, row, k, ring, quiet[n]);
          }
        }
      }
    }
  }

  private void openStep(int n, int col, int row, int k, int[] ring, boolean quiet) {
    int toCol = col + stencil.dCol[k];
    int toRow = row + stencil.dRow[k];
    if (!frame.has(toCol, toRow) || !known(n, k)) {
      return;
    }
    int to = toRow * frame.cols() + toCol;
    if (quiet && open[to]) {
      out[n] |= 1 << k;
      return;
    }
    double x0 = frame.x(col);
    double y0 = frame.y(row);
    boolean slab = false;
    boolean zone = false;
    for (Zone each : rules.zones()) {
      if (each.area().meets(x0, y0, frame.x(toCol), frame.y(toRow))) {
        slab |= each.span() == Station.Span.BORED;
        zone |= each.span() != Station.Span.BORED;
      }
    }
    if (slab) {
      openBore(n, col, row, k);
    } else if (open[to]
        && ring[to] >= ring[n]
        && rules.admits(x0, y0, frame.x(toCol), frame.y(toRow))) {
      out[n] |= 1 << k;
      if (zone) {
        special[n] |= 1 << k;
        if (specialLine[n] == null) {
          specialLine[n] = new GroundLine[stencil.steps];
        }
        specialLine[n][k] = line(x0, y0, frame.x(toCol), frame.y(toRow));
      }
    }
  }

  /** Goes straight on until the slab is passed; a bore must not end where nothing can be dug. */
  private void openBore(int n, int col, int row, int k) {
    double most = maxBoreM + 2 * stencil.length[k] * frame.cellM();
    for (int m = 1; m * stencil.length[k] * frame.cellM() <= most; m++) {
      int toCol = col + m * stencil.dCol[k];
      int toRow = row + m * stencil.dRow[k];
      if (!frame.has(toCol, toRow)) {
        return;
      }
      int to = toRow * frame.cols() + toCol;
      if (open[to]) {
        GroundLine line = admitted(centre(n), centre(to));
        if (line != null) {
          Bore bore = new Bore(n, to, k, line);
          add(boresFrom, n, bore);
          add(boresTo, to, bore);
        }
        return;
      }
    }
  }

  private static void add(Bore[][] bores, int at, Bore bore) {
    bores[at] = Arrays.copyOf(bores[at], bores[at].length + 1);
    bores[at][bores[at].length - 1] = bore;
  }

  private boolean known(int n, int k) {
    for (int[] cells : offsets[k]) {
      for (int cell : cells) {
        if (Float.isNaN(z[n + cell])) {
          return false;
        }
      }
    }
    return true;
  }

  private GroundLine line(double x0, double y0, double x1, double y1) {
    return sampler.along(List.of(new Coordinate(x0, y0), new Coordinate(x1, y1)));
  }

  GroundLine specialLine(int n, int k) {
    return specialLine[n][k];
  }

  Bore[] boresFrom(int n) {
    return boresFrom[n];
  }

  Bore[] boresTo(int n) {
    return boresTo[n];
  }

  /** The cell that a step leads to. */
  int target(int n, int k) {
    return n + onward[k];
  }

  /** The cell that a step comes from, where one comes in that direction. */
  int source(int n, int k) {
    return n - onward[k];
  }

  /** How a pipe falls along the steps; that of the first grade asked for is kept. */
  StepFalls falls(Bounds b) {
    StepFalls kept = falls.get();
    if (kept == null) {
      if (frame.size() > MOST_KEPT) {
        return StepFalls.once(this, b.minGrade());
      }
      falls.compareAndSet(null, StepFalls.kept(this, b.minGrade()));
      kept = falls.get();
    }
    return kept.minGrade() == b.minGrade() ? kept : StepFalls.once(this, b.minGrade());
  }

  double groundM(int n) {
    return z[n];
  }

  Coordinate centre(int n) {
    return new Coordinate(frame.x(n % frame.cols()), frame.y(n / frame.cols()));
  }

  /** Most places at which the ground is looked at along a step. */
  int mostLooks() {
    return mostLooks;
  }

  /**
   * The ground along a step, less and plus the bow between cells; returns the number of places.
   *
   * @param low lowest ground by place, filled in
   * @param high highest ground by place, filled in
   */
  int look(int n, int k, double[] low, double[] high) {
    int[][] cells = offsets[k];
    double[][] share = weights[k];
    int m = cells.length;
    for (int i = 0; i < m; i++) {
      int[] at = cells[i];
      double[] by = share[i];
      double sum = 0;
      for (int c = 0; c < at.length; c++) {
        sum += by[c] * z[n + at[c]];
      }
      low[i] = sum;
      high[i] = sum;
    }
    double next = low[0];
    for (int p = 0; p + 2 < m; p += 2) {
      double first = next;
      double middle = low[p + 1];
      next = low[p + 2];
      double bow = (first - 2 * middle + next) / 8;
      if (bow > 0) {
        low[p] = Math.min(low[p], first - bow);
        low[p + 1] = middle - bow;
        low[p + 2] = next - bow;
      } else {
        high[p] = Math.max(high[p], first - bow);
        high[p + 1] = middle - bow;
        high[p + 2] = next - bow;
      }
    }
    return m;
  }

  /**
   * Highest invert at the end of a ground line for a pipe that starts no higher than given;
   * −infinity where none stays within the depth.
   */
  static double highestAtEnd(GroundLine line, double topInvertM, Bounds b) {
    double[] v = line.highestDown(topInvertM, b);
    return v == null ? Double.NEGATIVE_INFINITY : v[v.length - 1];
  }

  /** The ground straight from one point to another, or null where that may not be built. */
  GroundLine admitted(Coordinate from, Coordinate to) {
    if (!rules.admits(from.x, from.y, to.x, to.y)) {
      return null;
    }
    GroundLine line = line(from.x, from.y, to.x, to.y);
    return line == null || !line.boresWithin(LEAST_BORE_M, maxBoreM) ? null : line;
  }

  /**
   * Ways between a point and the cells around it that may be dug in the given direction.
   *
   * @param point a point anywhere on the grid
   * @param withinM how far away cells are looked for, in metres
   * @param toPoint whether the water runs to the point
   */
  List<Link> links(Coordinate point, double withinM, boolean toPoint) {
    return linksKnown.computeIfAbsent(
        new Around(point.x, point.y, withinM, toPoint),
        around -> findLinks(point, withinM, toPoint));
  }

  private List<Link> findLinks(Coordinate point, double withinM, boolean toPoint) {
    List<Link> links = new ArrayList<>();
    int reach = (int) Math.ceil(withinM / frame.cellM());
    int col0 = frame.col(point.x);
    int row0 = frame.row(point.y);
    for (int row = row0 - reach; row <= row0 + reach; row++) {
      for (int col = col0 - reach; col <= col0 + reach; col++) {
        if (!frame.has(col, row) || !open[row * frame.cols() + col]) {
          continue;
        }
        Coordinate cell = new Coordinate(frame.x(col), frame.y(row));
        if (cell.distance(point) > withinM) {
          continue;
        }
        GroundLine line = toPoint ? admitted(cell, point) : admitted(point, cell);
        if (line != null) {
          links.add(new Link(row * frame.cols() + col, line));
        }
      }
    }
    return links;
  }
}
