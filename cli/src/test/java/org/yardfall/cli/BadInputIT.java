package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Bad input through the real command: one clear line, exit code 2, nothing half-written. */
class BadInputIT {

  private static final String PRJ =
      "PROJCS[\"WGS 84 / UTM zone 15N\",GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\","
          + "6378137,298.257223563]],PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]],"
          + "PROJECTION[\"Transverse_Mercator\"],PARAMETER[\"latitude_of_origin\",0],"
          + "PARAMETER[\"central_meridian\",-93],PARAMETER[\"scale_factor\",0.9996],"
          + "PARAMETER[\"false_easting\",500000],PARAMETER[\"false_northing\",0],"
          + "UNIT[\"metre\",1],AUTHORITY[\"EPSG\",\"32615\"]]";

  @TempDir private Path yard;

  /** A small sound yard, which each test spoils in one way. */
  @BeforeEach
  void soundYard() throws IOException {
    write("dem.asc", raster((x, y) -> 100 + 0.02 * y));
    write("dem.prj", PRJ);
    write("lots.geojson", lots(square("1", 500005, 5000005, 25)));
    write(
        "site.yml", site("dem.asc", "lots.geojson", "1", "at: [500017, 5000001], invert: 98.9 m"));
  }

  @Test
  void theSoundYardIsSound() throws IOException {
    Starter.Run run = plan();
    assertEquals("", run.err());
    assertTrue(run.exit() == Yardfall.DONE || run.exit() == Yardfall.NO_ANSWER, run.out());
    assertTrue(Files.exists(yard.resolve("out/results.json")));
  }

  @Test
  void aMissingFile() throws IOException {
    Files.delete(yard.resolve("dem.asc"));
    refused("dem.asc");
  }

  @Test
  void aMissingSiteFile() throws IOException {
    Files.delete(yard.resolve("site.yml"));
    refused("site.yml");
  }

  @Test
  void aFileThatIsNoRaster() throws IOException {
    write("dem.tif", "this is no raster");
    write("site.yml", site("dem.tif", "lots.geojson", "1", "at: [500017, 5000001]"));
    refused("dem.tif");
  }

  @Test
  void aRasterWithoutCrs() throws IOException {
    Files.delete(yard.resolve("dem.prj"));
    refused("dem.asc", "crs");
  }

  @Test
  void parcelsInAShapefileWithoutCrs() throws IOException {
    Path sample = Starter.SAMPLES.resolve("alder-row");
    for (String part : List.of("shp", "shx", "dbf")) {
      Files.copy(sample.resolve("parcels." + part), yard.resolve("lots." + part));
    }
    write("site.yml", site("dem.asc", "lots.shp", "1", "at: [500017, 5000001]"));
    refused("lots", "crs");
  }

  @Test
  void aLotThatIsNotThereAndWhichWasPerhapsMeant() throws IOException {
    write(
        "lots.geojson",
        lots(square("17", 500005, 5000005, 25) + "," + square("23", 500050, 5000005, 5)));
    write("site.yml", site("dem.asc", "lots.geojson", "71", "at: [500017, 5000001]"));
    refused("71", "17");
  }

  @Test
  void aLotOutsideTheRaster() throws IOException {
    write("lots.geojson", lots(square("1", 501005, 5000005, 25)));
    refused("outside");
  }

  @Test
  void aLotThatCrossesTheRastersEdge() throws IOException {
    write("lots.geojson", lots(square("1", 500025, 5000005, 25)));
    refused("edge");
  }

  @Test
  void aRasterWithoutAnyElevation() throws IOException {
    write("dem.asc", raster((x, y) -> -9999));
    refused("NoData");
  }

  @Test
  void aParcelThatCrossesItself() throws IOException {
    write(
        "lots.geojson",
        lots(
            feature(
                "1",
                "Polygon",
                "[[[500005,5000005],[500030,5000030],[500030,5000005],[500005,5000030],"
                    + "[500005,5000005]]]")));
    refused("intersection", "500017");
  }

