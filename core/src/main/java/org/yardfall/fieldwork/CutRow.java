package org.yardfall.fieldwork;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;

/**
 * A stake of a cut sheet. Lengths and elevations in metres.
 *
 * @param stationM distance along the line from its upper end
 * @param why why a stake stands here, in the trade's words, at least one: {@code upper end, bend
 *     12° left, grade break, junction of branch 1, crossing begins, drop, …, interval, outlet}
 * @param pipe the pipe laid downstream of it, in words; empty where it is not known
 * @param at the stake on the centre line, on the working plane
 * @param groundM planned ground
 * @param invertM planned invert; at a drop, downstream of it
 * @param bottomM bottom of the trench: invert less pipe wall and bed
 * @param cutM ground to bottom of trench
 * @param dropM how much higher the pipe arrives than it leaves, 0 where there is no drop
 * @param grade grade to the next stake, positive downstream; NaN at the last
 * @param left stake to the left looking downstream, where one is set
 * @param right stake to the right looking downstream, where one is set
 * @param invertRodM what the rod reads on the invert, where the instrument is set up
 * @param bottomRodM what the rod reads on the bottom of the trench
 */
public record CutRow(
    double stationM,
    List<String> why,
    String pipe,
    Coordinate at,
    double groundM,
    double invertM,
    double bottomM,
    double cutM,
    double dropM,
    double grade,
    Optional<Coordinate> left,
    Optional<Coordinate> right,
    OptionalDouble invertRodM,
    OptionalDouble bottomRodM) {

  /** Keeps the list to itself. */
  public CutRow {
    why = List.copyOf(why);
  }
}
