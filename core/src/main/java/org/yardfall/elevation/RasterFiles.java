package org.yardfall.elevation;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.yardfall.site.BadInputException;

/** Opens elevation rasters by what they hold, not by how they are called. */
final class RasterFiles {

  private RasterFiles() {}

  /**
   * Opens a raster, its rows seen from north to south where they run along an axis of its CRS.
   *
   * @throws BadInputException where the file is missing, empty, no raster or holds no elevations
   */
  static RasterFile open(Path file) {
    if (!Files.exists(file)) {
      throw bad(file, "there is no such file", "check the name of the elevation raster");
    }
    if (!Files.isRegularFile(file)) {
      throw bad(file, "it is not a file", "give the name of the raster's file");
    }
    byte[] start = start(file);
    if (start.length == 0) {
      throw bad(file, "it is empty", "get the file again from its source");
    }
    if (isTiff(start)) {
      return FlippedRaster.northUp(GeoTiffFile.open(file));
    }
    if (AsciiGridFile.looksLike(file)) {
      return AsciiGridFile.open(file);
    }
    throw bad(
        file,
        "it is neither a GeoTIFF nor an ASCII grid",
        "convert it, for example: gdal_translate FILE elevation.tif");
  }

  private static byte[] start(Path file) {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(4);
    } catch (IOException e) {
      throw bad(file, "it cannot be read (" + e.getMessage() + ")", "check the rights on it");
    }
  }

  /** Classic TIFF and BigTIFF, of both byte orders (TIFF 6.0, section 2). */
  private static boolean isTiff(byte[] start) {
    if (start.length < 4) {
      return false;
    }
    boolean little = start[0] == 'I' && start[1] == 'I' && start[3] == 0;
    boolean big = start[0] == 'M' && start[1] == 'M' && start[2] == 0;
    int version = little ? start[2] : big ? start[3] : 0;
    return version == 42 || version == 43;
  }

  private static BadInputException bad(Path file, String what, String mend) {
    return new BadInputException(file.toString(), what, mend);
  }
}
