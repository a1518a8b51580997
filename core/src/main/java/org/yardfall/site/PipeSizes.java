package org.yardfall.site;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Generic sizes of drain pipe: what a nominal size means inside and outside. Corrugated and smooth
 * pipe of different makers differ by some millimetres, so the site file may give both diameters.
 * ({@code common practice, no source}.)
 */
final class PipeSizes {

  private static final double INCH_M = 0.0254;

  /** Nominal sizes nearer to each other than this are the same size; metric names are rounded. */
  private static final double NOMINAL_TOLERANCE_M = 0.003;

  /**
   * A pipe of a nominal size, all in metres.
   *
   * @param nominalIn nominal size in inches
   * @param insideM inside diameter
   * @param outsideM outside diameter
   */
  record Size(int nominalIn, double insideM, double outsideM) {}

  static final List<Size> SIZES =
      List.of(
          new Size(3, 0.0762, 0.09144),
          new Size(4, 0.1016, 0.11684),
          new Size(6, 0.1524, 0.17526),
          new Size(8, 0.2032, 0.23114),
          new Size(10, 0.254, 0.28956),
          new Size(12, 0.3048, 0.36068));

  /** The pipe where none is named. */
  static final Size USUAL = SIZES.get(1);

  private PipeSizes() {}

  /** The pipe of the given nominal size; 100 mm is a 4 in pipe. */
  static Optional<Size> ofNominal(double nominalM) {
    return SIZES.stream()
        .filter(s -> Math.abs(s.nominalIn() * INCH_M - nominalM) < NOMINAL_TOLERANCE_M)
        .min(Comparator.comparingDouble(s -> Math.abs(s.nominalIn() * INCH_M - nominalM)));
  }

  /** The pipe that has exactly one of the given diameters, or both. */
  static Optional<Size> ofEither(double insideM, double outsideM) {
    return SIZES.stream()
        .filter(s -> s.insideM() == insideM || s.outsideM() == outsideM)
        .findFirst();
  }
}
