package org.yardfall.fieldwork;

import java.math.BigDecimal;

/**
 * A line of level notes as booked, in the notes' unit; null for what is empty.
 *
 * @param line line in the file, from 1
 * @param point the point's name
 * @param back backsight
 * @param between intermediate sight
 * @param fore foresight
 * @param hi booked height of instrument
 * @param elevation booked elevation
 * @param known known elevation of a benchmark
 * @param distance distance from the start along the levelling, in metres
 */
record LevelRow(
    int line,
    String point,
    BigDecimal back,
    BigDecimal between,
    BigDecimal fore,
    BigDecimal hi,
    BigDecimal elevation,
    BigDecimal known,
    BigDecimal distance) {}
