package org.yardfall.trench;

import java.util.Locale;

/**
 * One criterion of a filter, with its numbers.
 *
 * @param name what is checked
 * @param passed whether it holds
 * @param value the value found, in {@code unit}
 * @param bound {@code at most} or {@code at least}
 * @param limit the limit, in {@code unit}
 * @param unit the unit; empty for a ratio
 * @param source where the criterion is published
 */
public record FilterCheck(
    String name,
    boolean passed,
    double value,
    String bound,
    double limit,
    String unit,
    String source) {

  static FilterCheck atMost(String name, double value, double limit, String unit, String source) {
    return new FilterCheck(name, value <= limit, value, "at most", limit, unit, source);
  }

  static FilterCheck atLeast(String name, double value, double limit, String unit, String source) {
    return new FilterCheck(name, value >= limit, value, "at least", limit, unit, source);
  }

  /** The check as a person reads it. */
  public String words() {
    return String.format(
            Locale.ROOT,
            "%s: %s, %s %s, %s %s %s (%s)",
            name,
            passed ? "pass" : "fail",
            figures(value),
            unit,
            bound,
            figures(limit),
            unit,
            source)
        .replace(" ,", ",")
        .replace("  (", " (");
  }

  /** Three figures, whole numbers written out. */
  private static String figures(double value) {
    return value >= 1000 && value < 1e7
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.format(Locale.ROOT, "%.3g", value);
  }
}
