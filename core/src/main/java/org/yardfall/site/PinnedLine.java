package org.yardfall.site;

import org.locationtech.jts.geom.LineString;

/**
 * A drain that the user drew.
 *
 * @param id its id; text from outside
 * @param line the line from its upper end to its outlet, in metres of the working plane
 * @param outletId the outlet that it leads to; empty: the nearest to its lower end
 * @param seepId the wet patch whose water it is to intercept; empty: none
 */
public record PinnedLine(String id, LineString line, String outletId, String seepId) {}
