package org.yardfall.route;

import java.util.List;

/**
 * What the independent check of a route found.
 *
 * @param checks every check made, passed or not
 */
public record Audit(List<Check> checks) {

  /** Keeps the list to itself. */
  public Audit {
    checks = List.copyOf(checks);
  }

  /** Whether every check passed. */
  public boolean passed() {
    return checks.stream().allMatch(Check::passed);
  }

  /**
   * One check.
   *
   * @param name what was checked: {@code falls, cover, depth, setback, building, clearance, outlet,
   *     bore} …
   * @param passed whether it holds everywhere
   * @param worst the worst value met, in {@code unit}
   * @param limit the limit it was held against, in {@code unit}
   * @param unit {@code m}, {@code m/m} or empty
   * @param atStationM station of the worst value in metres
   */
  public record Check(
      String name, boolean passed, double worst, double limit, String unit, double atStationM) {}
}
