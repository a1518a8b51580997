package org.yardfall.fieldwork;

import org.yardfall.site.BadInputException;

/**
 * A level or rotating laser at one place: the height of instrument from a rod held on a benchmark,
 * and from it every other elevation by one rod reading. Height of instrument = benchmark +
 * backsight; elevation = height of instrument − reading (NAVEDTRA 14071, Level Computations).
 *
 * @param benchmarkM elevation of the benchmark in metres
 * @param backsightM rod reading on the benchmark in metres; negative with the rod held upside down
 */
public record LaserSetup(double benchmarkM, double backsightM) {

  /** Refuses what is no number. */
  public LaserSetup {
    if (!Double.isFinite(benchmarkM) || !Double.isFinite(backsightM)) {
      throw new BadInputException(
          "set-up", "benchmark or backsight is no number", "give both as lengths");
    }
  }

  /** A set-up whose height of instrument is known. */
  public static LaserSetup atHeight(double hiM) {
    return new LaserSetup(hiM, 0);
  }

  /** Elevation of the line of sight in metres. */
  public double hiM() {
    return benchmarkM + backsightM;
  }

  /** Elevation in metres of a point on which the rod reads so much. */
  public double elevationM(double readingM) {
    return hiM() - readingM;
  }

  /**
   * What the rod must read in metres on a point of the given elevation: the grade rod. Negative
   * where the point lies above the line of sight, so that the instrument must be set up higher.
   */
  public double rodM(double elevationM) {
    return hiM() - elevationM;
  }

  /**
   * Cut in metres from a point on which the rod reads so much down to a grade; negative: fill. The
   * same as grade rod minus reading.
   */
  public double cutM(double readingM, double gradeM) {
    return elevationM(readingM) - gradeM;
  }
}
