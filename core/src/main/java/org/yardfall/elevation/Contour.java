package org.yardfall.elevation;

import org.locationtech.jts.geom.LineString;

/**
 * A line of one elevation.
 *
 * @param elevationM the elevation in metres
 * @param line the line on the working plane in metres; a ring is closed
 */
public record Contour(double elevationM, LineString line) {}
