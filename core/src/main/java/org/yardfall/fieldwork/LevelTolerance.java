package org.yardfall.fieldwork;

/**
 * The misclosure allowed to levelling: a constant times the root of the distance in kilometres or
 * of the number of set-ups.
 *
 * @param coefficientM allowed misclosure in metres for one kilometre or one set-up, above 0
 * @param by what it grows with
 * @param source where the rule comes from
 */
public record LevelTolerance(double coefficientM, By by, String source) {

  /** Third order: 12 mm times the root of the kilometres. */
  public static final LevelTolerance THIRD_ORDER =
      new LevelTolerance(
          0.012,
          By.DISTANCE,
          "third-order levelling, 12 mm x sqrt(km): Federal Geodetic Control Committee, Standards"
              + " and Specifications for Geodetic Control Networks (1984)");

  /** Third order by set-ups, where no distances are noted: 5 mm times the root of the set-ups. */
  public static final LevelTolerance THIRD_ORDER_SETUPS =
      new LevelTolerance(
          0.005,
          By.SETUPS,
          "third-order levelling by set-ups, 5 mm x sqrt(set-ups): surveying textbooks");

  /** What an allowed misclosure grows with. */
  public enum By {
    DISTANCE,
    SETUPS
  }

  /** Refuses a coefficient that allows nothing. */
  public LevelTolerance {
    if (!(coefficientM > 0)) {
      throw new IllegalArgumentException("a tolerance must be above 0");
    }
  }

  /** Allowed misclosure in metres; NaN where it goes by a distance that is not known (NaN). */
  public double allowedM(int setups, double distanceM) {
    return coefficientM * Math.sqrt(by == By.SETUPS ? setups : distanceM / 1000);
  }
}
