package org.yardfall.route;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleFunction;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Location;
import org.yardfall.site.Parcel;

/**
 * Finds, for every cell of the lot from which no pipe falls to an outlet, the first rung of each
 * limit's ladder that mends it. Being reached never ends by relaxing a limit further, so rungs
 * between two that reach the same cells are not tried: a ladder of m rungs takes at most m searches
 * of the gravity reach, and one where nothing is gained.
 */
final class ReachShortfallFinder {

  /** Rungs in metres; between two lies a factor of about two. */
  private static final double[] RUNGS_M = {0.1, 0.2, 0.4, 0.8, 1.6, RelaxationFinder.MOST_M};

  /** Shares of the least grade. */
  private static final double[] GRADE_SHARES = {0.75, 0.5, 0.25, 0.1};

  private final RouteGround ground;
  private final List<OutletTarget> outlets;
  private final boolean[] asked;

  private ReachShortfallFinder(RouteGround ground, List<OutletTarget> outlets, boolean[] asked) {
    this.ground = ground;
    this.outlets = outlets;
    this.asked = asked;
  }

  /**
   * The shortfall of a reach.
   *
   * @param reach the gravity reach of the outlets within the bounds
   */
  static ReachShortfall find(
      RouteGround ground, List<OutletTarget> outlets, Bounds b, GravityReach reach) {
    ReachShortfallFinder finder = new ReachShortfallFinder(ground, outlets, asked(ground, reach));
    double[] shallower = Arrays.stream(RUNGS_M).filter(m -> m < b.minCoverM() - 1e-9).toArray();
    double[] covers = Arrays.copyOf(shallower, shallower.length + 1);
    covers[covers.length - 1] = b.minCoverM();
    double[] grades = Arrays.stream(GRADE_SHARES).map(share -> share * b.minGrade()).toArray();
    Bounds all =
        b.withOutletLowered(RelaxationFinder.MOST_M)
            .withMaxDepth(b.maxDepthM() + RelaxationFinder.MOST_M)
            .withMinCover(0)
            .withMinGrade(grades[grades.length - 1]);
    boolean mendable = finder.reachesAny(all);
    List<Supplier<byte[]>> ladders =
        List.of(
            () -> finder.climb(RUNGS_M, mendable, b::withOutletLowered),
            () -> finder.climb(RUNGS_M, mendable, by -> b.withMaxDepth(b.maxDepthM() + by)),
            () -> finder.climb(covers, mendable, by -> b.withMinCover(b.minCoverM() - by)),
            () -> finder.climb(grades, mendable, b::withMinGrade));
    return new ReachShortfall(
        List.of(ReachShortfall.Limit.values()),
        new double[][] {RUNGS_M.clone(), RUNGS_M.clone(), covers, grades},
        ladders.parallelStream().map(Supplier::get).toArray(byte[][]::new));
  }

  private static boolean[] asked(RouteGround ground, GravityReach reach) {
    boolean[] asked = new boolean[ground.frame().size()];
    IndexedPointInAreaLocator lot =
        ground.site().lot().map(Parcel::outline).map(IndexedPointInAreaLocator::new).orElse(null);
    for (int cell = 0; cell < asked.length; cell++) {
      if (ground.open(cell) && !reach.reaches(cell)) {
        Coordinate at = ground.graph().centre(cell);
        asked[cell] = lot == null || lot.locate(at) != Location.EXTERIOR;
      }
    }
    return asked;
  }

  /** Whether any of the cells asked for is reached within other bounds. */
  private boolean reachesAny(Bounds b) {
    return any(asked, null) && GravityReachFinder.reachesAny(ground, outlets, b, asked);
  }

  /** Which of the cells asked for are reached within other bounds. */
  private boolean[] reached(Bounds b) {
    boolean[] reached = new boolean[asked.length];
    GravityReach reach = GravityReachFinder.find(ground, outlets, b);
    for (int cell = 0; cell < asked.length; cell++) {
      reached[cell] = asked[cell] && reach.reaches(cell);
    }
    return reached;
  }

  private byte[] climb(double[] rungs, boolean mendable, DoubleFunction<Bounds> relaxed) {
    byte[] first = new byte[asked.length];
    for (int cell = 0; cell < first.length; cell++) {
      first[cell] = asked[cell] ? ReachShortfall.NONE : ReachShortfall.NOT_ASKED;
    }
    if (mendable) {
      split(
          rungs,
          -1,
          rungs.length - 1,
          null,
          reached(relaxed.apply(rungs[rungs.length - 1])),
          relaxed,
          first);
    }
    return first;
  }

  /** Cells reached at the upper rung and not at the lower get the first rung between that helps. */
  private void split(
      double[] rungs,
      int no,
      int yes,
      boolean[] reachedNo,
      boolean[] reachedYes,
      DoubleFunction<Bounds> relaxed,
      byte[] first) {
    if (!any(reachedYes, reachedNo)) {
      return;
    }
    if (yes - no == 1) {
      for (int cell = 0; cell < first.length; cell++) {
        if (reachedYes[cell] && (reachedNo == null || !reachedNo[cell])) {
          first[cell] = (byte) yes;
        }
      }
      return;
    }
    int middle = (no + yes) >>> 1;
    boolean[] between = reached(relaxed.apply(rungs[middle]));
    split(rungs, no, middle, reachedNo, between, relaxed, first);
    split(rungs, middle, yes, between, reachedYes, relaxed, first);
  }

  private static boolean any(boolean[] in, boolean[] butNot) {
    return IntStream.range(0, in.length)
        .anyMatch(cell -> in[cell] && (butNot == null || !butNot[cell]));
  }
}
