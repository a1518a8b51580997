package org.yardfall.elevation;

import java.util.OptionalDouble;

/**
 * What ground made of shots rests on at each cell: the corners of its triangle. Between them it is
 * taken as flat; what it does there is not known.
 *
 * @param unevenness how far a corner stands off the ground that its neighbours give without it, the
 *     most of the three, in metres; 0 at breaklines, which say how the ground bends
 * @param lowest elevation of the lowest corner in metres
 */
public record ShotSupport(ElevationGrid unevenness, ElevationGrid lowest) {

  /**
   * Whether a hollow may be open where it spills. Two shots on the banks of a ditch and none
   * between them make a dam that is not there: then a triangle at the sill reaches down to ground
   * lower than the hollow's bottom, and its shots are less well foretold by their neighbours than
   * the hollow is deep (cross validation by leaving one out).
   *
   * @param spillCell the cell over which it spills
   * @param bottomM its lowest elevation
   * @param depthM its depth to the sill
   * @return how uneven the ground is there in metres; empty where the sill stands
   */
  public OptionalDouble openAt(int spillCell, double bottomM, double depthM) {
    GridFrame frame = unevenness.frame();
    int row = spillCell / frame.cols();
    int col = spillCell % frame.cols();
    double most = 0;
    for (int r = Math.max(0, row - 1); r <= Math.min(frame.rows() - 1, row + 1); r++) {
      for (int c = Math.max(0, col - 1); c <= Math.min(frame.cols() - 1, col + 1); c++) {
        int cell = r * frame.cols() + c;
        if (lowest.z()[cell] < bottomM) {
          most = Math.max(most, unevenness.z()[cell]);
        }
      }
    }
    return most > depthM ? OptionalDouble.of(most) : OptionalDouble.empty();
  }
}
