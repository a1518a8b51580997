package org.yardfall.elevation;

import org.locationtech.jts.geom.Coordinate;

/**
 * A survey shot.
 *
 * @param id its point number as written; its line in the file where it has none
 * @param x easting on the working plane in metres
 * @param y northing on the working plane in metres
 * @param z elevation in metres
 * @param code its field code and description as written, or empty
 */
public record Shot(String id, double x, double y, double z, String code) {

  /** Its place, with the elevation as z. */
  public Coordinate coordinate() {
    return new Coordinate(x, y, z);
  }
}
