/**
 * Drain routes with fall all the way, and a reason for every one that has it not.
 *
 * <p>A pipe can only run downhill, between the depth that keeps it covered and the depth that a
 * trench may have. So before any line is drawn, {@link org.yardfall.route.GravityReachFinder} finds
 * from every outlet upstream how low a pipe must lie at each place in order to arrive: the gravity
 * reach. Where that is nowhere under the ground, no drain can work, and {@link
 * org.yardfall.route.RelaxationFinder} tells by how little each limit fails.
 *
 * <p>The ground is asked in full. {@link org.yardfall.route.RouteGround} holds the raw elevations;
 * where a trench may go in plan is decided by exact geometry, and what a step costs in height by
 * all the ground under it ({@link org.yardfall.route.GroundLine}), not by its ends. Steps go to 16
 * or 32 neighbours, so a path is at most 2.8 % or 1.4 % longer than the straight line; slabs are
 * passed by straight bores.
 *
 * <p>{@link org.yardfall.route.DrainRouter} takes a collecting line to an outlet. Each place where
 * both arms of the line can let their water go is a start; the trunk from there is the cheapest on
 * the graph, with the pipe as high as it can lie and the gravity reach telling which ways can still
 * arrive. The stair-steps of the grid are then straightened out, every new stretch judged anew, and
 * {@link org.yardfall.route.GradeLine} lays the pipe in the fewest straight grades, and of all such
 * pipes the one with the least digging; or with the least digging of all, where that is asked for.
 *
 * <p>Further collecting lines join the drain as branches, or join a branch ({@link
 * org.yardfall.route.Route.Branch}): a tree, in which no pipe ends below the one it joins and no
 * two lines lie in one trench.
 *
 * <p>What to take the water from is told by a collector of each kind ({@code LotCollectors}): the
 * property line, the house, the low spots, and where the user says so a swale that is levelled or
 * the ground above a wet patch.
 *
 * <p>{@link org.yardfall.route.RouteAuditor} believes none of this. From the vertices, the stations
 * and the raw ground alone it measures fall, cover, depth, distances and the arrival again; what
 * fails there is never proposed.
 */
package org.yardfall.route;
