package org.yardfall.fieldwork;

import java.util.List;
import org.locationtech.jts.geom.Coordinate;

/**
 * A place where one shot can change the decision.
 *
 * @param id {@code P1}, {@code P2} …
 * @param what what to hold the rod on
 * @param at where, in metres of the working plane
 * @param wgs84 where, as longitude (x) and latitude (y) of WGS 84 in degrees, for a phone
 * @param expectedM elevation in metres that the plan rests on
 * @param lowestM lowest elevation in metres with which the plan still works; NaN: however low
 * @param highestM highest elevation in metres with which the plan still works; NaN: however high
 * @param why why here, in words, most telling first
 * @param routeIds the routes that rest on it, by rank
 */
public record ShotPlace(
    String id,
    What what,
    Coordinate at,
    Coordinate wgs84,
    double expectedM,
    double lowestM,
    double highestM,
    List<String> why,
    List<String> routeIds) {

  /** What the rod is held on. */
  public enum What {
    /** The lowest point where a pipe can enter the outlet. */
    OUTLET_INVERT,
    /** The ground. */
    GROUND
  }

  /** Keeps the lists to itself. */
  public ShotPlace {
    why = List.copyOf(why);
    routeIds = List.copyOf(routeIds);
  }
}
