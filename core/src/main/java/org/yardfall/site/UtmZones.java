package org.yardfall.site;

import java.util.Locale;
import java.util.Optional;

/**
 * The UTM zones of the datums that surveys and rasters mostly come in, written out as the EPSG
 * register defines them. Most sites are worked in one, and reading it from the register's database
 * would take most of the start of a short command.
 *
 * @see <a href="https://epsg.org">EPSG Geodetic Parameter Dataset</a>, codes 26901–26923,
 *     25828–25838, 32601–32660, 32701–32760
 */
final class UtmZones {

  private static final String WGS84 =
      "GEOGCS[\"WGS 84\", DATUM[\"World Geodetic System 1984\", SPHEROID[\"WGS 84\", 6378137.0,"
          + " 298.257223563, AUTHORITY[\"EPSG\",\"7030\"]], AUTHORITY[\"EPSG\",\"6326\"]],%s"
          + " AUTHORITY[\"EPSG\",\"4326\"]]";

  private static final String NAD83 =
      "GEOGCS[\"NAD83\", DATUM[\"North American Datum 1983\", SPHEROID[\"GRS 1980\", 6378137.0,"
          + " 298.257222101, AUTHORITY[\"EPSG\",\"7019\"]], TOWGS84[0.0, 0.0, 0.0, 0.0, 0.0, 0.0,"
          + " 0.0], AUTHORITY[\"EPSG\",\"6269\"]],%s AUTHORITY[\"EPSG\",\"4269\"]]";

  private static final String ETRS89 =
      "GEOGCS[\"ETRS89\", DATUM[\"European Terrestrial Reference System 1989\", SPHEROID[\"GRS"
          + " 1980\", 6378137.0, 298.257222101, AUTHORITY[\"EPSG\",\"7019\"]], TOWGS84[0.0, 0.0,"
          + " 0.0, 0.0, 0.0, 0.0, 0.0], AUTHORITY[\"EPSG\",\"6258\"]],%s"
          + " AUTHORITY[\"EPSG\",\"4258\"]]";

  private static final String AXES =
      " PRIMEM[\"Greenwich\", 0.0, AUTHORITY[\"EPSG\",\"8901\"]], UNIT[\"degree\","
          + " 0.017453292519943295], AXIS[\"Geodetic longitude\", EAST], AXIS[\"Geodetic"
          + " latitude\", NORTH],";

  @SuppressWarnings("InlineFormatString") // a definition to be read beside the others
  private static final String ZONE =
      "PROJCS[\"%s / UTM zone %d%s\", %s, PROJECTION[\"Transverse_Mercator\","
          + " AUTHORITY[\"EPSG\",\"9807\"]], PARAMETER[\"central_meridian\", %d.0],"
          + " PARAMETER[\"latitude_of_origin\", 0.0], PARAMETER[\"scale_factor\", 0.9996],"
          + " PARAMETER[\"false_easting\", 500000.0], PARAMETER[\"false_northing\", %d.0],"
          + " UNIT[\"m\", 1.0], AXIS[\"Easting\", EAST], AXIS[\"Northing\", NORTH],"
          + " AUTHORITY[\"EPSG\",\"%d\"]]";

  private UtmZones() {}

  /** The definition of an EPSG code as well-known text, easting first; empty for any other CRS. */
  static Optional<String> wkt(int code) {
    return switch (code / 100) {
      case 269 -> zone(code, "NAD83", NAD83, 1, 23, true);
      case 258 -> zone(code, "ETRS89", ETRS89, 28, 38, true);
      case 326 -> zone(code, "WGS 84", WGS84, 1, 60, true);
      case 327 -> zone(code, "WGS 84", WGS84, 1, 60, false);
      default -> Optional.empty();
    };
  }

  private static Optional<String> zone(
      int code, String datum, String geographic, int first, int last, boolean north) {
    int zone = code % 100;
    return zone < first || zone > last
        ? Optional.empty()
        : Optional.of(
            String.format(
                Locale.ROOT,
                ZONE,
                datum,
                zone,
                north ? "N" : "S",
                String.format(Locale.ROOT, geographic, AXES),
                6 * zone - 183,
                north ? 0 : 10_000_000,
                code));
  }
}
