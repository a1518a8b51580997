package org.yardfall.water;

/**
 * A cell whose elevation is not taken as it was read: lowered so that a culvert or curb cut carries
 * water, or raised where a swale is levelled.
 *
 * @param by id of the opening or the swale; text from outside
 * @param cell the cell's index
 * @param beforeM elevation before in metres, NaN where it was not known
 * @param afterM elevation after in metres
 */
public record AlteredCell(String by, int cell, float beforeM, float afterM) {}
