package org.yardfall.sheet;

import java.util.Arrays;
import java.util.List;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.elevation.Contour;
import org.yardfall.elevation.Contours;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.UnitSystem;

/**
 * The contours of a drawing: those of its piece of the ground, thinned to {@value #MOST_CELLS}
 * cells across and averaged over 3 × 3 cells, twice, so that the noise of a survey does not frill
 * the lines.
 *
 * @param stepM height between contours in metres
 * @param lines the contours, from the lowest up
 */
record DrawnContours(double stepM, List<Contour> lines) {

  private static final int MOST_CELLS = 400;
  private static final int MOST_LEVELS = 16;

  /** Ground beyond the window that is taken in, so that averaging does not bend lines within it. */
  private static final int RIM_CELLS = 2;

  private static final double[] STEPS = {0.1, 0.25, 0.5, 1, 2, 5, 10, 20, 50};

  /** With a step that is round in the reader's units and gives a readable number of lines. */
  static DrawnContours of(ElevationGrid grid, Envelope window, UnitSystem units) {
    ElevationGrid piece = piece(grid, window);
    double relief = relief(piece);
    double unit = units.metresPerLengthUnit();
    double step =
        Arrays.stream(STEPS)
            .map(each -> each * unit)
            .filter(each -> !(relief > each * MOST_LEVELS))
            .findFirst()
            .orElse(STEPS[STEPS.length - 1] * unit);
    return new DrawnContours(step, Contours.of(piece, step));
  }

  private static ElevationGrid piece(ElevationGrid grid, Envelope window) {
    GridFrame frame = grid.frame();
    int west = column(frame, window.getMinX(), -RIM_CELLS);
    int east = column(frame, window.getMaxX(), RIM_CELLS);
    int north = row(frame, window.getMaxY(), -RIM_CELLS);
    int south = row(frame, window.getMinY(), RIM_CELLS);
    int step = 1 + Math.max(east - west, south - north) / MOST_CELLS;
    double cell = step * frame.cellM();
    GridFrame thin =
        new GridFrame(
            (east - west) / step + 1,
            (south - north) / step + 1,
            frame.x(west) - cell / 2,
            frame.y(north) + cell / 2,
            cell);
    float[] z = new float[thin.size()];
    for (int i = 0; i < z.length; i++) {
      z[i] = grid.at(west + i % thin.cols() * step, north + i / thin.cols() * step);
    }
    return new ElevationGrid(thin, averaged(averaged(z, thin.cols()), thin.cols()));
  }

  private static int column(GridFrame frame, double x, int rim) {
    return Math.max(0, Math.min(frame.cols() - 1, frame.col(x) + rim));
  }

  private static int row(GridFrame frame, double y, int rim) {
    return Math.max(0, Math.min(frame.rows() - 1, frame.row(y) + rim));
  }

  private static double relief(ElevationGrid grid) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (float z : grid.z()) {
      low = z < low ? z : low;
      high = z > high ? z : high;
    }
    return high - low;
  }

  private static float[] averaged(float[] z, int cols) {
    float[] smooth = new float[z.length];
    for (int i = 0; i < z.length; i++) {
      smooth[i] = mean(z, cols, i);
    }
    return smooth;
  }

  /** The mean of the cells round one; its own level where one of them is not known. */
  private static float mean(float[] z, int cols, int cell) {
    int col = cell % cols;
    if (col == 0 || col == cols - 1 || cell < cols || cell >= z.length - cols) {
      return z[cell];
    }
    double sum = 0;
    for (int row = -1; row <= 1; row++) {
      for (int side = -1; side <= 1; side++) {
        sum += z[cell + row * cols + side];
      }
    }
    return Double.isNaN(sum) || Float.isNaN(z[cell]) ? z[cell] : (float) (sum / 9);
  }
}
