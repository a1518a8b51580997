package org.yardfall.route;

import org.yardfall.site.Surface;
import org.yardfall.trench.MetrePrice;
import org.yardfall.trench.Work;

/**
 * What the search makes as small as it can: a price, or another measure of a trench. It must not
 * fall with depth, for the search to be exact.
 */
public interface TrenchCost {

  /** A bend is worth so many metres of trench, a metre deep in lawn, where turns are free. */
  double BEND_M = 0.5;

  /**
   * Cost of a metre.
   *
   * @param work how it is built
   * @param depthM ground to invert in metres
   * @param cover the cover of the ground
   */
  double metre(Work work, double depthM, Surface.Kind cover);

  /** Cost of a turn by the given angle in degrees. */
  double turn(double turnDeg);

  /**
   * Cost that a bend may add in straightening, for a crew digs straight runs: 0 where turns have
   * their price anyway, and what straightens out may cost no more.
   */
  default double bend() {
    return 0;
  }

  /** The price by the site's unit prices. */
  static TrenchCost price(MetrePrice price) {
    return new TrenchCost() {
      @Override
      public double metre(Work work, double depthM, Surface.Kind cover) {
        return price.metre(work, depthM, cover);
      }

      @Override
      public double turn(double turnDeg) {
        return price.turn(turnDeg);
      }
    };
  }

  /** Depth squared by length: shuns deep trench more than long trench. */
  static TrenchCost depth() {
    return new TrenchCost() {
      @Override
      public double metre(Work work, double depthM, Surface.Kind cover) {
        return depthM * depthM;
      }

      @Override
      public double turn(double turnDeg) {
        return 0;
      }

      @Override
      public double bend() {
        return BEND_M;
      }
    };
  }

  /**
   * Disturbance: length of opened ground, pavement counted three times, woods and root zones five
   * times, bored stretches once, for the pits at their ends. The weights are ours ({@code common
   * practice, no source}).
   */
  static TrenchCost disturbance() {
    return new TrenchCost() {
      @Override
      public double metre(Work work, double depthM, Surface.Kind cover) {
        return switch (work) {
          case BORED -> 1;
          case ROOT_ZONE -> 5;
          default ->
              switch (cover) {
                case WOODS -> 5;
                case ROOF, PAVEMENT -> 3;
                case BARE, GRAVEL -> 0.5;
                case LAWN -> 1;
              };
        };
      }

      @Override
      public double turn(double turnDeg) {
        return 0;
      }

      @Override
      public double bend() {
        return BEND_M;
      }
    };
  }
}
