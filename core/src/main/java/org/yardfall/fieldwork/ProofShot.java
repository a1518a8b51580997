package org.yardfall.fieldwork;

import org.yardfall.elevation.Shot;

/**
 * A shot on the laid pipe, held against the plan. Lengths in metres.
 *
 * @param shot the shot
 * @param line the line it lies on: {@code main}, {@code branch 1} …
 * @param stationM station of the nearest place on the line
 * @param offsetM distance from the line, positive to the right looking downstream
 * @param plannedM planned invert there
 * @param builtM invert as laid
 * @param coverM planned ground to outside top of the pipe as laid
 * @param gradeToNext grade to the next shot, positive downstream; NaN at the last of a line, and
 *     where two shots lie at one station
 */
public record ProofShot(
    Shot shot,
    String line,
    double stationM,
    double offsetM,
    double plannedM,
    double builtM,
    double coverM,
    double gradeToNext) {

  /** As laid minus planned, positive where the pipe lies high. */
  public double differenceM() {
    return builtM - plannedM;
  }
}
