package org.yardfall.route;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.IntFunction;
import java.util.function.Predicate;
import java.util.function.Supplier;
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
   * @param works whether it works within other bounds; must be monotone, and is asked from several
   *     threads
   */
  public static List<Relaxation> find(Bounds b, Predicate<Bounds> works) {
    int most = (int) Math.round(MOST_M * 1000);
    int cover = (int) Math.floor(b.minCoverM() * 1000 + 1e-9);
    int steps = (int) Math.ceil(b.minGrade() / GRADE_STEP) - 1;
    IntFunction<Bounds> lower = mm -> b.withOutletLowered(b.outletLoweredM() + mm / 1000.0);
    IntFunction<Bounds> deeper = mm -> b.withMaxDepth(b.maxDepthM() + mm / 1000.0);
    IntFunction<Bounds> barer = mm -> b.withMinCover(b.minCoverM() - mm / 1000.0);
    IntFunction<Bounds> flatter = n -> b.withMinGrade(b.minGrade() - n * GRADE_STEP);
    List<Supplier<Optional<Relaxation>>> limits =
        List.of(
            () -> least(most, lower, works).map(mm -> metres("outlet", mm)),
            () -> least(most, deeper, works).map(mm -> metres("max-depth", mm)),
            () -> least(cover, barer, works).map(mm -> metres("min-cover", mm)),
            () ->
                least(steps, flatter, works)
                    .map(n -> new Relaxation("min-grade", flatter.apply(n).minGrade(), "m/m")));
    return limits.parallelStream().map(Supplier::get).flatMap(Optional::stream).toList();
  }

  private static Relaxation metres(String limit, int mm) {
    return new Relaxation(limit, mm / 1000.0, "m");
  }

  /**
   * Where no limit alone helps: the least metres by which the outlet must lie lower and trenches
   * may go deeper, both at once; empty where that does not help either.
   */
  public static OptionalDouble togetherM(Bounds b, Predicate<Bounds> works) {
    IntFunction<Bounds> both =
        mm ->
            b.withOutletLowered(b.outletLoweredM() + mm / 1000.0)
                .withMaxDepth(b.maxDepthM() + mm / 1000.0);
    return least((int) Math.round(MOST_M * 1000), both, works).stream()
        .mapToDouble(mm -> mm / 1000.0)
        .findFirst();
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

  private static Optional<Integer> least(
      int most, IntFunction<Bounds> relaxed, Predicate<Bounds> works) {
    if (most < 1 || !works.test(relaxed.apply(most))) {
      return Optional.empty();
    }
    int no = 0;
    int yes = most;
    while (yes - no > 1) {
      int middle = (no + yes) >>> 1;
      if (works.test(relaxed.apply(middle))) {
        yes = middle;
      } else {
        no = middle;
      }
    }
    return Optional.of(yes);
  }
}
