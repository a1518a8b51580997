package org.yardfall.site;

import org.locationtech.jts.geom.Polygon;

/**
 * A parcel of land.
 *
 * @param id the parcel's id as its file gives it; text from outside, never markup
 * @param outline its outline in metres of the working plane, valid
 */
public record Parcel(String id, Polygon outline) {}
