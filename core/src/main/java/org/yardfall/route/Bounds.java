package org.yardfall.route;

import org.yardfall.site.DrainLimits;

/**
 * The vertical limits of one search. Relaxing a limit is searching with other bounds over the same
 * ground.
 *
 * @param minGrade least fall per metre, above 0
 * @param maxGrade greatest fall per metre; the search itself meets more by drops
 * @param minCoverM least cover in metres
 * @param maxDepthM greatest depth of open trench in metres
 * @param outsideM outside diameter of the pipe in metres
 * @param crossingOutsideM outside diameter of the pipe under slabs in metres
 * @param outletLoweredM metres by which every outlet's invert is taken lower than it is; 0 but for
 *     relaxations
 */
public record Bounds(
    double minGrade,
    double maxGrade,
    double minCoverM,
    double maxDepthM,
    double outsideM,
    double crossingOutsideM,
    double outletLoweredM) {

  /** The bounds that a site's limits set. */
  public static Bounds of(DrainLimits limits, RouteSettings settings) {
    return new Bounds(
        limits.minGrade(),
        limits.maxGrade(),
        limits.minCoverM(),
        limits.maxDepthM(),
        limits.pipeOutsideM(),
        settings.crossingOutsideM(),
        0);
  }

  /** The same with another least grade. */
  public Bounds withMinGrade(double grade) {
    return new Bounds(
        grade, maxGrade, minCoverM, maxDepthM, outsideM, crossingOutsideM, outletLoweredM);
  }

  /** The same with another least cover. */
  public Bounds withMinCover(double coverM) {
    return new Bounds(
        minGrade, maxGrade, coverM, maxDepthM, outsideM, crossingOutsideM, outletLoweredM);
  }

  /** The same with another greatest depth. */
  public Bounds withMaxDepth(double depthM) {
    return new Bounds(
        minGrade, maxGrade, minCoverM, depthM, outsideM, crossingOutsideM, outletLoweredM);
  }

  /** The same with every outlet lowered by so many metres. */
  public Bounds withOutletLowered(double byM) {
    return new Bounds(minGrade, maxGrade, minCoverM, maxDepthM, outsideM, crossingOutsideM, byM);
  }

  /** Highest invert that keeps the cover under ground of the given elevation. */
  double highest(double groundM) {
    return groundM - minCoverM - outsideM;
  }

  /** Lowest invert within the greatest depth. */
  double lowest(double groundM) {
    return groundM - maxDepthM;
  }
}
