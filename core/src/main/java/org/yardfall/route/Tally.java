package org.yardfall.route;

/** Keeps the worst value met in one check of an audit. */
final class Tally {

  private final String name;
  private final double limit;
  private final String unit;
  private final boolean atLeast;
  private final double slack;
  private double worst;
  private double atStationM;
  private boolean met;

  private Tally(String name, double limit, String unit, boolean atLeast, double slack) {
    this.name = name;
    this.limit = limit;
    this.unit = unit;
    this.atLeast = atLeast;
    this.slack = slack;
  }

  /** Values must be at least the limit, short of it by no more than the slack. */
  static Tally atLeast(String name, double limit, String unit, double slack) {
    return new Tally(name, limit, unit, true, slack);
  }

  /** Values must be at most the limit, over it by no more than the slack. */
  static Tally atMost(String name, double limit, String unit, double slack) {
    return new Tally(name, limit, unit, false, slack);
  }

  /** A value; one that is not a number counts as the worst there is. */
  void see(double value, double stationM) {
    boolean worse =
        Double.isNaN(value) || (!Double.isNaN(worst) && (atLeast ? value < worst : value > worst));
    if (!met || worse) {
      worst = value;
      atStationM = stationM;
    }
    met = true;
  }

  /** Whether any value was met. */
  boolean met() {
    return met;
  }

  /** The check; passed where no value was met. */
  Audit.Check check() {
    boolean passed = !met || (atLeast ? worst >= limit - slack : worst <= limit + slack);
    return new Audit.Check(name, passed, met ? worst : limit, limit, unit, atStationM);
  }
}
