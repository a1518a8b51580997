package org.yardfall.site;

import java.util.OptionalDouble;
import org.locationtech.jts.geom.Polygon;

/**
 * A building's footprint.
 *
 * @param id its id; text from outside
 * @param outline its footprint in metres of the working plane, valid
 * @param footingBottomM elevation of the underside of its footing in metres, where known
 * @param lowestOpeningM elevation in metres of its lowest opening, a door sill or the rim of a
 *     window well, where known
 */
public record Building(
    String id, Polygon outline, OptionalDouble footingBottomM, OptionalDouble lowestOpeningM) {

  /** A building whose openings are not known. */
  public Building(String id, Polygon outline, OptionalDouble footingBottomM) {
    this(id, outline, footingBottomM, OptionalDouble.empty());
  }
}
