package org.yardfall.site;

import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import org.yardfall.site.Soil.GrainSizes;

/**
 * A grading curve: the share by mass finer than a size. Between its points the share goes with the
 * logarithm of the size; beyond them nothing is known.
 */
public final class Grading {

  /** Upper sizes in millimetres of clay, silt and sand (USDA 0.002, 0.05, 2; gravel to 75). */
  private static final double CLAY_MM = 0.002;

  private static final double SILT_MM = 0.05;
  private static final double SAND_MM = 2;
  private static final double GRAVEL_MM = 75;

  /** Size in millimetres that divides fines from sand (sieve No. 200). */
  public static final double FINES_MM = 0.075;

  private final NavigableMap<Double, Double> finer;

  /**
   * A curve through points.
   *
   * @param finer share finer, 0 to 1, by size in millimetres; at least two points, not falling
   * @throws BadInputException if it is no curve
   */
  public Grading(Map<Double, Double> finer) {
    this.finer = new TreeMap<>(finer);
    double before = 0;
    for (Map.Entry<Double, Double> point : this.finer.entrySet()) {
      double share = point.getValue();
      if (!(point.getKey() > 0) || !(share >= before) || share > 1) {
        throw new BadInputException(
            "soil",
            String.format(
                Locale.ROOT, "the share finer than %.4g mm is %.3g", point.getKey(), share),
            "shares must rise with the size, from 0 to 1");
      }
      before = share;
    }
    if (this.finer.size() < 2) {
      throw new BadInputException("soil", "a grading curve needs two points", "add sieves");
    }
  }

  /**
   * The curve of a soil of which only the fractions are known (USDA sizes: clay to 0.002 mm, silt
   * to 0.05 mm, sand to 2 mm).
   *
   * @throws BadInputException if a share is negative or they do not add up to 1 within 0.01
   */
  public static Grading ofFractions(double gravel, double sand, double silt, double clay) {
    double sum = gravel + sand + silt + clay;
    if (Math.min(Math.min(gravel, sand), Math.min(silt, clay)) < 0
        || !(Math.abs(sum - 1) <= 0.01)) {
      throw new BadInputException(
          "soil",
          String.format(
              Locale.ROOT,
              "gravel %.3g, sand %.3g, silt %.3g and clay %.3g add up to %.3g",
              gravel,
              sand,
              silt,
              clay,
              sum),
          "give shares of 0 to 1 that add up to 1");
    }
    TreeMap<Double, Double> points = new TreeMap<>();
    points.put(CLAY_MM / 20, 0.0);
    points.put(CLAY_MM, clay / sum);
    points.put(SILT_MM, (clay + silt) / sum);
    points.put(SAND_MM, (clay + silt + sand) / sum);
    points.put(GRAVEL_MM, 1.0);
    return new Grading(points);
  }

  /** Share finer than a size in millimetres. */
  public double finer(double sizeMm) {
    Map.Entry<Double, Double> below = finer.floorEntry(sizeMm);
    Map.Entry<Double, Double> above = finer.ceilingEntry(sizeMm);
    if (below == null) {
      return above.getValue();
    }
    if (above == null || above.getKey().equals(below.getKey())) {
      return below.getValue();
    }
    double part = Math.log(sizeMm / below.getKey()) / Math.log(above.getKey() / below.getKey());
    return below.getValue() + part * (above.getValue() - below.getValue());
  }

  /**
   * Size in millimetres than which a share is finer; the curve's end where it does not reach that
   * share.
   */
  public double sizeMm(double share) {
    Map.Entry<Double, Double> before = null;
    for (Map.Entry<Double, Double> point : finer.entrySet()) {
      if (point.getValue() >= share) {
        if (before == null || point.getValue().equals(before.getValue())) {
          return point.getKey();
        }
        double part = (share - before.getValue()) / (point.getValue() - before.getValue());
        return before.getKey() * Math.pow(point.getKey() / before.getKey(), part);
      }
      before = point;
    }
    return finer.lastKey();
  }

  /** What the filter criteria ask of the curve. */
  public GrainSizes grainSizes() {
    return new GrainSizes(
        sizeMm(0.15), sizeMm(0.50), sizeMm(0.85), sizeMm(0.60) / sizeMm(0.10), finer(FINES_MM));
  }

  /**
   * Refuses grain sizes that contradict themselves.
   *
   * @throws BadInputException with what contradicts
   */
  public static GrainSizes checked(GrainSizes grains) {
    String wrong = null;
    if (!(grains.d15Mm() > 0)
        || !(grains.d50Mm() >= grains.d15Mm())
        || !(grains.d85Mm() >= grains.d50Mm())) {
      wrong = "d15, d50 and d85 must be above 0 and rise";
    } else if (!(grains.uniformity() >= 1)) {
      wrong = "the coefficient of uniformity d60/d10 can not be below 1";
    } else if (!(grains.finesShare() >= 0 && grains.finesShare() <= 1)) {
      wrong = "the share of fines must be from 0 to 1";
    } else if (contradicts(grains)) {
      wrong =
          String.format(
              Locale.ROOT,
              "a share of fines of %.2f contradicts d15 %.3g, d50 %.3g, d85 %.3g mm",
              grains.finesShare(),
              grains.d15Mm(),
              grains.d50Mm(),
              grains.d85Mm());
    }
    if (wrong != null) {
      throw new BadInputException("soil.grains", wrong, "read the grading curve again");
    }
    return grains;
  }

  /** Whether the share of fines can not be with the sizes. */
  static boolean contradicts(GrainSizes grains) {
    return contradicts(grains.d15Mm(), 0.15, grains.finesShare())
        || contradicts(grains.d50Mm(), 0.50, grains.finesShare())
        || contradicts(grains.d85Mm(), 0.85, grains.finesShare());
  }

  private static boolean contradicts(double sizeMm, double share, double finesShare) {
    return sizeMm > FINES_MM ? finesShare > share : sizeMm < FINES_MM && finesShare < share;
  }
}
