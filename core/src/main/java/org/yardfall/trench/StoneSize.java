package org.yardfall.trench;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.yardfall.site.Grading;

/**
 * Standard sizes of crushed stone, as the limits of the share passing each sieve (ASTM D448 /
 * AASHTO M 43). The limits were read in a highway specification that prints M 43; which sieve a
 * limit belongs to was read for No. 57 and 67 in another, and is from memory for the others,
 * checked against the sizes' ranges.
 *
 * @param number the size number
 * @param limits by sieve in millimetres: least and greatest share passing, 0 to 1
 */
public record StoneSize(String number, Map<Double, Limits> limits) {

  /**
   * Shares passing a sieve.
   *
   * @param least least share, 0 to 1
   * @param most greatest share, 0 to 1
   */
  public record Limits(double least, double most) {}

  private static final List<StoneSize> SIZES =
      List.of(
          size("3", 63, 100, 100, 50, 90, 100, 37.5, 35, 70, 25, 0, 15, 12.5, 0, 5),
          size("4", 50, 100, 100, 37.5, 90, 100, 25, 20, 55, 19, 0, 15, 9.5, 0, 5),
          size("5", 37.5, 100, 100, 25, 90, 100, 19, 20, 55, 12.5, 0, 10, 9.5, 0, 5),
          size("57", 37.5, 100, 100, 25, 95, 100, 12.5, 25, 60, 4.75, 0, 10, 2.36, 0, 5),
          size("6", 25, 100, 100, 19, 90, 100, 12.5, 20, 55, 9.5, 0, 15, 4.75, 0, 5),
          size("67", 25, 100, 100, 19, 90, 100, 9.5, 20, 55, 4.75, 0, 10, 2.36, 0, 5),
          size("7", 19, 100, 100, 12.5, 90, 100, 9.5, 40, 70, 4.75, 0, 15, 2.36, 0, 5),
          size("8", 12.5, 100, 100, 9.5, 85, 100, 4.75, 10, 30, 2.36, 0, 10, 1.18, 0, 5));

  /** Keeps the map to itself. */
  public StoneSize {
    limits = java.util.Collections.unmodifiableMap(new TreeMap<>(limits));
  }

  /** The size of the given number. */
  public static StoneSize of(String number) {
    return SIZES.stream()
        .filter(s -> s.number().equals(number))
        .findFirst()
        .orElseThrow(
            () ->
                new org.yardfall.site.BadInputException(
                    "drain.stone",
                    "stone size '" + number + "' is not known",
                    "give one of " + SIZES.stream().map(StoneSize::number).toList()));
  }

  /** The curve through the middle of the limits. */
  public Grading middle() {
    return curve(0.5);
  }

  /** The finest stone within the limits. */
  public Grading finest() {
    return curve(1);
  }

  /** The coarsest stone within the limits. */
  public Grading coarsest() {
    return curve(0);
  }

  private Grading curve(double share) {
    TreeMap<Double, Double> points = new TreeMap<>();
    limits.forEach((mm, l) -> points.put(mm, l.least() + share * (l.most() - l.least())));
    // Nothing is finer than half the smallest sieve: the limits say no more.
    points.put(limits.keySet().iterator().next() / 2, 0.0);
    return new Grading(points);
  }

  private static StoneSize size(String number, double... sieveLeastMost) {
    TreeMap<Double, Limits> limits = new TreeMap<>();
    for (int i = 0; i < sieveLeastMost.length; i += 3) {
      limits.put(
          sieveLeastMost[i], new Limits(sieveLeastMost[i + 1] / 100, sieveLeastMost[i + 2] / 100));
    }
    return new StoneSize(number, limits);
  }
}
