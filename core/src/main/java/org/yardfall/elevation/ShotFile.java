package org.yardfall.elevation;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.site.BadInputException;

/**
 * Reads survey shots: delimited text in any usual order, LandXML points and surfaces.
 *
 * <p>What is wrong with single shots (no elevation, far away, doubled) is said with point numbers
 * in {@link Shots#warnings()}, and they are left out; what makes the file as a whole unfit is a
 * {@link BadInputException}. Takes time and memory in proportion to the file.
 */
public final class ShotFile {

  private ShotFile() {}

  /**
   * Reads a file of shots.
   *
   * @param file the file
   * @param columns the order of a text file's columns, such as PNEZD, XYZ or {@code
   *     point,northing,easting,elevation}; null to take it from the header or to recognise it
   * @param units the units stated for the file
   * @param expected where the shots should lie on the working plane in metres, such as the lot, by
   *     which an order is recognised and checked; null where not known
   * @return the shots on the working plane in metres
   * @throws BadInputException where the file cannot be read or its order cannot be told
   */
  public static Shots read(Path file, String columns, ShotUnits units, Geometry expected) {
    return read(file, columns, units, new ExpectedPlace(expected, "the lot"), null);
  }

  /** The same, of the named surface of a file that holds several. */
  static Shots read(
      Path file, String columns, ShotUnits units, ExpectedPlace place, String surface) {
    if (!Files.isRegularFile(file)) {
      throw new BadInputException(file.toString(), "there is no such file", "check the path");
    }
    String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
    if (name.endsWith(".las") || name.endsWith(".laz")) {
      throw new BadInputException(
          file.toString(),
          "point clouds are not read",
          "give their ground points as text (x, y, z) or as a raster");
    }
    TextFile text = TextFile.of(file);
    if (LandXmlFile.looksLike(text.sample())) {
      return new LandXmlShots(LandXmlFile.read(file), columns, units, place).shots(surface);
    }
    return new ShotTable(text, columns, units, place).read();
  }
}
