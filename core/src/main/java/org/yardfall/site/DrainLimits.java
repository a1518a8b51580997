package org.yardfall.site;

/**
 * The limits within which a drain is laid. Depth is measured from the ground down to the pipe's
 * invert; cover from the ground down to the pipe's outside top, taken as invert plus outside
 * diameter.
 *
 * @param minGrade least fall per metre of plan length, above 0
 * @param maxGrade greatest fall per metre of plan length
 * @param minCoverM least cover in metres
 * @param maxDepthM greatest depth in metres
 * @param setbackM least distance in metres from the property line
 * @param fromBuildingM least distance in metres from a building
 * @param trenchWidthM trench width in metres
 * @param pipeOutsideM outside diameter of the pipe in metres
 * @param pipeInsideM inside diameter of the pipe in metres
 * @param verticalClearanceM least distance in metres between a thing that is gone under and the
 *     pipe's top, where the thing itself does not say
 * @param boreMaxLengthM greatest length in metres of a straight bore
 * @param gradeLine which of the pipes that keep within the limits is laid
 */
public record DrainLimits(
    double minGrade,
    double maxGrade,
    double minCoverM,
    double maxDepthM,
    double setbackM,
    double fromBuildingM,
    double trenchWidthM,
    double pipeOutsideM,
    double pipeInsideM,
    double verticalClearanceM,
    double boreMaxLengthM,
    GradeLine gradeLine) {

  /** Which pipe is laid along a line where several keep within the limits. */
  public enum GradeLine {
    /** In as few straight grades as there can be, and so with the least digging. */
    FEWEST_GRADES,
    /** With the least digging, its grade changing with the ground. */
    LEAST_DIGGING
  }

  /** Stone under the pipe in metres: 2 in, International Residential Code R405.1. */
  public static final double BED_M = 0.0508;

  /**
   * The greatest depth to the invert in metres above rock: the trench ends a bed and the pipe's
   * wall below it.
   */
  public static double aboveRockM(double rockDepthM, double pipeOutsideM, double pipeInsideM) {
    return rockDepthM - BED_M - (pipeOutsideM - pipeInsideM) / 2;
  }

  /** The same with a pipe of other diameters in metres. */
  public DrainLimits withPipe(double outsideM, double insideM) {
    return new DrainLimits(
        minGrade,
        maxGrade,
        minCoverM,
        maxDepthM,
        setbackM,
        fromBuildingM,
        trenchWidthM,
        outsideM,
        insideM,
        verticalClearanceM,
        boreMaxLengthM,
        gradeLine);
  }

  /** Greatest invert in metres that still has the least cover under the given ground. */
  public double highestInvertM(double groundM) {
    return groundM - minCoverM - pipeOutsideM;
  }

  /** Lowest invert in metres within the greatest depth under the given ground. */
  public double lowestInvertM(double groundM) {
    return groundM - maxDepthM;
  }
}
