package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.IntPredicate;
import java.util.function.Predicate;
import org.yardfall.route.Rejection.Relaxation;

/**
 * Finds, for each limit alone, the least change that makes a drain work. Being possible never ends
 * by relaxing a limit further, so halving the interval finds the change exactly: to a whole
 * millimetre, the grade to a thousandth of a percent.
 */
public final class RelaxationFinder {

  /** Changes greater than this are not looked for: no yard is dug so deep. */
  public static final double MOST_M = 5;

  private static final double GRADE_STEP = 1e-5;

  private RelaxationFinder() {}

  /**
   * The least change of each limit, alone, in the order outlet, max-depth, min-cover, min-grade;
   * limits that no change up to {@link #MOST_M} makes work alone are left out.
   *
   * @param b the bounds within which it does not work
   * @param works whether it works within other bounds; must be monotone
   */
  public static List<Relaxation> find(Bounds b, Predicate<Bounds> works) {
    List<Relaxation> found = new ArrayList<>();
    int most = (int) Math.round(MOST_M * 1000);
    least(most, mm -> works.test(b.withOutletLowered(b.outletLoweredM() + mm / 1000.0)))
        .ifPresent(mm -> found.add(new Relaxation("outlet", mm / 1000.0, "m")));
    least(most, mm -> works.test(b.withMaxDepth(b.maxDepthM() + mm / 1000.0)))
        .ifPresent(mm -> found.add(new Relaxation("max-depth", mm / 1000.0, "m")));
    int cover = (int) Math.floor(b.minCoverM() * 1000 + 1e-9);
    least(cover, mm -> works.test(b.withMinCover(b.minCoverM() - mm / 1000.0)))
        .ifPresent(mm -> found.add(new Relaxation("min-cover", mm / 1000.0, "m")));
    int steps = (int) Math.ceil(b.minGrade() / GRADE_STEP) - 1;
    least(steps, n -> works.test(b.withMinGrade(b.minGrade() - n * GRADE_STEP)))
        .ifPresent(
            n -> found.add(new Relaxation("min-grade", b.minGrade() - n * GRADE_STEP, "m/m")));
    return found;
  }

  /**
   * Where no limit alone helps: the least metres by which the outlet must lie lower and trenches
   * may go deeper, both at once; empty where that does not help either.
   */
  public static OptionalDouble togetherM(Bounds b, Predicate<Bounds> works) {
    OptionalInt least =
        least(
            (int) Math.round(MOST_M * 1000),
            mm ->
                works.test(
                    b.withOutletLowered(b.outletLoweredM() + mm / 1000.0)
                        .withMaxDepth(b.maxDepthM() + mm / 1000.0)));
    return least.isPresent()
        ? OptionalDouble.of(least.getAsInt() / 1000.0)
        : OptionalDouble.empty();
  }

  /** What would mend it where no limit alone does, in words. */
  static String togetherWords(Bounds b, Predicate<Bounds> works) {
    OptionalDouble both = togetherM(b, works);
    return both.isPresent()
        ? String.format(
            Locale.ROOT,
            "no single limit relaxed would mend it; the outlet %.3f m lower and as much more depth"
                + " together would",
            both.getAsDouble())
        : "no single limit relaxed would mend it";
  }

  /** The smallest of the changes that are lengths, where there is one. */
  public static OptionalDouble shortfallM(List<Relaxation> relaxations) {
    return relaxations.stream().filter(r -> r.unit().equals("m")).mapToDouble(Relaxation::by).min();
  }

  private static OptionalInt least(int most, IntPredicate works) {
    if (most < 1 || !works.test(most)) {
      return OptionalInt.empty();
    }
    int no = 0;
    int yes = most;
    while (yes - no > 1) {
      int middle = (no + yes) >>> 1;
      if (works.test(middle)) {
        yes = middle;
      } else {
        no = middle;
      }
    }
    return OptionalInt.of(yes);
  }
}
