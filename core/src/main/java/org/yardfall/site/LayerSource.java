package org.yardfall.site;

import java.nio.file.Path;

/**
 * A layer of a vector file as the user named it.
 *
 * @param file the file, absolute and normalised
 * @param layer the layer's name within it, or null for the only one
 * @param crs a CRS that overrules or replaces the file's own, or null
 * @param idField the attribute that holds ids, or null for the usual ones
 * @param unit unit of bare numbers in its attributes, or null for metres
 */
public record LayerSource(Path file, String layer, String crs, String idField, String unit) {

  /** The only layer of a file that knows its own CRS. */
  public static LayerSource of(Path file) {
    return new LayerSource(file.toAbsolutePath().normalize(), null, null, null, null);
  }
}
