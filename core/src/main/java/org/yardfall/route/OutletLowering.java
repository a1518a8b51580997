package org.yardfall.route;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.Predicate;
import org.yardfall.site.Outlet;

/**
 * By how little an outlet, with the water and the lid in it, must lie lower for a drain to work,
 * all its rules asked. What the outlet lacks in itself is only the least that this can be: the way
 * to it may ask for more.
 */
final class OutletLowering {

  private static final int MOST_MM = (int) Math.round(1000 * RelaxationFinder.MOST_M);

  /** The first step beyond what does not suffice; each further one is twice as long. */
  private static final int STEP_MM = 8;

  private final Outlet outlet;
  private final double invertM;

  OutletLowering(Outlet outlet, RouteGround ground) {
    this.outlet = outlet;
    this.invertM = OutletTarget.of(outlet, ground).invertM();
  }

  /** The outlet so many metres lower, and all in it. */
  Outlet lowered(double byM) {
    return new Outlet(
        outlet.id(),
        outlet.kind(),
        outlet.at(),
        OptionalDouble.of(invertM - byM),
        lowered(outlet.waterLevelM(), byM),
        lowered(outlet.lidM(), byM),
        outlet.permitNote(),
        lowered(outlet.usualLevelM(), byM));
  }

  private static OptionalDouble lowered(OptionalDouble levelM, double byM) {
    return levelM.stream().map(level -> level - byM).findFirst();
  }

  /**
   * The least lowering in metres, to a millimetre, with which it works: with the one given it is
   * known to work, with a millimetre less not.
   *
   * @param leastM least lowering in metres that is looked at
   * @param works whether a drain works to the outlet lowered
   * @return empty where none up to {@link RelaxationFinder#MOST_M} does
   */
  OptionalDouble leastM(double leastM, Predicate<Outlet> works) {
    int no = (int) Math.ceil(1000 * leastM - 1e-6);
    if (works.test(lowered(no / 1000.0))) {
      return OptionalDouble.of(no / 1000.0);
    }
    int yes = no;
    for (int step = STEP_MM; yes == no; step *= 2) {
      if (no >= MOST_MM) {
        return OptionalDouble.empty();
      }
      yes = Math.min(MOST_MM, no + step);
      if (!works.test(lowered(yes / 1000.0))) {
        no = yes;
      }
    }
    while (yes - no > 1) {
      int middle = (no + yes) >>> 1;
      if (works.test(lowered(middle / 1000.0))) {
        yes = middle;
      } else {
        no = middle;
      }
    }
    return OptionalDouble.of(yes / 1000.0);
  }

  /** The change as one of limits; none where nothing was found. */
  static List<Rejection.Relaxation> relax(OptionalDouble loweredM) {
    return loweredM.stream().mapToObj(by -> new Rejection.Relaxation("outlet", by, "m")).toList();
  }

  /** The change in words, as the end of a sentence. */
  static String words(OptionalDouble loweredM) {
    return loweredM.isPresent()
        ? String.format(
            Locale.ROOT,
            "; with the outlet, and the water in it, %.3f m lower a drain works",
            loweredM.getAsDouble())
        : String.format(
            Locale.ROOT,
            "; no lowering of it by up to %.0f m alone mends that",
            RelaxationFinder.MOST_M);
  }
}
