package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import org.yardfall.site.BadInputException;
import org.yardfall.site.WorkingCrs;

/**
 * Looks at elevations as read for signs that they are no ground, or coarser than they seem: numbers
 * that no land has, classes, one single height, a fill of zeros, rounding to a step, slopes that no
 * yard has. Looks at every cell for the range and at up to half a million, evenly spread, for the
 * rest.
 */
final class GroundSense {

  private static final int MOST_SAMPLED = 500_000;
  private static final int FEWEST = 50;

  /** What counts as a wall between neighbouring cells, and from which share on it is told. */
  private static final double CLIFF_M = 2;

  private static final double CLIFF_SLOPE = 2;
  private static final double CLIFF_SHARE = 0.01;
  private static final double FINE_CELL_M = 2.5;

  /** Coarse cells: mountains and ice have less than a hundredth of such steps, scans a tenth. */
  private static final double SHADES_SHARE = 0.03;

  /** Steps to which elevations are commonly rounded, in the file's unit, coarsest first. */
  private static final double[] STEPS = {1, 0.5, 0.25, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.001};

  private final float[] z;
  private final int cols;
  private final double cellM;
  private final double unitM;
  private final boolean integer;
  private final String name;
  private final List<String> warnings = new ArrayList<>();
  private double stepM;
  private double minM = Double.POSITIVE_INFINITY;
  private double maxM = Double.NEGATIVE_INFINITY;
  private int known;

  /**
   * Looks at elevations.
   *
   * @param z elevations in metres row by row, NaN where not known
   * @param cols number of columns
   * @param cellM cell size in metres
   * @param unitM metres per unit of one step of the stored numbers
   * @param integer whether whole numbers are stored
   * @param name the raster's name, for messages
   * @throws BadInputException where the elevations can be no ground on this Earth
   */
  GroundSense(float[] z, int cols, double cellM, double unitM, boolean integer, String name) {
    this.z = z;
    this.cols = cols;
    this.cellM = cellM;
    this.unitM = unitM;
    this.integer = integer;
    this.name = name;
    range();
    if (known > 0) {
      look();
    }
  }

  /** Step to which the elevations are rounded, in metres; 0 where none shows. */
  double stepM() {
    return stepM;
  }

  /** What was odd, in words. */
  List<String> warnings() {
    return warnings;
  }

  /** Number of cells with an elevation. */
  int known() {
    return known;
  }

  /** Lowest elevation in metres; positive infinity where none is known. */
  double minM() {
    return minM;
  }

  /** Highest elevation in metres; negative infinity where none is known. */
  double maxM() {
    return maxM;
  }

  private void range() {
    float min = Float.POSITIVE_INFINITY;
    float max = Float.NEGATIVE_INFINITY;
    int count = 0;
    for (float height : z) {
      if (height >= min || height < min) { // not NaN
        min = Math.min(min, height);
        max = Math.max(max, height);
        count++;
      }
    }
    known = count;
    minM = min;
    maxM = max;
    if (count > 0 && !LandRange.holds(min, max)) {
      throw new BadInputException(
          name,
          String.format(
              Locale.ROOT,
              "its elevations run from %.5g to %.5g m, which no ground does%s",
              minM,
              maxM,
              integer ? "; whole numbers like these are often centimetres or millimetres" : ""),
          "say their unit with elevation: vertical-unit, or give a raster of elevations");
    }
  }

  private void look() {
    if (minM == maxM) {
      if (known > FEWEST) {
        warnings.add(
            String.format(
                Locale.ROOT,
                "%s: all %d cells have the same elevation, %.2f m; nothing shows where water goes",
                name,
                known,
                minM));
      }
      return;
    }
    float[] sample = sample();
    if (sample.length >= FEWEST) {
      stepM = step(sample);
      if (stepM >= 0.2) {
        warnings.add(
            String.format(
                Locale.ROOT,
                "%s: elevations are rounded to %.3g m; flats and steps of that height are not real",
                name,
                stepM));
      }
      zeros(sample);
      neighbours(sample);
    }
  }

  private float[] sample() {
    int every = Math.max(1, z.length / MOST_SAMPLED);
    if (every > 1 && every % 2 == 0) {
      every++; // not always the same columns of a grid with an even width
    }
    float[] sample = new float[z.length / every + 1];
    int n = 0;
    for (int i = 0; i < z.length; i += every) {
      if (!Float.isNaN(z[i])) {
        sample[n++] = z[i];
      }
    }
    return Arrays.copyOf(sample, n);
  }

