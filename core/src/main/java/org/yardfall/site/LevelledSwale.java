package org.yardfall.site;

import org.locationtech.jts.geom.Polygon;

/**
 * A swale that is to be filled up to the ground on either side of it, so that a buried drain takes
 * its place.
 *
 * @param id its id; text from outside
 * @param outline the swale from bank to bank in metres of the working plane
 */
public record LevelledSwale(String id, Polygon outline) {}
