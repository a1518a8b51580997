package org.yardfall.site;

import org.geotools.api.referencing.crs.CoordinateReferenceSystem;

/**
 * The one projected CRS in which a site is worked, and its link to the metres used inside.
 *
 * <p>Inside, all plan coordinates are this CRS's easting and northing times {@link
 * #metresPerUnit()}: the working plane, in metres. At the edges they are divided by it again.
 *
 * @param crs the CRS, easting first
 * @param name what a person calls it, for example {@code EPSG:26915}
 * @param metresPerUnit metres per unit of its axes: 1, 1200/3937 (US survey foot), 0.3048
 */
public record WorkingCrs(CoordinateReferenceSystem crs, String name, double metresPerUnit) {

  /** US survey foot in metres, exactly 1200/3937. */
  public static final double US_SURVEY_FOOT_M = 1200.0 / 3937.0;

  /** International foot in metres, exactly 0.3048. */
  public static final double INTERNATIONAL_FOOT_M = 0.3048;

  /** A coordinate of the working plane in this CRS's own unit. */
  public double toCrsUnit(double metres) {
    return metres / metresPerUnit;
  }

  /** A coordinate in this CRS's own unit on the working plane. */
  public double toMetres(double crsUnits) {
    return crsUnits * metresPerUnit;
  }
}
