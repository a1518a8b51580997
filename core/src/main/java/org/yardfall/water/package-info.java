/**
 * Surface water: the filled surface, where each cell's water goes, how much passes, where it stands
 * and where it spills.
 *
 * <p>{@link org.yardfall.water.SurfaceWaterFinder} does it all in this order:
 *
 * <ol>
 *   <li>Buildings are put into the flow and openings cut through banks (a roof's water comes down
 *       round it: {@link org.yardfall.water.RoofRunoff}).
 *   <li>Every cell points down the slope to a lower neighbour; flats are drained toward lower and
 *       away from higher ground, without touching an elevation. What then has no way on is a pit,
 *       and all that points to it, cell by cell, is its basin.
 *   <li>The lowest pass between every two neighbouring basins is kept. Joined from low to high, as
 *       in Kruskal's spanning tree, the passes give the {@link
 *       org.yardfall.water.DepressionHierarchy}: which depressions merge, where each spills and
 *       into what.
 *   <li>A basin is full at its root's spill level, so the filled surface ({@link
 *       org.yardfall.water.Filling}) takes one comparison a cell. It is the surface that a
 *       priority-flood finds with its heap; here no cell enters one, and only passes are sorted.
 *   <li>{@link org.yardfall.water.FlowRouter} keeps the directions found on the ground and turns
 *       those on filled cells to where the water spills; {@link org.yardfall.water.Accumulation}
 *       adds up what passes, {@link org.yardfall.water.EdgeReach} marks what could come from beyond
 *       the known ground. {@link org.yardfall.water.DInfinity} does the same for flow that spreads.
 *   <li>Depressions large enough to be more than noise are listed as low spots, the rest counted;
 *       flow paths and catchments follow.
 * </ol>
 *
 * <p>Swales that are to be levelled are filled first ({@link org.yardfall.water.SwaleLeveller}),
 * and the water is found anew.
 *
 * <p>{@link org.yardfall.water.StandingWaterFinder} then puts a storm's runoff on the hierarchy.
 *
 * <p>Work on cells goes by stripes of rows on all cores; whatever depends on order is joined in the
 * stripes' order, so results do not depend on the number of cores.
 */
package org.yardfall.water;
