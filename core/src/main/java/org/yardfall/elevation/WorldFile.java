package org.yardfall.elevation;

import java.awt.geom.AffineTransform;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.yardfall.site.BadInputException;

/** A world file: six numbers beside a raster that place the centre of its first cell. */
final class WorldFile {

  private static final List<String> ENDINGS = List.of("tfw", "TFW", "tifw", "tiffw", "wld", "WLD");

  private WorldFile() {}

  /** The placing that the world file beside the raster gives, empty where there is none. */
  static Optional<AffineTransform> beside(Path raster) {
    return Sidecar.of(raster, ENDINGS).map(WorldFile::read);
  }

  private static AffineTransform read(Path file) {
    try {
      String[] words =
          Files.readString(file, StandardCharsets.ISO_8859_1).strip().split("\\s+", -1);
      if (words.length != 6) {
        throw bad(file);
      }
      double[] numbers = new double[6];
      for (int i = 0; i < 6; i++) {
        numbers[i] = Double.parseDouble(words[i]);
      }
      AffineTransform toCrs = new AffineTransform(numbers);
      if (!(Math.abs(toCrs.getDeterminant()) > 0)) {
        throw bad(file);
      }
      toCrs.translate(-0.5, -0.5);
      return toCrs;
    } catch (IOException | NumberFormatException e) {
      throw bad(file);
    }
  }

  private static BadInputException bad(Path file) {
    return new BadInputException(
        file.toString(),
        "it does not hold the six numbers of a world file, with decimal points",
        "mend it or give a georeferenced raster");
  }
}
