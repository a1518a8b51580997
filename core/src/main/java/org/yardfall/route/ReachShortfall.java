package org.yardfall.route;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;

/**
 * By cell that no pipe falls from to an outlet: which change of each limit, alone, would mend it.
 * The changes are told on a ladder of rungs, each cell by the first rung that helps, so the true
 * change lies between that rung and the one before; {@link RelaxationFinder} tells it exactly for a
 * drain.
 *
 * @param limits the limits that are relaxed
 * @param rungs by limit the rungs tried, each a greater change than the one before
 * @param rung by limit and cell the index of the first rung that helps; {@link #NONE} where none
 *     does, {@link #NOT_ASKED} where an outlet is reached, no trench may be dug, or the cell is not
 *     on the lot
 */
@SuppressWarnings("ArrayRecordComponent") // made once for a map, not copied for every reader
public record ReachShortfall(List<Limit> limits, double[][] rungs, byte[][] rung) {

  /** No rung of this limit alone helps. */
  public static final byte NONE = -1;

  /** There is nothing to mend here. */
  public static final byte NOT_ASKED = -2;

  /** A limit that may be relaxed. */
  public enum Limit {
    /** The outlet lies so many metres lower. */
    OUTLET,
    /** Trenches may be so many metres deeper. */
    MAX_DEPTH,
    /** So many metres less cover. */
    MIN_COVER,
    /** The least grade drops to so much. */
    MIN_GRADE
  }

  /** Keeps the list to itself. */
  public ReachShortfall {
    limits = List.copyOf(limits);
  }

  /** Whether the cell is one from which no pipe falls to an outlet as the limits are. */
  public boolean lacks(int cell) {
    return rung[0][cell] != NOT_ASKED;
  }

  /**
   * The first rung of a limit that helps at a cell; the grade that must do, for the least grade.
   */
  public OptionalDouble relax(Limit limit, int cell) {
    int i = limits.indexOf(limit);
    return rung[i][cell] < 0 ? OptionalDouble.empty() : OptionalDouble.of(rungs[i][rung[i][cell]]);
  }

  /** The smallest change in metres that helps at a cell, as a rung; empty where none does alone. */
  public OptionalDouble shortfallM(int cell) {
    return Arrays.stream(Limit.values())
        .filter(limit -> limit != Limit.MIN_GRADE)
        .map(limit -> relax(limit, cell))
        .filter(OptionalDouble::isPresent)
        .mapToDouble(OptionalDouble::getAsDouble)
        .min();
  }
}
