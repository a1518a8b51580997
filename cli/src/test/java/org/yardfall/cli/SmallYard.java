package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/**
 * A small invented yard in a folder, sound as it is made, which a test spoils or adds to: 40 by 40
 * m that fall 2 % to the south, a lot of 25 by 25 m, and a catch basin south of it.
 */
final class SmallYard {

  /** UTM zone 15. */
  static final String PRJ =
      "PROJCS[\"WGS 84 / UTM zone 15N\",GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\","
          + "6378137,298.257223563]],PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]],"
          + "PROJECTION[\"Transverse_Mercator\"],PARAMETER[\"latitude_of_origin\",0],"
          + "PARAMETER[\"central_meridian\",-93],PARAMETER[\"scale_factor\",0.9996],"
          + "PARAMETER[\"false_easting\",500000],PARAMETER[\"false_northing\",0],"
          + "UNIT[\"metre\",1],AUTHORITY[\"EPSG\",\"32615\"]]";

  private final Path folder;

  private SmallYard(Path folder) {
    this.folder = folder;
  }

  /** The sound yard's files in a folder. */
  static SmallYard in(Path folder) throws IOException {
    SmallYard yard = new SmallYard(folder);
    yard.write("dem.asc", raster((x, y) -> 100 + 0.02 * y));
    yard.write("dem.prj", PRJ);
    yard.write("lots.geojson", layer(square("1", 500005, 5000005, 25)));
    yard.write(
        "site.yml", site("dem.asc", "lots.geojson", "1", "at: [500017, 5000001], invert: 98.9 m"));
    return yard;
  }

  void refused(String... words) throws IOException {
    check(plan(), words);
    assertFalse(Files.exists(folder.resolve("out")), "something was written");
    nothingHalfWritten();
  }

  static void check(Starter.Run run, String... words) {
    assertEquals(Yardfall.BAD_INPUT, run.exit(), run.err() + run.out());
    assertEquals(1, run.complaints().size(), run.err());
    for (String word : words) {
      assertTrue(
          run.err().toLowerCase(Locale.ROOT).contains(word.toLowerCase(Locale.ROOT)),
          "no '" + word + "' in: " + run.err());
    }
    assertFalse(run.err().contains("Exception"), run.err());
    assertEquals("", run.out());
  }

  void nothingHalfWritten() throws IOException {
    try (var files = Files.list(folder)) {
      List<String> left =
          files
              .map(file -> file.getFileName().toString())
              .filter(name -> !name.matches("(dem|lots|site|house|fence|mine)\\..*|out"))
              .toList();
      assertEquals(List.of(), left);
    }
  }

  Starter.Run plan() throws IOException {
    return Starter.run(folder, "plan", "site.yml", "--out", "out");
  }

  void write(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
  }

  void append(String text) throws IOException {
    write("site.yml", Files.readString(folder.resolve("site.yml")) + text);
  }

  static String site(String dem, String parcels, String lot, String outlet) {
    return """
    elevation: { files: [%s] }
    parcels: { file: %s, id: LOT, lot: "%s" }
    outlets:
      - { id: CB1, kind: catch-basin, %s }
    """
        .formatted(dem, parcels, lot, outlet);
  }

  interface Ground {
    double at(double x, double y);
  }

  /** 40 by 40 cells of a metre, from 500000, 5000000. */
  static String raster(Ground ground) {
    StringBuilder text =
        new StringBuilder(
            """
            ncols 40
            nrows 40
            xllcorner 500000
            yllcorner 5000000
            cellsize 1
            NODATA_value -9999
            """);
    for (int row = 0; row < 40; row++) {
      for (int col = 0; col < 40; col++) {
        text.append(ground.at(col, 40 - row)).append(' ');
      }
      text.append('\n');
    }
    return text.toString();
  }

  /** A layer in UTM metres, with the old {@code crs} member that many programs still write. */
  static String layer(String features) {
    return "{\"type\":\"FeatureCollection\",\"crs\":{\"type\":\"name\",\"properties\":{\"name\":"
        + "\"urn:ogc:def:crs:EPSG::32615\"}},\"features\":["
        + features
        + "]}";
  }

  static String square(String id, int west, int south, int side) {
    int east = west + side;
    int north = south + side;
    return feature(
        "\"LOT\":\"%s\"".formatted(id),
        "Polygon",
        "[[[%d,%d],[%d,%d],[%d,%d],[%d,%d],[%d,%d]]]"
            .formatted(west, south, east, south, east, north, west, north, west, south));
  }

  static String feature(String properties, String type, String coordinates) {
    return "{\"type\":\"Feature\",\"properties\":{%s},".formatted(properties)
        + "\"geometry\":{\"type\":\"%s\",\"coordinates\":%s}}".formatted(type, coordinates);
  }
}
