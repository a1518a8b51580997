package org.yardfall.sheet;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.operation.linemerge.LineMerger;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.UnitSystem;

/**
 * Contour lines of a piece of ground by marching squares (Lorensen &amp; Cline 1987, in the plane),
 * for drawing.
 *
 * <p>A centre at or above the level counts as above, so no centre is ever on the level, and the
 * lines of neighbouring squares meet exactly. The ground is first averaged over 3 × 3 cells, twice,
 * so that the noise of a survey does not frill the lines; unknown ground has none. O(cells shown ·
 * levels crossing).
 */
final class Contours {

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();
  private static final int MOST_CELLS = 400;
  private static final int MOST_LEVELS = 16;
  private static final double[] STEPS = {0.1, 0.25, 0.5, 1, 2, 5, 10, 20, 50};

  private final double[] x;
  private final double[] y;
  private double[][] z;

  private Contours(ElevationGrid grid, Envelope window) {
    GridFrame frame = grid.frame();
    int west = Math.max(0, frame.col(window.getMinX()) - 2);
    int east = Math.min(frame.cols() - 1, frame.col(window.getMaxX()) + 2);
    int north = Math.max(0, frame.row(window.getMaxY()) - 2);
    int south = Math.min(frame.rows() - 1, frame.row(window.getMinY()) + 2);
    int step = 1 + Math.max(0, Math.max(east - west, south - north)) / MOST_CELLS;
    x = new double[Math.max(0, (east - west) / step + 1)];
    y = new double[Math.max(0, (south - north) / step + 1)];
    z = new double[y.length][x.length];
    for (int r = 0; r < y.length; r++) {
      y[r] = frame.y(north + r * step);
      for (int c = 0; c < x.length; c++) {
        x[c] = frame.x(west + c * step);
        z[r][c] = grid.at(west + c * step, north + r * step);
      }
    }
    z = averaged(averaged(z));
  }

  /**
   * A contour line.
   *
   * @param levelM its elevation in metres
   * @param line the line in metres of the working plane
   */
  record Contour(double levelM, LineString line) {}

  /** The contours of the ground within a window, {@code stepM} apart, from the lowest up. */
  static List<Contour> of(ElevationGrid grid, Envelope window, double stepM) {
    Contours contours = new Contours(grid, window);
    double[] range = contours.range();
    List<Contour> lines = new ArrayList<>();
    for (long i = (long) Math.ceil(range[0] / stepM); i * stepM <= range[1]; i++) {
      double level = i * stepM;
      contours.at(level).forEach(line -> lines.add(new Contour(level, line)));
    }
    return lines;
  }

  /** A round step in metres that gives a readable number of contours within a window. */
  static double stepM(ElevationGrid grid, Envelope window, UnitSystem units) {
    double[] range = new Contours(grid, window).range();
    for (double step : STEPS) {
      double metres = step * units.metresPerLengthUnit();
      if (!(range[1] - range[0] > metres * MOST_LEVELS)) {
        return metres;
      }
    }
    return STEPS[STEPS.length - 1] * units.metresPerLengthUnit();
  }

  private double[] range() {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (double[] row : z) {
      for (double value : row) {
        if (!Double.isNaN(value)) {
          low = Math.min(low, value);
          high = Math.max(high, value);
        }
      }
    }
    return new double[] {low, high};
  }

  private List<LineString> at(double level) {
    LineMerger merger = new LineMerger();
    for (int r = 0; r + 1 < y.length; r++) {
      for (int c = 0; c + 1 < x.length; c++) {
        square(merger, level, r, c);
      }
    }
    List<LineString> lines = new ArrayList<>();
    Collection<?> merged = merger.getMergedLineStrings();
    merged.forEach(line -> lines.add((LineString) line));
    return lines;
  }

  private void square(LineMerger merger, double level, int r, int c) {
    double nw = z[r][c];
    double ne = z[r][c + 1];
    double se = z[r + 1][c + 1];
    double sw = z[r + 1][c];
    if (Double.isNaN(nw + ne + se + sw)) {
      return;
    }
    int above =
        (nw >= level ? 8 : 0)
            + (ne >= level ? 4 : 0)
            + (se >= level ? 2 : 0)
            + (sw >= level ? 1 : 0);
    if (above == 0 || above == 15) {
      return;
    }
    Coordinate north = (nw >= level) != (ne >= level) ? along(level, r, c, r, c + 1) : null;
    Coordinate east = (ne >= level) != (se >= level) ? along(level, r, c + 1, r + 1, c + 1) : null;
    Coordinate south = (sw >= level) != (se >= level) ? along(level, r + 1, c, r + 1, c + 1) : null;
    Coordinate west = (nw >= level) != (sw >= level) ? along(level, r, c, r + 1, c) : null;
    if (above == 5 || above == 10) {
      // A saddle: the middle decides which corners belong together.
      boolean middle = (nw + ne + se + sw) / 4 >= level;
      boolean cutsNorthWest = (above == 10) != middle;
      add(merger, north, cutsNorthWest ? west : east);
      add(merger, south, cutsNorthWest ? east : west);
      return;
    }
    Coordinate first = null;
    for (Coordinate each : new Coordinate[] {north, east, south, west}) {
      if (each != null && first == null) {
        first = each;
      } else if (each != null) {
        add(merger, first, each);
      }
    }
  }

  private Coordinate along(double level, int r0, int c0, int r1, int c1) {
    double share = (level - z[r0][c0]) / (z[r1][c1] - z[r0][c0]);
    return new Coordinate(x[c0] + share * (x[c1] - x[c0]), y[r0] + share * (y[r1] - y[r0]));
  }

  private static void add(LineMerger merger, Coordinate from, Coordinate to) {
    if (!from.equals2D(to)) {
      merger.add(GEOMETRIES.createLineString(new Coordinate[] {from, to}));
    }
  }

  private static double[][] averaged(double[][] z) {
    double[][] smooth = new double[z.length][];
    for (int r = 0; r < z.length; r++) {
      smooth[r] = new double[z[r].length];
      for (int c = 0; c < z[r].length; c++) {
        smooth[r][c] = Double.isNaN(z[r][c]) ? Double.NaN : mean(z, r, c);
      }
    }
    return smooth;
  }

  /** The mean of the cells round one; its own level where one of them is not known. */
  private static double mean(double[][] z, int row, int col) {
    if (row == 0 || col == 0 || row == z.length - 1 || col == z[row].length - 1) {
      return z[row][col];
    }
    double sum = 0;
    for (int r = row - 1; r <= row + 1; r++) {
      for (int c = col - 1; c <= col + 1; c++) {
        sum += z[r][c];
      }
    }
    return Double.isNaN(sum) ? z[row][col] : sum / 9;
  }
}
