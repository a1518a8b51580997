package org.yardfall.elevation;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.site.BadInputException;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.WorkingCrs;

/**
 * Reads survey shots: delimited text in any usual order, LandXML points and surfaces, the ground
 * points of LAS and LAZ.
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
    checkThere(file);
    if (LasHeader.looksLike(file)) {
      throw new BadInputException(
          file.toString(),
          "it is a point cloud, not shots that a crew has taken",
          "give the shots as CSV, TXT or LandXML");
    }
    return read(file, columns, units, new ExpectedPlace(expected, "the lot"), null);
  }

  /**
   * The plane that a file of shots lies on by its own word: its CRS, or the UTM zone of its middle
   * where its coordinates are angles; empty where it names none.
   */
  static Optional<WorkingCrs> planeOf(Path file) {
    return LasHeader.looksLike(file) ? PointCloud.planeOf(file) : Optional.empty();
  }

  /** The shots that a site names as its ground, point clouds and named surfaces included. */
  static Shots read(ElevationInput input, WorkingCrs crs, ExpectedPlace place) {
    Path file = input.shots();
    checkThere(file);
    if (LasHeader.looksLike(file)) {
      return PointCloud.read(file, input, crs, place);
    }
    return read(
        file, input.shotColumns(), ShotUnits.of(input, crs), place, input.shotInput().surface());
  }

  static Shots read(
      Path file, String columns, ShotUnits units, ExpectedPlace place, String surface) {
    TextFile text = TextFile.of(file);
    return LandXmlFile.looksLike(text.sample())
        ? new LandXmlShots(LandXmlFile.read(file), columns, units, place).shots(surface)
        : new ShotTable(text, columns, units, place).read();
  }

  private static void checkThere(Path file) {
    if (!Files.isRegularFile(file)) {
      throw new BadInputException(file.toString(), "there is no such file", "check the path");
    }
  }
}
