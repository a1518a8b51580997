package org.yardfall.site;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.locationtech.jts.geom.Geometry;

/**
 * A feature of a vector file as it stands there.
 *
 * @param fid the file's own id of it, or its number in the file, from 1
 * @param geometry its geometry in the file's CRS, or null
 * @param attributes its attributes as text, in file order; a missing value is left out
 */
record VectorFeature(String fid, Geometry geometry, Map<String, String> attributes) {

  /** A shapefile's table cuts names here. */
  private static final int CUT_NAME = 10;

  /** The attribute of exactly this name, else the one that differs in case only. */
  Optional<String> attribute(String name) {
    String exact = attributes.get(name);
    if (exact != null) {
      return Optional.of(exact);
    }
    return attributes.entrySet().stream()
        .filter(e -> e.getKey().equalsIgnoreCase(name))
        .map(Map.Entry::getValue)
        .findFirst();
  }

  /**
   * The attribute of a documented key: case does not matter, an underscore stands for a hyphen, and
   * the name may be cut to the ten letters of a shapefile's table.
   */
  Optional<String> keyed(String key) {
    return attributes.entrySet().stream()
        .filter(e -> means(e.getKey(), key) && !e.getValue().isBlank())
        .map(e -> e.getValue().strip())
        .findFirst();
  }

  private static boolean means(String field, String key) {
    String name = field.toLowerCase(Locale.ROOT).replace('_', '-');
    return name.equals(key) || (key.length() > CUT_NAME && name.equals(key.substring(0, CUT_NAME)));
  }
}
