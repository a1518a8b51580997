package org.yardfall.elevation;

import java.awt.Rectangle;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.yardfall.site.BadInputException;

/**
 * Lays rasters over each other, earlier ones on top, and watches for a step between them: two
 * rasters that differ by a constant where they overlap, or that meet edge to edge with one, stand
 * on different datums or units. Such a step would be a wall in the ground; it is never blended
 * away.
 *
 * <p>The step is the median difference. It counts when it exceeds three standard errors of a
 * median, 1.2533 σ/√n with σ as 1.4826 times the median absolute deviation (the usual estimates for
 * normal noise), and 2 cm. From the stated accuracy on it is an error, below it a warning.
 */
final class Seams {

  private static final int FEWEST = 12;
  private static final double LEAST_STEP_M = 0.02;
  private static final int MOST_COMPARED = 200_000;

  private final double accuracyM;
  private final List<String> warnings = new ArrayList<>();

  Seams(double accuracyM) {
    this.accuracyM = accuracyM;
  }

  /** What was found, in words. */
  List<String> warnings() {
    return warnings;
  }

  /**
   * Fills the unknown cells of a window from a later raster.
   *
   * @param z elevations so far, row by row; filled here
   * @param later the later raster's elevations in the same window
   * @param window the window
   * @param shared the part of the window in which the later raster may know cells
   * @param name the later raster's name
   * @throws BadInputException where there is a step between them
   */
  void merge(float[] z, float[] later, Rectangle window, Rectangle shared, String name) {
    int left = shared.x - window.x;
    int top = shared.y - window.y;
    Differences overlap = new Differences();
    int every = (int) Math.max(1, (long) shared.width * shared.height / MOST_COMPARED);
    int seen = 0;
    for (int row = top; row < top + shared.height; row++) {
      for (int col = left; col < left + shared.width; col++) {
        int i = row * window.width + col;
        if (!Float.isNaN(z[i]) && !Float.isNaN(later[i]) && seen++ % every == 0) {
          overlap.add(later[i] - z[i]);
        }
      }
    }
    if (overlap.size >= FEWEST) {
      judge(overlap, name, "where they overlap");
    } else {
      Differences edge = new Differences();
      Seam seam = new Seam(z, later, window.width);
      int bottom = top + shared.height - 1;
      int right = left + shared.width - 1;
      for (int col = left; col <= right; col++) {
        seam.across(col, top, 0, -1, window.height, edge);
        seam.across(col, bottom, 0, 1, window.height, edge);
      }
      for (int row = top; row <= bottom; row++) {
        seam.across(left, row, -1, 0, window.height, edge);
        seam.across(right, row, 1, 0, window.height, edge);
      }
      if (edge.size >= FEWEST) {
        judge(edge, name, "where they meet");
      }
    }
    for (int i = 0; i < z.length; i++) {
      if (Float.isNaN(z[i])) {
        z[i] = later[i];
      }
    }
  }

  /** As the other, where both may know every cell of a frame. */
  void merge(float[] z, float[] later, GridFrame frame, String name) {
    Rectangle all = new Rectangle(frame.cols(), frame.rows());
    merge(z, later, all, all, name);
  }

  private void judge(Differences differences, String name, String where) {
    double step = differences.median();
    double error = 3 * 1.2533 * 1.4826 * differences.spread(step) / Math.sqrt(differences.size);
    if (Math.abs(step) <= Math.max(LEAST_STEP_M, error)) {
      return;
    }
    String what =
        String.format(
            Locale.ROOT,
            "its elevations are %.2f m %s than those of the rasters before it %s (median of %d cells)",
            Math.abs(step),
            step > 0 ? "higher" : "lower",
            where,
            differences.size);
    if (Math.abs(step) > accuracyM) {
      throw new BadInputException(
          name,
          what + "; they differ in vertical datum, unit or date and are not blended",
          "give rasters of one survey, or of one vertical datum and unit");
    }
    warnings.add(name + ": " + what + "; the step is left in the ground");
  }

  /** Looks across the line where one raster ends and another begins. */
  private static final class Seam {
    private final float[] z;
    private final float[] later;
    private final int width;

    Seam(float[] z, float[] later, int width) {
      this.z = z;
      this.later = later;
      this.width = width;
    }

    /**
     * Adds the step between the outermost cell of the later raster and the cell beyond it, less
     * what the slopes on both sides account for.
     */
    void across(int col, int row, int dx, int dy, int height, Differences into) {
      float a0 = at(later, col, row, height);
      float a1 = at(later, col - dx, row - dy, height);
      float b0 = at(z, col + dx, row + dy, height);
      float b1 = at(z, col + 2 * dx, row + 2 * dy, height);
      float step = a0 - b0 + ((a0 - a1) + (b1 - b0)) / 2;
      if (!Float.isNaN(step)) {
        into.add(step);
      }
    }

    private float at(float[] values, int col, int row, int height) {
      return col < 0 || col >= width || row < 0 || row >= height
          ? Float.NaN
          : values[row * width + col];
    }
  }

  /** A growing list of differences in metres. */
  private static final class Differences {
    private float[] values = new float[1024];
    private int size;

    void add(float difference) {
      if (size == values.length) {
        values = Arrays.copyOf(values, size * 2);
      }
      values[size++] = difference;
    }

    double median() {
      return middle(Arrays.copyOf(values, size));
    }

    double spread(double about) {
      float[] away = new float[size];
      for (int i = 0; i < size; i++) {
        away[i] = (float) Math.abs(values[i] - about);
      }
      return middle(away);
    }

    private static double middle(float[] sorted) {
      Arrays.sort(sorted);
      int half = sorted.length / 2;
      return sorted.length % 2 == 1 ? sorted[half] : ((double) sorted[half - 1] + sorted[half]) / 2;
    }
  }
}
