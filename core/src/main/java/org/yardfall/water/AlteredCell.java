package org.yardfall.water;

/**
 * A cell whose elevation was lowered so that a culvert or curb cut carries water.
 *
 * @param openingId the opening's id; text from outside
 * @param cell the cell's index
 * @param beforeM elevation before in metres, NaN where it was not known
 * @param afterM elevation after in metres
 */
public record AlteredCell(String openingId, int cell, float beforeM, float afterM) {}
