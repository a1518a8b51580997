package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Bad input through the real command: one clear line, exit code 2, nothing half-written. */
class BadInputIT {

  @TempDir private Path folder;

  private SmallYard yard;

  /** A small sound yard, which each test spoils in one way. */
  @BeforeEach
  void soundYard() throws IOException {
    yard = SmallYard.in(folder);
  }

  @Test
  void theSoundYardIsSound() throws IOException {
    Starter.Run run = yard.plan();
    assertEquals("", run.err());
    assertTrue(run.exit() == Yardfall.DONE || run.exit() == Yardfall.NO_ANSWER, run.out());
    assertTrue(Files.exists(folder.resolve("out/results.json")));
  }

  @Test
  void aMissingFile() throws IOException {
    Files.delete(folder.resolve("dem.asc"));
    yard.refused("dem.asc");
  }

  @Test
  void aMissingSiteFile() throws IOException {
    Files.delete(folder.resolve("site.yml"));
    yard.refused("site.yml");
  }

  @Test
  void aFileThatIsNoRaster() throws IOException {
    yard.write("dem.tif", "this is no raster");
    yard.write("site.yml", SmallYard.site("dem.tif", "lots.geojson", "1", "at: [500017, 5000001]"));
    yard.refused("dem.tif");
  }

  @Test
  void aRasterWithoutCrs() throws IOException {
    Files.delete(folder.resolve("dem.prj"));
    yard.refused("dem.asc", "crs");
  }

  @Test
  void parcelsInAShapefileWithoutCrs() throws IOException {
    Path sample = Starter.SAMPLES.resolve("alder-row");
    for (String part : List.of("shp", "shx", "dbf")) {
      Files.copy(sample.resolve("parcels." + part), folder.resolve("lots." + part));
    }
    yard.write("site.yml", SmallYard.site("dem.asc", "lots.shp", "1", "at: [500017, 5000001]"));
    yard.refused("lots", "crs");
  }

  @Test
  void aLotThatIsNotThereAndWhichWasPerhapsMeant() throws IOException {
    yard.write(
        "lots.geojson",
        SmallYard.layer(
            SmallYard.square("17", 500005, 5000005, 25)
                + ","
                + SmallYard.square("23", 500050, 5000005, 5)));
    yard.write(
        "site.yml", SmallYard.site("dem.asc", "lots.geojson", "71", "at: [500017, 5000001]"));
    yard.refused("71", "17");
  }

  @Test
  void aLotOutsideTheRaster() throws IOException {
    yard.write("lots.geojson", SmallYard.layer(SmallYard.square("1", 501005, 5000005, 25)));
    yard.refused("outside");
  }

  @Test
  void aLotThatCrossesTheRastersEdge() throws IOException {
    yard.write("lots.geojson", SmallYard.layer(SmallYard.square("1", 500025, 5000005, 25)));
    yard.refused("edge");
  }

  @Test
  void aRasterWithoutAnyElevation() throws IOException {
    yard.write("dem.asc", SmallYard.raster((x, y) -> -9999));
    yard.refused("NoData");
  }

  @Test
  void aParcelThatCrossesItself() throws IOException {
    yard.write(
        "lots.geojson",
        SmallYard.layer(
            SmallYard.feature(
                "\"LOT\":\"1\"",
                "Polygon",
                "[[[500005,5000005],[500030,5000030],[500030,5000005],[500005,5000030],"
                    + "[500005,5000005]]]")));
    yard.refused("intersection", "500017");
  }

  @Test
  void aLotInTwoParts() throws IOException {
    yard.write(
        "lots.geojson",
        SmallYard.layer(
            SmallYard.feature(
                "\"LOT\":\"1\"",
                "MultiPolygon",
                "[[[[500005,5000005],[500015,5000005],[500015,5000015],[500005,5000005]]],"
                    + "[[[500020,5000020],[500030,5000020],[500030,5000030],"
                    + "[500020,5000020]]]]")));
    yard.refused("parts");
  }

  @Test
  void anOutletInTheAir() throws IOException {
    yard.write(
        "site.yml",
        SmallYard.site("dem.asc", "lots.geojson", "1", "at: [500017, 5000001], invert: 250 m"));
    yard.refused("invert", "above");
  }

  @Test
  void anOutletFarBelowTheGround() throws IOException {
    yard.write(
        "site.yml",
        SmallYard.site("dem.asc", "lots.geojson", "1", "at: [500017, 5000001], invert: 99 ft"));
    yard.refused("invert", "below the ground", "unit");
  }

  /** The most that ever fell in a day is 1.825 m (WMO world record of 1966; from memory). */
  @Test
  void rainWithoutItsUnit() throws IOException {
    yard.append("storm: { depth: 65 }\n");
    yard.refused("storm.depth", "65 mm");
  }

  @Test
  void anOutletOffTheElevation() throws IOException {
    yard.write("site.yml", SmallYard.site("dem.asc", "lots.geojson", "1", "at: [510017, 5000001]"));
    yard.refused("CB1");
  }

