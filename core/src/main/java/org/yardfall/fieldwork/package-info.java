/**
 * Levels read, stakes set and pipe proved: what a crew takes to the yard and brings back.
 *
 * <p>{@link org.yardfall.fieldwork.LevelNotes} reduces a notebook of differential levelling, {@link
 * org.yardfall.fieldwork.LaserSetup} the everyday single set-up. {@link
 * org.yardfall.fieldwork.CutSheet} turns a planned route into stakes with cuts and rod readings.
 * Lengths are metres inside; {@link org.yardfall.fieldwork.FieldUnits} writes them as crews do.
 */
package org.yardfall.fieldwork;
