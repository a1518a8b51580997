package org.yardfall.water;

import org.locationtech.jts.geom.LineString;

/**
 * A line along which surface water runs, upstream to downstream.
 *
 * @param id {@code F1}, {@code F2} …, largest area first
 * @param line the line in metres of the working plane
 * @param areaM2 area that drains through its lower end in m²
 * @param atLeast whether that area is a lower bound
 * @param undetermined whether the ground is too flat or too coarsely rounded to tell its direction
 */
public record FlowPath(
    String id, LineString line, double areaM2, boolean atLeast, boolean undetermined) {}
