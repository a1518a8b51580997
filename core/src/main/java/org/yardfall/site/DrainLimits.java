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
    double pipeInsideM) {

  /** Greatest invert in metres that still has the least cover under the given ground. */
  public double highestInvertM(double groundM) {
    return groundM - minCoverM - pipeOutsideM;
  }

  /** Lowest invert in metres within the greatest depth under the given ground. */
  public double lowestInvertM(double groundM) {
    return groundM - maxDepthM;
  }
}
