package org.yardfall.site;

import org.locationtech.jts.geom.Polygon;

/**
 * A walk, drive or other slab that a drain passes under by a straight bore.
 *
 * @param id its id; text from outside
 * @param outline the slab in metres of the working plane, valid
 * @param thicknessM thickness of the slab in metres
 * @param baseM thickness of the base below it in metres
 */
public record Crossing(String id, Polygon outline, double thicknessM, double baseM) {}
