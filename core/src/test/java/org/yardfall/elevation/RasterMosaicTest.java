package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.yardfall.elevation.RasterFixtures.expected;
import static org.yardfall.elevation.RasterFixtures.input;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.yardfall.layer.GeoTiffWriter;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.WorkingCrs;

/** Several rasters are read as one ground; a step between them is never blended away. */
class RasterMosaicTest {

  private static final float[] GROUND = expected("plain.txt");
  private static final WorkingCrs CRS = CrsLookup.of("EPSG:3794");

  @TempDir private Path folder;

  @ParameterizedTest
  @ValueSource(ints = {24, 17, 30})
  void tilesThatMeetOrOverlapGiveTheWhole(int from) throws IOException {
    Terrain terrain = read(tile("a", 0, 30, 0, "metre"), tile("b", from, 48, 0, "metre"));
    assertEquals(48, terrain.ground().frame().cols());
    assertArrayEquals(GROUND, terrain.ground().z());
    assertTrue(terrain.warnings().isEmpty(), () -> terrain.warnings().toString());
  }

  @Test
  void theEarlierRasterCounts() throws IOException {
    Terrain terrain = read(tile("a", 0, 30, 0, "metre"), tile("b", 20, 48, 0.015f, "metre"));
    assertEquals(GROUND[25], terrain.ground().at(25, 0));
    assertEquals(GROUND[40] + 0.015f, terrain.ground().at(40, 0), 1e-4f);
  }

  @Test
  void eachRasterIsConvertedFromItsOwnUnitAndTheMixIsTold() throws IOException {
    Terrain terrain = read(tile("a", 0, 30, 0, "metre"), tile("b", 20, 48, 0, "US survey foot"));
    assertArrayEquals(GROUND, terrain.ground().z(), 1e-4f);
    assertEquals(1, terrain.warnings().size(), () -> terrain.warnings().toString());
    String told = terrain.warnings().get(0);
    assertTrue(told.contains("a.tif in metre") && told.contains("b.tif in US survey foot"), told);
  }

  /** Where tiles only meet, the slope across the seam is taken off by what lies on both sides. */
  @ParameterizedTest
  @CsvSource({"20, where they overlap, 0.001", "30, where they meet, 0.02"})
  void aStepBetweenRastersIsRefusedWithItsHeight(int from, String where, double tolerance)
      throws IOException {
    Path a = tile("a", 0, 30, 0, "metre");
    Path b = tile("b", from, 48, 0.5f, "metre");
    BadInputException refusal = assertThrows(BadInputException.class, () -> read(a, b));
    checkStep(refusal.problems().get(0).line(), 0.5, tolerance, "higher", where);
  }

  @ParameterizedTest
  @CsvSource({"20, where they overlap, 0.001", "30, where they meet, 0.02"})
  void aStepBelowTheAccuracyIsTold(int from, String where, double tolerance) throws IOException {
    Terrain terrain = read(tile("a", 0, 30, 0, "metre"), tile("b", from, 48, -0.06f, "metre"));
    assertEquals(1, terrain.warnings().size());
    checkStep(terrain.warnings().get(0), 0.06, tolerance, "lower", where);
  }

  private static void checkStep(
      String line, double stepM, double tolerance, String way, String where) {
    Matcher said = Pattern.compile("are (\\d+\\.\\d+) m " + way + ".*" + where).matcher(line);
    assertTrue(said.find(), line);
    assertEquals(stepM, Double.parseDouble(said.group(1)), tolerance + 1e-9);
  }

  @Test
  void aRasterOnAnotherGridIsBroughtOntoTheFinest() throws IOException {
    Path coarse = folder.resolve("coarse.tif");
    float[] level = new float[16];
    Arrays.fill(level, 270);
    GridFrame frame = RasterFixtures.read("plain.tif").ground().frame();
    GeoTiffWriter.write(
        coarse, new GridFrame(4, 4, frame.westM() + 48.3, frame.northM(), 12), level, CRS, "metre");
    Terrain terrain = read(tile("a", 0, 48, 0, "metre"), coarse);
    assertEquals(1, terrain.ground().frame().cellM());
    assertEquals(GROUND[5], terrain.ground().at(5, 0));
    assertEquals(270, terrain.ground().at(60, 5));
    assertTrue(terrain.assumptions().stream().anyMatch(a -> a.value().contains("cells of 12")));
  }

  /** Columns of the ground as a raster of their own, raised. */
  private Path tile(String name, int from, int to, float raisedM, String unit) throws IOException {
    GridFrame whole = RasterFixtures.read("plain.tif").ground().frame();
    float[] z = new float[(to - from) * 48];
    double unitM = unit.equals("metre") ? 1 : WorkingCrs.US_SURVEY_FOOT_M;
    for (int i = 0; i < z.length; i++) {
      int col = from + i % (to - from);
      z[i] = (float) ((GROUND[i / (to - from) * 48 + col] + raisedM) / unitM);
    }
    Path file = folder.resolve(name + ".tif");
    GeoTiffWriter.write(
        file, new GridFrame(to - from, 48, whole.westM() + from, whole.northM(), 1), z, CRS, unit);
    return file;
  }

  private static Terrain read(Path... rasters) {
    ElevationSource source = ElevationSource.open(input(rasters), CRS);
    return source.read(source.extentM());
  }
}
