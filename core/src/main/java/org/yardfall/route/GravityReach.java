package org.yardfall.route;

import java.util.List;
import java.util.Optional;
import org.yardfall.elevation.GridFrame;

/**
 * For every cell the lowest invert from which a pipe can fall to an outlet within the limits.
 *
 * @param frame the grid
 * @param outletIds the outlets, by the index used in {@code outlet}
 * @param invertM lowest usable invert in metres by cell, NaN where none reaches an outlet
 * @param outlet index of the outlet reached by cell, −1 where none
 * @param shortfall what would mend it where none is reached, if that was asked
 */
@SuppressWarnings("ArrayRecordComponent") // hot-loop arrays, deliberately shared
public record GravityReach(
    GridFrame frame,
    List<String> outletIds,
    double[] invertM,
    int[] outlet,
    Optional<ReachShortfall> shortfall) {

  /** Keeps the list to itself. */
  public GravityReach {
    outletIds = List.copyOf(outletIds);
  }

  GravityReach with(ReachShortfall lack) {
    return new GravityReach(frame, outletIds, invertM, outlet, Optional.of(lack));
  }

  /** Whether an outlet can be reached from the cell. */
  public boolean reaches(int cell) {
    return outlet[cell] >= 0;
  }
}
