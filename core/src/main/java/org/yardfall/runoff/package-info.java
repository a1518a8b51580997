/**
 * How much water a storm brings, how fast, and across which stretch of the property line.
 *
 * <p>A {@link org.yardfall.runoff.Storm} is a depth, a duration and the intensities of its bursts.
 * {@link org.yardfall.runoff.SurfaceCover} says what covers each cell; {@link
 * org.yardfall.runoff.CurveNumber} turns rain into runoff cover by cover and never by a weighted
 * number. {@link org.yardfall.runoff.InflowLedgerFinder} leads that runoff down the flow field,
 * remembers which of it has been on the lot, and books it where it first comes in and where it
 * leaves for good; each stretch's peak is {@link org.yardfall.runoff.RationalMethod rational}, at
 * the {@link org.yardfall.runoff.TimeOfConcentration time} that water takes along the stretch's own
 * longest path. Inflow and own rain add up to what leaves, stands, soaks in and is drained.
 *
 * <p>All of it speaks of surface water only, and says what the ground does, not who is answerable.
 */
package org.yardfall.runoff;