  @Test
  void aLotInTwoParts() throws IOException {
    write(
        "lots.geojson",
        lots(
            feature(
                "1",
                "MultiPolygon",
                "[[[[500005,5000005],[500015,5000005],[500015,5000015],[500005,5000005]]],"
                    + "[[[500020,5000020],[500030,5000020],[500030,5000030],"
                    + "[500020,5000020]]]]")));
    refused("parts");
  }

  @Test
  void anOutletInTheAir() throws IOException {
    write("site.yml", site("dem.asc", "lots.geojson", "1", "at: [500017, 5000001], invert: 250 m"));
    refused("invert", "above");
  }

  @Test
  void anOutletOffTheElevation() throws IOException {
    write("site.yml", site("dem.asc", "lots.geojson", "1", "at: [510017, 5000001]"));
    refused("CB1");
  }

  @Test
  void anUnknownKeyAndWhichWasPerhapsMeant() throws IOException {
    append("drain: { min-gradient: 1 % }\n");
    refused("min-gradient", "min-grade");
  }

  @Test
  void aNegativeLength() throws IOException {
    append("drain: { max-depth: -1.2 m }\n");
    refused("max-depth");
  }

  @Test
  void contradictoryLimits() throws IOException {
    append("drain: { min-cover: 2 m, max-depth: 1 m }\n");
    refused("min-cover");
  }

  @Test
  void aStormOfNoRain() throws IOException {
    append("storm: { depth: 0 mm, duration: 24 h }\n");
    refused("storm.depth", "more than 0");
  }

  @Test
  void aStormOfNegativeRain() throws IOException {
    append("storm: { depth: -65 mm, duration: 24 h }\n");
    refused("storm.depth", "more than 0");
  }

  @Test
  void soilFractionsThatDoNotAddUp() throws IOException {
    append("soil: { fractions: { sand: 40 %, silt: 40 %, clay: 30 % } }\n");
    refused("soil.fractions", "add up to 1.1");
  }

  @Test
  void aPipeThatDoesNotFitTheTrench() throws IOException {
    append("drain: { pipe: 8 in, trench-width: 8 in }\n");
    refused("trench", "narrower than the pipe");
  }

  @Test
  void stoneSoldByNothingThatIsSold() throws IOException {
    append("prices: { stone: 55 per t, stone-sold-by: bushel }\n");
    refused("prices.stone-sold-by", "not sold by 'bushel'", "yd3");
  }

  @Test
  void aPriceOfTheWrongKind() throws IOException {
    append("prices: { trench: 40 per t }\n");
    refused("prices.trench", "unit of length");
  }

  @Test
  void grainSizesThatContradictThemselves() throws IOException {
    append(
        "soil: { grains: { d15: 0.3 mm, d50: 0.1 mm, d85: 0.8 mm, uniformity: 3, fines: 5 % } }\n");
    refused("soil.grains", "must grow");
  }

  @Test
  void aFileWithoutFeatures() throws IOException {
    write("lots.geojson", lots(""));
    refused("lots.geojson");
  }

  @Test
  void severalFaultsAreSaidAtOnce() throws IOException {
    append("drain: { max-depth: -1.2 m, trench-width: 3 bananas }\nstrom: { depth: 10 mm }\n");
    Starter.Run run = plan();
    assertEquals(Yardfall.BAD_INPUT, run.exit(), run.err());
    assertEquals(3, run.complaints().size(), run.err());
  }

  @Test
  void anOutputFolderThatIsAFile() throws IOException {
    write("out", "in the way");
    Starter.Run run = plan();
    assertEquals(Yardfall.BAD_INPUT, run.exit());
    assertEquals(1, run.complaints().size(), run.err());
    assertEquals("in the way", Files.readString(yard.resolve("out")));
  }

