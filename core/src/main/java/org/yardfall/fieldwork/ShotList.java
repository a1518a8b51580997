package org.yardfall.fieldwork;

import java.util.List;
import org.yardfall.route.Route;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Outlet;
import org.yardfall.site.WorkingCrs;
import org.yardfall.water.LowSpot;

/**
 * Where to shoot before anyone digs: the few places whose elevation decides whether the proposed
 * routes work, each with the elevations between which they do.
 *
 * @param crs the working CRS
 * @param accuracyM vertical accuracy (RMSE) of the ground that the plan rests on, in metres
 * @param places the places, numbered
 */
public record ShotList(WorkingCrs crs, double accuracyM, List<ShotPlace> places) {

  /**
   * An error that 95 of 100 elevations keep within, in parts of their RMSE: Federal Geographic Data
   * Committee, National Standard for Spatial Data Accuracy, FGDC-STD-007.3-1998.
   */
  static final double NINETY_FIVE_PERCENT = 1.96;

  /** Keeps the list to itself. */
  public ShotList {
    places = List.copyOf(places);
  }

  /**
   * The places for the given routes: their outlets' inverts, the upper ends of their lines, the
   * crossings, the worst of every stretch where an error of the ground within its 95 % bound could
   * leave no line between least cover, greatest depth and least grade, and the spill points of the
   * low spots that they drain. Places within 1.5 m of each other are one.
   *
   * @param crs the working CRS
   * @param limits the limits that the routes keep
   * @param accuracyM vertical accuracy (RMSE) of the ground in metres
   * @param outlets the site's outlets; of one that is not among them, or whose invert is not known,
   *     the pipe's end is taken
   * @param lowSpots the low spots of the site
   * @param routes the routes by rank
   */
  public static ShotList of(
      WorkingCrs crs,
      DrainLimits limits,
      double accuracyM,
      List<Outlet> outlets,
      List<LowSpot> lowSpots,
      List<Route> routes) {
    ShotListFinder finder = new ShotListFinder(crs, limits, accuracyM, outlets, lowSpots);
    routes.forEach(finder::add);
    return new ShotList(crs, accuracyM, finder.places());
  }

  /** The list as CSV; coordinates in the working CRS and in degrees of WGS 84. */
  public String csv(FieldUnits units) {
    String unit = "_" + units.unit();
    CsvText csv =
        new CsvText(
            "id",
            "hold_rod_on",
            "x",
            "y",
            "longitude",
            "latitude",
            "expected" + unit,
            "works_from" + unit,
            "works_to" + unit,
            "why",
            "routes");
    for (ShotPlace place : places) {
      csv.row(
          place.id(),
          Words.of(place.what()),
          FieldUnits.fixed(crs.toCrsUnit(place.at().x), 3),
          FieldUnits.fixed(crs.toCrsUnit(place.at().y), 3),
          FieldUnits.fixed(place.wgs84().x, 8),
          FieldUnits.fixed(place.wgs84().y, 8),
          units.length(place.expectedM()),
          Double.isNaN(place.lowestM()) ? "" : units.length(place.lowestM()),
          Double.isNaN(place.highestM()) ? "" : units.length(place.highestM()),
          String.join("; ", place.why()),
          String.join(" ", place.routeIds()));
    }
    return csv.toString();
  }
}
