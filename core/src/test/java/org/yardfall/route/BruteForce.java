package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Outlet;
import org.yardfall.site.Surface;
import org.yardfall.trench.Work;

/**
 * Tries every simple path on a grid of a few cells. It shares with the search the definition of the
 * graph (cells of known ground, 16 whole-number steps, ways of up to 2.3 cells into the outlet) and
 * the ground along a straight line, and nothing of how the answer is found.
 */
final class BruteForce {

  static final int COLS = 3;
  static final int ROWS = 3;

  final RouteGround ground;
  final OutletTarget outlet;
  final Bounds bounds;
  private final ElevationGrid grid;
  private final GroundLine[][] step = new GroundLine[COLS * ROWS][COLS * ROWS];
  private final GroundLine[] arrival = new GroundLine[COLS * ROWS];
  private final double[] lowest = new double[COLS * ROWS];
  private final boolean[] used = new boolean[COLS * ROWS];
  private double best;

  BruteForce(long seed) {
    Random random = new Random(seed);
    double rough = 0.02 + 0.25 * random.nextDouble();
    double closed = 0.25 * random.nextDouble();
    grid =
        RouteFixtures.ground(
            COLS,
            ROWS,
            1,
            (x, y) -> random.nextDouble() < closed ? Double.NaN : 10 + rough * random.nextDouble());
    double head = 0.05 + 0.2 * random.nextDouble();
    Outlet.Kind kind = random.nextBoolean() ? Outlet.Kind.CATCH_BASIN : Outlet.Kind.DITCH;
    Outlet at =
        RouteFixtures.outlet(
            "O",
            kind,
            COLS * random.nextDouble(),
            ROWS * random.nextDouble(),
            10 - 0.15 - 0.116 - head + rough / 2);
    ground = RouteFixtures.site().outlet(at).on(grid);
    outlet = OutletTarget.of(at, ground);
    bounds =
        new Bounds(
            0.005 + 0.05 * random.nextDouble(),
            1,
            0.15,
            0.30 + 0.3 * random.nextDouble(),
            0.116,
            0.116,
            0);
    edges();
  }

  private void edges() {
    for (int n = 0; n < COLS * ROWS; n++) {
      if (Float.isNaN(grid.z()[n])) {
        continue;
      }
      for (int c = 0; c < COLS * ROWS; c++) {
        int dc = Math.abs(c % COLS - n % COLS);
        int dr = Math.abs(c / COLS - n / COLS);
        boolean stencil = dc <= 2 && dr <= 2 && dc + dr > 0 && (dc == 1 || dr == 1);
        if (stencil && !Float.isNaN(grid.z()[c])) {
          step[n][c] = ground.line(List.of(centre(n), centre(c))).orElse(null);
        }
      }
      if (centre(n).distance(outlet.at()) <= 2.3) {
        GroundLine line = ground.line(List.of(centre(n), outlet.at())).orElse(null);
        arrival[n] = line == null ? null : outlet.ending(line, ground);
      }
    }
  }

  Coordinate centre(int n) {
    return new Coordinate(n % COLS + 0.5, ROWS - n / COLS - 0.5);
  }

  /** Lowest invert from which each cell can drain; NaN where none does. */
  double[] lowestInverts(Bounds b) {
    java.util.Arrays.fill(lowest, Double.NaN);
    for (int n = 0; n < COLS * ROWS; n++) {
      if (arrival[n] != null) {
        climb(n, up(arrival[n], outlet.invertM() - b.outletLoweredM(), b), b);
      }
    }
    return lowest.clone();
  }

  private void climb(int n, double invert, Bounds b) {
    if (Double.isNaN(invert)) {
      return;
    }
    if (!(lowest[n] <= invert)) {
      lowest[n] = invert;
    }
    used[n] = true;
    for (int m = 0; m < COLS * ROWS; m++) {
      if (!used[m] && step[m][n] != null) {
        climb(m, up(step[m][n], invert, b), b);
      }
    }
    used[n] = false;
  }

  /** Every place on the way up in turn: the pipe rises by the grade or to the greatest depth. */
  private static double up(GroundLine line, double invert, Bounds b) {
    double v = invert;
    for (int i = line.size() - 2; i >= 0; i--) {
      v += b.minGrade() * (line.stationM[i + 1] - line.stationM[i]);
      if (!line.free[i]) {
        v = Math.max(v, line.highM[i] - b.maxDepthM());
        if (v > line.lowM[i] - b.minCoverM() - b.outsideM() + 1e-9) {
          return Double.NaN;
        }
      }
    }
    return v;
  }

