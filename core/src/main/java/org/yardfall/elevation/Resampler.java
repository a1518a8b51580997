package org.yardfall.elevation;

import java.awt.Rectangle;
import java.util.stream.IntStream;

/**
 * Brings elevations onto another grid by bilinear interpolation between cell centres. A cell that
 * is not known makes every point unknown to whose value it would contribute, so voids never bleed.
 * Nothing is found beyond the outer edges of the rasters' cells; in their outermost half the
 * nearest centres are used.
 */
final class Resampler {

  /** A point this near a line between centres, in cells, lies on it. */
  private static final double ON_CENTRE = 1e-6;

  private final PlaneToCell planeToCell;
  private final Rectangle bounds;

  /**
   * A resampler.
   *
   * @param planeToCell from the working plane to (column, row) of the rasters' grid
   * @param bounds columns and rows that the rasters cover
   */
  Resampler(PlaneToCell planeToCell, Rectangle bounds) {
    this.planeToCell = planeToCell;
    this.bounds = bounds;
  }

  /** From metres of the working plane to columns and rows. */
  @FunctionalInterface
  interface PlaneToCell {
    /** Transforms pairs x0, y0, x1, y1, … in place. */
    void apply(double[] xy);
  }

  /** The columns and rows that a frame needs; empty where the rasters do not reach. */
  Rectangle window(GridFrame frame) {
    double[] edge = outline(frame);
    planeToCell.apply(edge);
    double minX = Double.POSITIVE_INFINITY;
    double minY = Double.POSITIVE_INFINITY;
    double maxX = Double.NEGATIVE_INFINITY;
    double maxY = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < edge.length; i += 2) {
      minX = Math.min(minX, edge[i]);
      maxX = Math.max(maxX, edge[i]);
      minY = Math.min(minY, edge[i + 1]);
      maxY = Math.max(maxY, edge[i + 1]);
    }
    // Two cells more: one for interpolation, one for the bulge of a line between points.
    long west = Math.max(bounds.x, (long) Math.floor(minX) - 2);
    long north = Math.max(bounds.y, (long) Math.floor(minY) - 2);
    long east = Math.min((long) bounds.x + bounds.width, (long) Math.ceil(maxX) + 2);
    long south = Math.min((long) bounds.y + bounds.height, (long) Math.ceil(maxY) + 2);
    return east <= west || south <= north
        ? new Rectangle()
        : new Rectangle((int) west, (int) north, (int) (east - west), (int) (south - north));
  }

  private static double[] outline(GridFrame frame) {
    int steps = 64;
    double[] xy = new double[8 * steps];
    double width = frame.cols() * frame.cellM();
    double height = frame.rows() * frame.cellM();
    for (int i = 0; i < steps; i++) {
      double dx = width * i / steps;
      double dy = height * i / steps;
      int at = 8 * i;
      xy[at] = frame.westM() + dx;
      xy[at + 1] = frame.northM();
      xy[at + 2] = frame.westM() + width;
      xy[at + 3] = frame.northM() - dy;
      xy[at + 4] = frame.westM() + width - dx;
      xy[at + 5] = frame.northM() - height;
      xy[at + 6] = frame.westM();
      xy[at + 7] = frame.northM() - height + dy;
    }
    return xy;
  }

  /**
   * Elevations at the centres of a frame's cells.
   *
   * @param frame the grid wanted
   * @param window columns and rows that {@code z} covers, as from {@link #window}
   * @param z elevations of that window, row by row
   */
  float[] resample(GridFrame frame, Rectangle window, float[] z) {
    float[] result = new float[frame.size()];
    IntStream.range(0, frame.rows())
        .parallel()
        .forEach(
            row -> {
              double[] xy = new double[2 * frame.cols()];
              for (int col = 0; col < frame.cols(); col++) {
                xy[2 * col] = frame.x(col);
                xy[2 * col + 1] = frame.y(row);
              }
              planeToCell.apply(xy);
              for (int col = 0; col < frame.cols(); col++) {
                result[row * frame.cols() + col] = at(xy[2 * col], xy[2 * col + 1], window, z);
              }
            });
    return result;
  }

  private float at(double col, double row, Rectangle window, float[] z) {
    if (!(col >= bounds.x - ON_CENTRE
        && col <= bounds.x + bounds.width + ON_CENTRE
        && row >= bounds.y - ON_CENTRE
        && row <= bounds.y + bounds.height + ON_CENTRE)) {
      return Float.NaN;
    }
    double u = clamp(col - 0.5 - window.x, window.width - 1);
    double v = clamp(row - 0.5 - window.y, window.height - 1);
    int west = (int) u;
    int north = (int) v;
    double fu = snap(u - west);
    double fv = snap(v - north);
    if (fu == 1) {
      west++;
      fu = 0;
    }
    if (fv == 1) {
      north++;
      fv = 0;
    }
    int i = north * window.width + west;
    double top = mix(z, i, fu);
    return (float) (fv == 0 ? top : top + (mix(z, i + window.width, fu) - top) * fv);
  }

  private static double mix(float[] z, int i, double share) {
    return share == 0 ? z[i] : z[i] + ((double) z[i + 1] - z[i]) * share;
  }

  private static double snap(double share) {
    return share < ON_CENTRE ? 0 : share > 1 - ON_CENTRE ? 1 : share;
  }

  private static double clamp(double value, double max) {
    return Math.max(0, Math.min(max, value));
  }
}
