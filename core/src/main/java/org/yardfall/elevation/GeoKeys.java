package org.yardfall.elevation;

import it.geosolutions.imageio.plugins.tiff.GeoTIFFTagSet;
import it.geosolutions.imageio.plugins.tiff.TIFFField;
import it.geosolutions.imageioimpl.plugins.tiff.TIFFImageMetadata;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * The keys of a GeoTIFF by number, vertical ones included, as laid down in the OGC GeoTIFF Standard
 * 1.1 (19-008r4), clause 7.1: a directory of short numbers, with texts in a tag of their own.
 */
final class GeoKeys {

  static final int MODEL_TYPE = 1024;
  static final int RASTER_TYPE = 1025;
  static final int CITATION = 1026;
  static final int GEODETIC_CRS = 2048;
  static final int PROJECTED_CRS = 3072;
  static final int PROJECTED_UNIT = 3076;
  static final int VERTICAL_CRS = 4096;
  static final int VERTICAL_CITATION = 4097;
  static final int VERTICAL_UNIT = 4099;

  /** The number by which a key says that its value is given by other keys. */
  static final int USER_DEFINED = 32_767;

  private static final int DIRECTORY_TAG = GeoTIFFTagSet.TAG_GEO_KEY_DIRECTORY;
  private static final int TEXT_TAG = GeoTIFFTagSet.TAG_GEO_ASCII_PARAMS;

  private final int[] directory;
  private final String texts;

  private GeoKeys(int[] directory, String texts) {
    this.directory = directory;
    this.texts = texts;
  }

  /** The keys of an image, none where it has none. */
  static GeoKeys of(TIFFImageMetadata metadata) {
    TIFFField directory = metadata.getTIFFField(DIRECTORY_TAG);
    TIFFField texts = metadata.getTIFFField(TEXT_TAG);
    return new GeoKeys(
        directory == null ? new int[0] : directory.getAsInts(),
        texts == null ? "" : texts.getAsString(0));
  }

  /** The keys of a directory of short numbers with its texts, as LAS files hold them. */
  static GeoKeys of(int[] directory, String texts) {
    return new GeoKeys(directory, texts);
  }

  /**
   * The CRS that they name by its EPSG code; empty where they name none or define one themselves.
   *
   * @param source the file
   */
  Optional<RasterCrs> codedCrs(String source) {
    OptionalInt projected = number(PROJECTED_CRS);
    OptionalInt geodetic = number(GEODETIC_CRS);
    int model = number(MODEL_TYPE).orElse(isCode(projected) ? 1 : 2);
    if (model == 1 && isCode(projected)) {
      OptionalInt unit = number(PROJECTED_UNIT);
      return Optional.of(
          RasterCrs.ofEpsg(
              projected.getAsInt(),
              source,
              unit.isPresent() ? VerticalUnit.ofEpsg(unit.getAsInt(), "") : Optional.empty()));
    }
    if (model == 2 && isCode(geodetic)) {
      return Optional.of(RasterCrs.ofEpsg(geodetic.getAsInt(), source, Optional.empty()));
    }
    return Optional.empty();
  }

  /** The vertical CRS that they name by its EPSG code. */
  Optional<VerticalCrs> verticalCrs() {
    OptionalInt code = number(VERTICAL_CRS);
    return isCode(code) ? VerticalCrs.ofEpsg(code.getAsInt()) : Optional.empty();
  }

  /** Whether a key holds a code of the EPSG register. */
  static boolean isCode(OptionalInt key) {
    return key.isPresent() && key.getAsInt() > 0 && key.getAsInt() < USER_DEFINED;
  }

  /** Whether there are any. */
  boolean isEmpty() {
    return directory.length <= 4;
  }

  /** A key whose value is a short number. */
  OptionalInt number(int key) {
    int at = find(key);
    return at < 0 || directory[at + 1] != 0
        ? OptionalInt.empty()
        : OptionalInt.of(directory[at + 3]);
  }

  /** A key whose value is a text. */
  Optional<String> text(int key) {
    int at = find(key);
    if (at < 0 || directory[at + 1] != TEXT_TAG) {
      return Optional.empty();
    }
    int from = Math.min(directory[at + 3], texts.length());
    int to = Math.min(from + directory[at + 2], texts.length());
    String text = texts.substring(from, to).strip();
    return Optional.of(text.endsWith("|") ? text.substring(0, text.length() - 1) : text);
  }

  private int find(int key) {
    for (int at = 4; at + 3 < directory.length; at += 4) {
      if (directory[at] == key) {
        return at;
      }
    }
    return -1;
  }
}
