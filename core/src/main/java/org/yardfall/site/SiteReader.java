package org.yardfall.site;

import java.nio.file.Path;
import java.util.Optional;

/**
 * Reads a site: the site file and every vector file it names. Elevations are not read here; only
 * the CRS of the elevation raster is asked for, where the site file names no working CRS.
 *
 * <p>All that is wrong is found in one go, each with its mend. What is not given is assumed and
 * stands in {@link Site#assumptions()} with its source.
 */
public final class SiteReader {

  private SiteReader() {}

  /**
   * Reads the site of a site file.
   *
   * @param siteFile the site file (YAML); the paths in it are relative to its folder
   * @param rasters gives the working CRS where the site file names none
   * @return the site, validated, on the working plane
   * @throws BadInputException with every problem found
   */
  public static Site read(Path siteFile, RasterPlanes rasters) {
    return read(siteFile, Optional.empty(), rasters);
  }

  /** As {@link #read(Path, RasterPlanes)}, for the given lot in place of the one the file names. */
  public static Site read(Path siteFile, Optional<String> lot, RasterPlanes rasters) {
    return read(siteFile, lot, Optional.empty(), rasters);
  }

  /**
   * As {@link #read(Path, Optional, RasterPlanes)}, with drains drawn in the given file in place of
   * those the site file names.
   */
  public static Site read(
      Path siteFile, Optional<String> lot, Optional<Path> pinned, RasterPlanes rasters) {
    Problems problems = new Problems();
    Optional<SiteRequest> request = problems.attempt(() -> SiteFileReader.read(siteFile, problems));
    if (request.isEmpty()) {
      problems.throwIfAny();
    }
    SiteRequest asked = request.orElseThrow();
    asked = lot.map(asked::withLot).orElse(asked);
    asked =
        pinned
            .map(file -> new LayerSource(file.toAbsolutePath().normalize(), null, null, null, null))
            .map(asked::withPinned)
            .orElse(asked);
    return SiteAssembler.assemble(asked, rasters, problems);
  }

  /**
   * Loads what reading a site needs beside its CRS, and reads nothing: a program may do this while
   * another thread makes a first CRS.
   */
  public static void prepare() {
    SiteFileReader.prepare();
    GeoJsonReader.prepare();
  }

  /** A site without a site file: files and outlets named one by one, defaults for the rest. */
  public static ShortForm shortForm() {
    return new ShortForm();
  }
}
