package org.yardfall.fieldwork;

import org.yardfall.elevation.Shot;

/**
 * A shot that cannot be pipe by what its neighbours say, and was left out.
 *
 * @param shot the shot
 * @param line the line it lies on
 * @param stationM its station in metres
 * @param offM how far in metres it lies above (negative: below) where its neighbours put it
 * @param hint what the reader of the rod may have done, in words; may be empty
 */
public record Blunder(Shot shot, String line, double stationM, double offM, String hint) {}