  @Test
  void anUnknownKeyAndWhichWasPerhapsMeant() throws IOException {
    yard.append("drain: { min-gradient: 1 % }\n");
    yard.refused("min-gradient", "min-grade");
  }

  @Test
  void aNegativeLength() throws IOException {
    yard.append("drain: { max-depth: -1.2 m }\n");
    yard.refused("max-depth");
  }

  @Test
  void contradictoryLimits() throws IOException {
    yard.append("drain: { min-cover: 2 m, max-depth: 1 m }\n");
    yard.refused("min-cover");
  }

  @Test
  void aStormOfNoRain() throws IOException {
    yard.append("storm: { depth: 0 mm, duration: 24 h }\n");
    yard.refused("storm.depth", "more than 0");
  }

  @Test
  void aStormOfNegativeRain() throws IOException {
    yard.append("storm: { depth: -65 mm, duration: 24 h }\n");
    yard.refused("storm.depth", "more than 0");
  }

  @Test
  void soilFractionsThatDoNotAddUp() throws IOException {
    yard.append("soil: { fractions: { sand: 40 %, silt: 40 %, clay: 30 % } }\n");
    yard.refused("soil.fractions", "add up to 1.1");
  }

  @Test
  void aPipeThatDoesNotFitTheTrench() throws IOException {
    yard.append("drain: { pipe: 8 in, trench-width: 8 in }\n");
    yard.refused("trench", "narrower than the pipe");
  }

  @Test
  void stoneSoldByNothingThatIsSold() throws IOException {
    yard.append("prices: { stone: 55 per t, stone-sold-by: bushel }\n");
    yard.refused("prices.stone-sold-by", "not sold by 'bushel'", "yd3");
  }

  @Test
  void aPriceOfTheWrongKind() throws IOException {
    yard.append("prices: { trench: 40 per t }\n");
    yard.refused("prices.trench", "unit of length");
  }

  @Test
  void grainSizesThatContradictThemselves() throws IOException {
    yard.append(
        "soil: { grains: { d15: 0.3 mm, d50: 0.1 mm, d85: 0.8 mm, uniformity: 3, fines: 5 % } }\n");
    yard.refused("soil.grains", "must grow");
  }

  @Test
  void aFileWithoutFeatures() throws IOException {
    yard.write("lots.geojson", SmallYard.layer(""));
    yard.refused("lots.geojson");
  }

  @Test
  void severalFaultsAreSaidAtOnce() throws IOException {
    yard.append("drain: { max-depth: -1.2 m, trench-width: 3 bananas }\nstrom: { depth: 10 mm }\n");
    Starter.Run run = yard.plan();
    assertEquals(Yardfall.BAD_INPUT, run.exit(), run.err());
    assertEquals(3, run.complaints().size(), run.err());
  }

  @Test
  void anOutputFolderThatIsAFile() throws IOException {
    yard.write("out", "in the way");
    Starter.Run run = yard.plan();
    assertEquals(Yardfall.BAD_INPUT, run.exit());
    assertEquals(1, run.complaints().size(), run.err());
    assertEquals("in the way", Files.readString(folder.resolve("out")));
  }

  @Test
  void anOutputFolderThatCannotBeMade() throws IOException {
    Starter.Run run = Starter.run(folder, "plan", "site.yml", "--out", "/proc/yardfall/out");
    SmallYard.check(run, "/proc/yardfall/out");
  }

  @Test
  void aFolderWithSomebodyElsesFilesIsLeftAlone() throws IOException {
    Files.createDirectory(folder.resolve("out"));
    yard.write("out/holiday.txt", "keep me");
    SmallYard.check(yard.plan(), "holiday.txt");
    yard.nothingHalfWritten();
    assertEquals("keep me", Files.readString(folder.resolve("out/holiday.txt")));
  }

  /** A file-size limit stands in for a full disk: the write fails half-way. */
  @Test
  void aDiskThatFillsUp() throws IOException {
    Starter.Run run =
        Starter.start(
            folder,
            List.of(
                "sh",
                "-c",
                "ulimit -f 16; exec \"$0\" plan site.yml --out out",
                Starter.YARDFALL.toString()),
            Map.of("YARDFALL_JAVA_OPTS", "-XX:-UsePerfData"));
    SmallYard.check(run, "out");
    assertFalse(Files.exists(folder.resolve("out")));
    yard.nothingHalfWritten();
  }

  @Test
  void noSiteAtAll() throws IOException {
    SmallYard.check(Starter.run(folder, "plan", "--out", "out"), "site");
  }

  @Test
  void unknownOptionsAndCommands() throws IOException {
    SmallYard.check(Starter.run(folder, "plan", "--outt", "x", "--out", "y"), "--outt");
    SmallYard.check(Starter.run(folder, "plann"), "plann");
    SmallYard.check(Starter.run(folder), "command");
  }
}
