package org.yardfall.site;

import java.util.List;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Polygon;

/**
 * A building's footprint.
 *
 * @param id its id; text from outside
 * @param outline its footprint in metres of the working plane, valid
 * @param footingBottomM elevation of the underside of its footing in metres, where known
 * @param lowestOpeningM elevation in metres of its lowest opening, a door sill or the rim of a
 *     window well, where known
 * @param downspouts where its downspouts let the roof's water out, in metres of the working plane;
 *     empty where they are not known
 */
public record Building(
    String id,
    Polygon outline,
    OptionalDouble footingBottomM,
    OptionalDouble lowestOpeningM,
    List<Coordinate> downspouts) {

  /** Keeps the list to itself. */
  public Building {
    downspouts = List.copyOf(downspouts);
  }

  /** A building whose downspouts are not known. */
  public Building(
      String id, Polygon outline, OptionalDouble footingBottomM, OptionalDouble lowestOpeningM) {
    this(id, outline, footingBottomM, lowestOpeningM, List.of());
  }

  /** A building of which only the footing is known. */
  public Building(String id, Polygon outline, OptionalDouble footingBottomM) {
    this(id, outline, footingBottomM, OptionalDouble.empty());
  }

  /** This building with the given downspouts. */
  public Building withDownspouts(List<Coordinate> places) {
    return new Building(id, outline, footingBottomM, lowestOpeningM, places);
  }
}
