package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/**
 * A folder with the files of a small site, which a test names in a site file, changes or adds to.
 */
final class SiteFolder {

  static final String MINIMAL = "elevation: { files: [dem.tif] }\n";

  static final String LOT_7 =
      feature("{'LOT':'7'}", "Polygon", "[[[0,0],[20,0],[20,40],[0,40],[0,0]]]");
  static final String LOT_8 =
      feature("{'LOT':'8'}", "Polygon", "[[[20,0],[40,0],[40,40],[20,40],[20,0]]]");

  private final Path folder;

  private SiteFolder(Path folder) {
    this.folder = folder;
  }

  static SiteFolder in(Path folder) {
    SiteFolder yard = new SiteFolder(folder);
    yard.write("dem.tif", "never opened here");
    yard.write("intensities.csv", "never opened here");
    yard.layer("parcels.geojson", LOT_7, LOT_8);
    yard.layer(
        "buildings.geojson",
        feature(
            "{'id':'house','footing_bottom':'240.1 m','lowest_opening':'241.2 m'}",
            "MultiPolygon",
            "[[[[5,5],[15,5],[15,15],[5,15],[5,5]]]]"));
    yard.layer(
        "obstacles.geojson",
        feature(
            "{'kind':'utility','clearance':'18 in','passage':'under','bottom':239.5}",
            "LineString",
            "[[0,20],[20,20]]"),
        feature("{'kind':'Tree'}", "Point", "[3,30]"));
    yard.layer(
        "walks.geojson",
        feature(
            "{'thickness':'4 in','base':'6 in'}",
            "Polygon",
            "[[[0,16],[20,16],[20,17],[0,17],[0,16]]]"));
    return yard;
  }

  /** The plane of every raster. */
  static Optional<WorkingCrs> utm15(Path raster) {
    return Optional.of(CrsLookup.of("EPSG:26915"));
  }

  /** The site that a site file of the given text makes. */
  Site read(String text) {
    write("site.yml", text);
    return SiteReader.read(folder.resolve("site.yml"), SiteFolder::utm15);
  }

  BadInputException problems(String text) {
    return assertThrows(BadInputException.class, () -> read(text));
  }

  /** Checks that a problem is said, among others perhaps, and every one in a line. */
  void checkProblem(String text, String part) {
    BadInputException e = problems(text);
    assertTrue(e.getMessage().contains(part), e.getMessage());
    for (Problem problem : e.problems()) {
      assertEquals(1, problem.line().lines().count(), problem.line());
    }
  }

  /** Writes a file; in GeoJSON a quote stands for a double one. */
  void write(String name, String text) {
    try {
      Files.write(
          folder.resolve(name),
          text.replace(name.endsWith("json") ? '\'' : '\0', '"').getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A GeoJSON file in EPSG:26915, its coordinates counted from 500000, 5000000. */
  void layer(String name, String... features) {
    StringBuilder moved = new StringBuilder();
    java.util.regex.Matcher pairs =
        java.util.regex.Pattern.compile("\\[(\\d+),(\\d+)\\]").matcher(String.join(",", features));
    while (pairs.find()) {
      pairs.appendReplacement(
          moved,
          "["
              + (500000 + Integer.parseInt(pairs.group(1)))
              + ","
              + (5000000 + Integer.parseInt(pairs.group(2)))
              + "]");
    }
    pairs.appendTail(moved);
    write(
        name,
        "{'type':'FeatureCollection','crs':{'type':'name','properties':{'name':'EPSG:26915'}},"
            + "'features':["
            + moved
            + "]}");
  }

  static String feature(String properties, String type, String coordinates) {
    return "{'type':'Feature','properties':"
        + properties
        + ",'geometry':{'type':'"
        + type
        + "','coordinates':"
        + coordinates
        + "}}";
  }
}
