package org.yardfall.fieldwork;

import java.math.BigDecimal;

/**
 * A point of level notes, reduced. Figures are in the notes' own unit and exact, as decimals are.
 *
 * @param name its name in the notes; text from outside
 * @param line line of the notes in the file, from 1
 * @param setup the set-up from which it was sighted, from 1; 0 for the starting benchmark
 * @param sight how it was sighted
 * @param hi height of instrument of the set-up that starts here, null where none does
 * @param elevation elevation from the readings
 * @param correction what adjustment adds, 0 where nothing is adjusted
 * @param adjusted elevation after adjustment, rounded to one more place than the readings have
 */
public record LevelPoint(
    String name,
    int line,
    int setup,
    Sight sight,
    BigDecimal hi,
    BigDecimal elevation,
    BigDecimal correction,
    BigDecimal adjusted) {

  /** How a point was sighted. */
  public enum Sight {
    /** Not sighted: its elevation is known. */
    BENCHMARK,
    /** Between the turning points; nothing depends on it. */
    INTERMEDIATE,
    /** By a foresight: a turning point or the end. */
    FORESIGHT
  }
}
