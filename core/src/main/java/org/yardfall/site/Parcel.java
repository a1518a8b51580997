package org.yardfall.site;

import org.locationtech.jts.geom.Polygon;

/**
 * A parcel of land.
 *
 * @param id the parcel's id as its file gives it; text from outside, never markup
 * @param outline its outline in metres of the working plane, valid
 * @param rightOfWay whether it is public right-of-way (a street that has a parcel of its own)
 */
public record Parcel(String id, Polygon outline, boolean rightOfWay) {

  /** A parcel that is somebody's ground. */
  public Parcel(String id, Polygon outline) {
    this(id, outline, false);
  }
}