  @Test
  void anOutputFolderThatCannotBeMade() throws IOException {
    Starter.Run run = Starter.run(yard, "plan", "site.yml", "--out", "/proc/yardfall/out");
    check(run, "/proc/yardfall/out");
  }

  @Test
  void aFolderWithSomebodyElsesFilesIsLeftAlone() throws IOException {
    Files.createDirectory(yard.resolve("out"));
    write("out/holiday.txt", "keep me");
    check(plan(), "holiday.txt");
    nothingHalfWritten();
    assertEquals("keep me", Files.readString(yard.resolve("out/holiday.txt")));
  }

  /** A file-size limit stands in for a full disk: the write fails half-way. */
  @Test
  void aDiskThatFillsUp() throws IOException {
    Starter.Run run =
        Starter.start(
            yard,
            List.of(
                "sh",
                "-c",
                "ulimit -f 16; exec \"$0\" plan site.yml --out out",
                Starter.YARDFALL.toString()),
            Map.of("YARDFALL_JAVA_OPTS", "-XX:-UsePerfData"));
    check(run, "out");
    assertFalse(Files.exists(yard.resolve("out")));
    nothingHalfWritten();
  }

  @Test
  void noSiteAtAll() throws IOException {
    check(Starter.run(yard, "plan", "--out", "out"), "site");
  }

  @Test
  void unknownOptionsAndCommands() throws IOException {
    check(Starter.run(yard, "plan", "--outt", "x", "--out", "y"), "--outt");
    check(Starter.run(yard, "plann"), "plann");
    check(Starter.run(yard), "command");
  }

  private void refused(String... words) throws IOException {
    check(plan(), words);
    assertFalse(Files.exists(yard.resolve("out")), "something was written");
    nothingHalfWritten();
  }

  private static void check(Starter.Run run, String... words) {
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

  private void nothingHalfWritten() throws IOException {
    try (var files = Files.list(yard)) {
      List<String> left =
          files
              .map(file -> file.getFileName().toString())
              .filter(name -> !name.matches("(dem|lots|site)\\..*|out"))
              .toList();
      assertEquals(List.of(), left);
    }
  }

  private Starter.Run plan() throws IOException {
    return Starter.run(yard, "plan", "site.yml", "--out", "out");
  }

  private void write(String name, String text) throws IOException {
    Files.writeString(yard.resolve(name), text);
  }

  private void append(String text) throws IOException {
    write("site.yml", Files.readString(yard.resolve("site.yml")) + text);
  }

  private static String site(String dem, String parcels, String lot, String outlet) {
    return """
    elevation: { files: [%s] }
    parcels: { file: %s, id: LOT, lot: "%s" }
    outlets:
      - { id: CB1, kind: catch-basin, %s }
    """
        .formatted(dem, parcels, lot, outlet);
  }

  private interface Ground {
    double at(double x, double y);
  }

  /** 40 by 40 cells of a metre, from 500000, 5000000. */
  private static String raster(Ground ground) {
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

  /** Parcels in UTM metres, with the old {@code crs} member that many programs still write. */
  private static String lots(String features) {
    return "{\"type\":\"FeatureCollection\",\"crs\":{\"type\":\"name\",\"properties\":{\"name\":"
        + "\"urn:ogc:def:crs:EPSG::32615\"}},\"features\":["
        + features
        + "]}";
  }

  private static String square(String id, int west, int south, int side) {
    int east = west + side;
    int north = south + side;
    return feature(
        id,
        "Polygon",
        "[[[%d,%d],[%d,%d],[%d,%d],[%d,%d],[%d,%d]]]"
            .formatted(west, south, east, south, east, north, west, north, west, south));
  }

  private static String feature(String id, String type, String coordinates) {
    return "{\"type\":\"Feature\",\"properties\":{\"LOT\":\"%s\"},".formatted(id)
        + "\"geometry\":{\"type\":\"%s\",\"coordinates\":%s}}".formatted(type, coordinates);
  }
}
