package org.yardfall.site;

import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The shifts to WGS 84 of datums that a shapefile's {@code .prj} names without them. Values: EPSG
 * register, as used by PROJ 9.1 without grids (geocentric translations in m, position vector
 * rotations in arc seconds, scale in ppm); the frames of the first block are taken as equal to WGS
 * 84 by the register, which holds within a metre or two.
 */
final class DatumShifts {

  private static final String EQUAL = "0,0,0,0,0,0,0";

  private static final Map<String, String> BY_NAME =
      Map.ofEntries(
          Map.entry("northamerican1983", EQUAL),
          Map.entry("northamericandatum1983", EQUAL),
          Map.entry("nad19832011", EQUAL),
          Map.entry("nad83nationalspatialreferencesystem2011", EQUAL),
          Map.entry("etrs1989", EQUAL),
          Map.entry("europeanterrestrialreferencesystem1989", EQUAL),
          Map.entry("rgf1993", EQUAL),
          Map.entry("gda1994", EQUAL),
          Map.entry("nzgd2000", EQUAL),
          Map.entry("slovenia1996", EQUAL),
          Map.entry("ch1903", "674.374,15.056,405.346,0,0,0,0"),
          Map.entry("ch1903+", "674.374,15.056,405.346,0,0,0,0"),
          Map.entry("osgb1936", "446.448,-125.157,542.06,0.15,0.247,0.842,-20.489"),
          Map.entry(
              "amersfoort",
              "565.2369,50.0087,465.658,-0.406857330322398,0.350732676542563,-1.8703473836068,4.0812"));

  private static final Pattern DATUM =
      Pattern.compile(
          "(DATUM\\s*\\[\\s*\"([^\"]*)\"\\s*,\\s*SPHEROID\\s*\\[[^\\[\\]]*(?:\\[[^\\]]*\\][^\\[\\]]*)?\\])",
          Pattern.CASE_INSENSITIVE);

  private DatumShifts() {}

  /** The definition, completed by its datum's shift where it lacks one and the datum is known. */
  static String complete(String wkt) {
    Matcher datum = DATUM.matcher(wkt);
    if (wkt.toUpperCase(Locale.ROOT).contains("TOWGS84") || !datum.find()) {
      return wkt;
    }
    String name =
        datum.group(2).toLowerCase(Locale.ROOT).replaceFirst("^d_", "").replaceAll("[_ ()]", "");
    String shift = BY_NAME.get(name);
    return shift == null
        ? wkt
        : wkt.substring(0, datum.end()) + ",TOWGS84[" + shift + "]" + wkt.substring(datum.end());
  }
}