  private double step(float[] sample) {
    double[] units =
        integer
            ? new double[] {unitM}
            : new double[] {unitM, WorkingCrs.INTERNATIONAL_FOOT_M, WorkingCrs.US_SURVEY_FOOT_M, 1};
    for (double unit : units) {
      for (double step : STEPS) {
        if (isMultiple(sample, step * unit)) {
          return step * unit;
        }
      }
    }
    return 0;
  }

  private static boolean isMultiple(float[] sample, double step) {
    float first = sample[0];
    boolean differs = false;
    for (float height : sample) {
      double tolerance = 2.0 * Math.ulp(height) + 1e-12;
      // A step that single precision can hardly tell from its neighbours says nothing.
      if (tolerance > step / 20 || Math.abs(height - Math.rint(height / step) * step) > tolerance) {
        return false;
      }
      differs |= height != first;
    }
    return differs;
  }

  /** Zeros far below everything else are mostly a fill that was not declared. */
  private void zeros(float[] sample) {
    int zeros = 0;
    double nearest = Double.POSITIVE_INFINITY;
    for (float height : sample) {
      if (height == 0) {
        zeros++;
      } else {
        nearest = Math.min(nearest, Math.abs(height));
      }
    }
    if (zeros > 0 && zeros < sample.length && nearest > 30) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%s: %.1f %% of the cells are exactly 0, all others at least %.0f m away from it; if 0"
                  + " means unknown, declare it as NoData",
              name,
              100.0 * zeros / sample.length,
              nearest));
    }
  }

  /** Differences between neighbours tell ground from classes and from the wrong unit. */
  private void neighbours(float[] sample) {
    int every = Math.max(1, z.length / MOST_SAMPLED);
    float[] differences = new float[z.length / every + 1];
    int n = 0;
    int jumps = 0;
    int changes = 0;
    for (int i = 0; i + 1 < z.length; i += every) {
      if ((i + 1) % cols == 0) {
        continue;
      }
      float difference = Math.abs(z[i + 1] - z[i]);
      if (!Float.isNaN(difference)) {
        differences[n++] = difference;
        changes += difference > 0 ? 1 : 0;
        jumps += difference > 1.5 * stepM ? 1 : 0;
      }
    }
    if (n < FEWEST) {
      return;
    }
    classes(sample, changes, jumps);
    cliffs(differences, n);
    Arrays.sort(differences, 0, n);
    double slope = differences[n / 2] / cellM;
    if (slope > 1) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%s: half the ground is steeper than %.0f %%; check the unit of the elevations, and"
                  + " that they are elevations",
              name,
              100 * slope));
    }
  }

  /** Walls everywhere are roofs and tree crowns: bare ground has next to none. */
  private void cliffs(float[] differences, int n) {
    int cliffs = 0;
    for (int i = 0; i < n; i++) {
      cliffs += differences[i] > CLIFF_M && differences[i] > CLIFF_SLOPE * cellM ? 1 : 0;
    }
    if (cellM > FINE_CELL_M) {
      if (cliffs > SHADES_SHARE * n) {
        warnings.add(
            String.format(
                Locale.ROOT,
                "%s: %.0f %% of neighbouring cells differ by more than %.0f times their distance, as a"
                    + " picture's shades do and ground does not; check that these are elevations",
                name,
                100.0 * cliffs / n,
                CLIFF_SLOPE));
      }
      return;
    }
    if (cliffs > CLIFF_SHARE * n) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%s: %.0f %% of neighbouring cells differ by more than %.0f m, as roofs and tree crowns"
                  + " do; water runs on the bare ground, so use a terrain model, not a surface model",
              name,
              100.0 * cliffs / n,
              CLIFF_M));
    }
  }

  private void classes(float[] sample, int changes, int jumps) {
    boolean whole = integer || (stepM > 0 && stepM >= unitM * 0.999);
    if (!whole || stepM <= 0) {
      return;
    }
    TreeSet<Float> values = new TreeSet<>();
    for (float height : sample) {
      values.add(height);
      if (values.size() > 40) {
        return;
      }
    }
    if (changes > 0 && jumps > 0.2 * changes) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%s: only %d whole numbers from %.0f to %.0f occur, and neighbours often differ by more"
                  + " than one; these look like classes, not elevations",
              name,
              values.size(),
              values.first() / unitM,
              values.last() / unitM));
    }
  }
}
