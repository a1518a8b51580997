package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.yardfall.elevation.RasterFixtures.file;
import static org.yardfall.elevation.RasterFixtures.input;
import static org.yardfall.elevation.RasterFixtures.read;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;

/** What cannot be read as ground is refused in one clear line. */
class RasterRefusalTest {

  @TempDir private Path folder;

  @ParameterizedTest
  @CsvSource({
    "complex.tif, complex numbers",
    "picture.tif, colour picture",
    "lerc.tif, LERC",
    "small_lzw_pred2_float64.tif, TIFF predictor 2 of 64-bit cells",
    "mirrored.tif, stored turned or mirrored (TIFF orientation 4)",
    "moon.tif, radius 1737 km",
    "all_nodata.tif, all its cells are NoData",
    "no_crs.tif, does not say in which CRS",
    "world_file.tif, does not say in which CRS",
    "centimetres.tif, which no ground does"
  })
  void aRasterThatIsNoGroundIsRefused(String name, String why) {
    checkRefused(why, () -> read(name));
  }

  @Test
  void aMissingFileIsRefused() {
    checkRefused("no such file", () -> read(folder.resolve("none.tif")));
  }

  @Test
  void aFolderIsRefused() {
    checkRefused("not a file", () -> read(folder));
  }

  @Test
  void anEmptyFileIsRefused() throws IOException {
    checkRefused("it is empty", () -> read(written("empty.tif", "")));
  }

  @Test
  void aTextIsRefused() throws IOException {
    checkRefused("neither a GeoTIFF nor an ASCII grid", () -> read(written("a.tif", "Hello you")));
  }

  /** The reader itself gives zeros for the missing part. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "plain.tif",
        "lzw_pred3_tiled.tif",
        "lzw_strips.tif",
        "zstd_pred3.tif",
        "cog_deflate.tif",
        "bigtiff_deflate.tif",
        "big_endian.tif"
      })
  void aFileCutShortIsRefusedWhereverItIsCut(String name) throws IOException {
    byte[] whole = Files.readAllBytes(file(name));
    for (int percent : new int[] {1, 10, 50, 90}) {
      Path cut = folder.resolve(percent + name);
      Files.write(cut, Arrays.copyOf(whole, whole.length * percent / 100));
      checkRefused("", () -> read(cut));
    }
  }

  @Test
  void moreCellsThanAnArrayHoldsAreRefusedWithTheirNumber() {
    checkRefused("60000 x 60000 = 3600000000 cells", () -> read("sparse.tif"));
  }

  @Test
  void aSmallWindowOfAHugeRasterIsRead() {
    ElevationSource source = RasterFixtures.open("sparse.tif", "EPSG:26915");
    checkRefused(
        "all its cells are NoData",
        () -> source.read(new Envelope(520_000, 520_010, 4_990_000, 4_990_010)));
  }

  @Test
  void aPlaceBesideTheRasterIsRefused() {
    ElevationSource source = RasterFixtures.open("plain.tif", "EPSG:3794");
    checkRefused(
        "lies outside the elevation rasters", () -> source.read(new Envelope(0, 10, 0, 10)));
  }

  @Test
  void webMercatorIsNoWorkingCrs() {
    assertTrue(ElevationSource.PLANES.own(file("mercator.tif")).isEmpty());
    checkRefused("on the ground here", () -> read("mercator.tif", "EPSG:3857"));
  }

  @Test
  void degreesAreNoWorkingCrs() {
    assertTrue(ElevationSource.PLANES.own(file("degrees.tif")).isEmpty());
    String zone = ElevationSource.PLANES.zone(file("degrees.tif")).orElseThrow().name();
    assertTrue(zone.startsWith("EPSG:32"), zone);
  }

  @Test
  void centimetresAreReadWhenSaidToBe() {
    ElevationSource source =
        ElevationSource.open(
            input(OptionalDouble.of(0.01), null, file("centimetres.tif")),
            CrsLookup.of("EPSG:3794"));
    float[] expected = RasterFixtures.expected("plain.txt");
    float[] z = source.read(source.extentM()).ground().z();
    for (int i = 0; i < z.length; i++) {
      assertEquals(expected[i], z[i], 5e-5f);
    }
  }

  private Path written(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  static void checkRefused(String why, Executable reading) {
    BadInputException refusal = assertThrows(BadInputException.class, reading);
    assertEquals(1, refusal.problems().size());
    String line = refusal.problems().get(0).line();
    assertTrue(line.contains(why), line);
    assertFalse(line.contains("\n"), line);
    assertFalse(line.contains("Exception"), line);
  }
}
