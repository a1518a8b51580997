package org.yardfall.water;

import org.locationtech.jts.geom.Geometry;

/**
 * The ground that drains to something.
 *
 * @param id {@code C1}, {@code C2} …
 * @param of what it drains to: {@code lot}, or a low spot's id
 * @param outline polygon or multipolygon in metres of the working plane
 * @param areaM2 area in m²
 * @param cutOff compass sides on which the known ground ends before the catchment does, or empty
 */
public record Catchment(String id, String of, Geometry outline, double areaM2, String cutOff) {}
