package org.yardfall.site;

import java.util.OptionalDouble;
import org.locationtech.jts.geom.Geometry;

/**
 * A place where water comes out of the ground, or the ground stays wet from below, as the user saw
 * it: elevations do not show it.
 *
 * @param id its id; text from outside
 * @param shape the wet patch, point, line or polygon in metres of the working plane
 * @param waterDepthM depth in metres from the ground to the soil that bears the water, just uphill
 *     of the patch, where a test pit has shown it
 */
public record Seep(String id, Geometry shape, OptionalDouble waterDepthM) {}