  /** A cost that is easy to do by hand: by length and depth, and a fixed amount a turn. */
  static final TrenchCost COST =
      new TrenchCost() {
        @Override
        public double metre(Work work, double depthM, Surface.Kind cover) {
          return 3 + 40 * depthM;
        }

        @Override
        public double turn(double turnDeg) {
          return turnDeg >= 10 ? 2 : 0;
        }
      };

  /** Least cost from a cell's centre to the outlet with the pipe as high as it goes; infinite. */
  double leastCost(int start, double invert) {
    best = Double.POSITIVE_INFINITY;
    double top = Math.min(invert, grid.z()[start] - bounds.minCoverM() - bounds.outsideM());
    // the trunk starts at a point; from there it may go straight to any cell within 2.3 cells
    for (int c = 0; c < COLS * ROWS; c++) {
      if (!Float.isNaN(grid.z()[c]) && centre(start).distance(centre(c)) <= 2.3) {
        GroundLine line = ground.line(List.of(centre(start), centre(c))).orElse(null);
        if (line != null) {
          double v = down(line, invert);
          if (!Double.isNaN(v)) {
            descend(c, -1, v, along(line, invert, v));
          }
        }
      }
    }
    GroundLine straight = ground.line(List.of(centre(start), outlet.at())).orElse(null);
    if (straight != null) {
      arrive(outlet.ending(straight, ground), top, invert, 0);
    }
    return best;
  }

  private void descend(int n, int from, double invert, double sum) {
    if (sum >= best) {
      return;
    }
    used[n] = true;
    if (arrival[n] != null) {
      arrive(arrival[n], invert, invert, sum);
    }
    for (int c = 0; c < COLS * ROWS; c++) {
      if (!used[c] && step[n][c] != null) {
        double v = down(step[n][c], invert);
        if (!Double.isNaN(v)) {
          double depth = (grid.z()[n] - invert + grid.z()[c] - v) / 2;
          double turn = from < 0 ? 0 : COST.turn(turnDeg(from, n, c));
          double length = centre(n).distance(centre(c));
          descend(c, n, v, sum + turn + length * COST.metre(Work.OPEN, depth, Surface.Kind.LAWN));
        }
      }
    }
    used[n] = false;
  }

  private void arrive(GroundLine line, double top, double invert, double sum) {
    double v = down(line, top);
    if (!Double.isNaN(v) && v >= outlet.invertM() - 1e-9) {
      best = Math.min(best, sum + along(line, invert, v));
    }
  }

  private static double turnDeg(int a, int b, int c) {
    double first = Math.atan2(b / COLS - a / COLS, b % COLS - a % COLS);
    double second = Math.atan2(c / COLS - b / COLS, c % COLS - b % COLS);
    double turn = Math.toDegrees(Math.abs(first - second));
    return Math.min(turn, 360 - turn);
  }

  private double down(GroundLine line, double invert) {
    double v = Double.POSITIVE_INFINITY;
    for (int i = 0; i < line.size(); i++) {
      v = i == 0 ? invert : v - bounds.minGrade() * (line.stationM[i] - line.stationM[i - 1]);
      if (!line.free[i]) {
        v = Math.min(v, line.lowM[i] - bounds.minCoverM() - bounds.outsideM());
        if (v < line.highM[i] - bounds.maxDepthM() - 1e-9) {
          return Double.NaN;
        }
      }
      v = Math.min(v, line.ceilingM[i] - bounds.outsideM());
    }
    return v;
  }

  private static double along(GroundLine line, double top, double end) {
    double sum = 0;
    List<Double> depth = new ArrayList<>();
    for (int i = 0; i < line.size(); i++) {
      double share = line.lengthM() == 0 ? 0 : line.stationM[i] / line.lengthM();
      depth.add(Math.max(0, line.groundM[i] - top - (end - top) * share));
      if (i > 0) {
        sum +=
            (line.stationM[i] - line.stationM[i - 1])
                * COST.metre(Work.OPEN, (depth.get(i - 1) + depth.get(i)) / 2, Surface.Kind.LAWN);
      }
    }
    return sum;
  }
}
