package org.yardfall.elevation;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;

/** The CRS of a raster that keeps it in a {@code .prj} file beside it. */
final class SidecarCrs {

  private SidecarCrs() {}

  /** The CRS in the {@code .prj} beside the raster, empty where there is none. */
  static Optional<RasterCrs> beside(Path raster) {
    return Sidecar.of(raster, List.of("prj", "PRJ")).map(SidecarCrs::read);
  }

  private static RasterCrs read(Path file) {
    try {
      String text = Files.readString(file, StandardCharsets.UTF_8);
      return RasterCrs.of(CrsLookup.parseWkt(text, file.toString()), file.toString());
    } catch (IOException e) {
      throw new BadInputException(
          file.toString(), "it cannot be read as text", "give the CRS as an EPSG code");
    }
  }
}
