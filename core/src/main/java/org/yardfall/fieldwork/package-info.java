/**
 * Levels read, stakes set and pipe proved: what a crew takes to the yard and brings back.
 *
 * <p>{@link org.yardfall.fieldwork.LevelNotes} reduces a notebook of differential levelling, {@link
 * org.yardfall.fieldwork.LaserSetup} the everyday single set-up. {@link
 * org.yardfall.fieldwork.CutSheet} turns a planned route into stakes with cuts and rod readings.
 * {@link org.yardfall.fieldwork.ShotList} names, before anyone digs, the few places whose elevation
 * decides. {@link org.yardfall.fieldwork.AsBuiltProof} holds shots on the laid pipe against the
 * plan: first it makes sure that they can be of this pipe at all, then it takes out misread rods,
 * then it measures differences, adverse grades and the water that bellies keep. A crew without
 * coordinates names its readings by stake ({@link org.yardfall.fieldwork.StakedShots}). When the
 * shots are in, {@link org.yardfall.fieldwork.PlanRecheck} says whether a plan's decision still
 * holds. Lengths are metres inside; {@link org.yardfall.fieldwork.FieldUnits} writes them as crews
 * do.
 */
package org.yardfall.fieldwork;
