package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.ShotInput;
import org.yardfall.site.ShotRole;
import org.yardfall.site.WorkingCrs;

/** The ground of a site from shots alone, and from a raster tied to shots; places invented. */
class ShotSourceTest {

  private static final WorkingCrs CRS = CrsLookup.of("EPSG:26915");
  private static final Envelope YARD = new Envelope(500_000, 500_040, 4_980_000, 4_980_030);
  private static final Geometry LOT = new GeometryFactory().toGeometry(YARD);

  @TempDir Path folder;

  private static double ground(double x, double y) {
    return 240 + 0.02 * (x - 500_000) + 0.03 * (y - 4_980_000);
  }

  /** Shots on the ground, raised by a constant, in an order of columns. */
  private Path shots(String name, String format, double raisedM, int count) throws IOException {
    Random random = new Random(11);
    List<String> lines = new ArrayList<>();
    for (int i = 1; i <= count; i++) {
      double x = Math.rint((500_000 + 40 * random.nextDouble()) * 1000) / 1000;
      double y = Math.rint((4_980_000 + 30 * random.nextDouble()) * 1000) / 1000;
      lines.add(String.format(Locale.ROOT, format, i, x, y, ground(x, y) + raisedM));
    }
    return Files.write(folder.resolve(name), lines);
  }

  /** A raster of the same ground with cells of 1 m. */
  private Path raster() throws IOException {
    StringBuilder text =
        new StringBuilder("ncols 60\nnrows 50\nxllcorner 499990\nyllcorner 4979990\ncellsize 1\n");
    for (int row = 0; row < 50; row++) {
      for (int col = 0; col < 60; col++) {
        text.append(
            String.format(Locale.ROOT, "%.5f ", ground(499_990.5 + col, 4_979_990 + 49.5 - row)));
      }
      text.append('\n');
    }
    return Files.writeString(folder.resolve("ground.asc"), text);
  }

  private static ElevationInput input(List<Path> rasters, Path shots, ShotInput shotInput) {
    return new ElevationInput(
        rasters,
        shots,
        null,
        OptionalDouble.empty(),
        "",
        OptionalDouble.empty(),
        "EPSG:26915",
        shotInput,
        "");
  }

  private static ShotInput correcting(boolean correct) {
    return new ShotInput(
        OptionalDouble.empty(),
        Map.of("CB", ShotRole.OUTLET),
        null,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        correct);
  }

  @Test
  void shotsAloneAreGroundWithNothingBeyond() throws IOException {
    Path file = shots("a.csv", "%1$d,%3$.3f,%2$.3f,%4$.4f,GND", 0, 150);
    ElevationSource source = ElevationSource.open(input(List.of(), file, ShotInput.NONE), CRS, LOT);
    Terrain terrain = source.read(source.extentM());
    GridFrame frame = terrain.ground().frame();
    int known = 0;
    for (int cell = 0; cell < frame.size(); cell++) {
      float z = terrain.ground().z()[cell];
      if (!Float.isNaN(z)) {
        known++;
        // Shots are rounded to 0.1 mm, and a float at 240 m to 8 micrometres.
        assertEquals(ground(frame.x(cell % frame.cols()), frame.y(cell / frame.cols())), z, 2e-4);
      }
    }
    assertTrue(known > 0.8 * frame.size() && known < frame.size());
    assertTrue(terrain.assumptions().stream().anyMatch(a -> a.about().equals("elevation.columns")));
    assertTrue(terrain.assumptions().stream().anyMatch(a -> a.about().equals("elevation.cell")));
    assertTrue(
        terrain.sources().stream().anyMatch(line -> line.contains("RMSE")),
        terrain.sources().toString());
    assertFalse(source.describe().isEmpty());
  }

  @Test
  void accuracyIsTheShotsOnEvenGroundAndTheGroundsOnRough() throws IOException {
    Path even = shots("even.csv", "%1$d,%3$.3f,%2$.3f,%4$.4f", 0, 150);
    assertEquals(0.02, accuracy(even), 1e-9);
    Random random = new Random(5);
    List<String> rough = new ArrayList<>();
    for (String line : Files.readAllLines(even)) {
      int last = line.lastIndexOf(',');
      double z = Double.parseDouble(line.substring(last + 1)) + 0.2 * random.nextGaussian();
      rough.add(line.substring(0, last) + String.format(Locale.ROOT, ",%.3f", z));
    }
    // A shot less a mean of about six others: between 0.2 m and 0.2·√2 m.
    double found = accuracy(Files.write(folder.resolve("rough.csv"), rough));
    assertTrue(found > 0.15 && found < 0.29, () -> "accuracy " + found);
  }

  private static double accuracy(Path file) {
    ElevationSource source = ElevationSource.open(input(List.of(), file, ShotInput.NONE), CRS, LOT);
    return source.read(source.extentM()).accuracyM();
  }

  @Test
  void fiveDialectsGiveTheSameGrid() throws IOException {
    float[] first = null;
    List<String> formats =
        List.of(
            "%1$d,%3$.3f,%2$.3f,%4$.4f,GND",
            "%1$d\t%2$.3f\t%3$.3f\t%4$.4f\tGND",
            "%3$.3f;%2$.3f;%4$.4f",
            "  %2$.3f   %3$.3f %4$.4f",
            "\"A%1$d\",\"%3$.3f\",\"%2$.3f\",\"%4$.4f\",\"of, comma\"");
    for (String format : formats) {
      ElevationSource source =
          ElevationSource.open(
              input(List.of(), shots("d.csv", format, 0, 80), ShotInput.NONE), CRS, LOT);
      float[] z = source.read(YARD).ground().z();
      if (first != null) {
        assertArrayEquals(first, z);
      }
      first = z;
    }
  }

  @Test
  void aHundredThousandShotsAreGround() throws IOException {
    Path file = shots("many.csv", "%1$d,%3$.3f,%2$.3f,%4$.4f", 0, 100_000);
    ElevationSource source = ElevationSource.open(input(List.of(), file, ShotInput.NONE), CRS, LOT);
    Terrain terrain = source.read(source.extentM());
    assertEquals(
        ground(500_020.05, 4_980_015.05),
        terrain.ground().bilinear(500_020.05, 4_980_015.05),
        1e-3);
    assertTrue(terrain.sources().get(0).contains("100000 shots"), terrain.sources().toString());
  }

  @Test
  void aWindowBesideTheShotsIsRefused() throws IOException {
    ElevationSource source =
        ElevationSource.open(
            input(List.of(), shots("a.csv", "%1$d,%3$.3f,%2$.3f,%4$.4f", 0, 50), ShotInput.NONE),
            CRS,
            LOT);
    assertThrows(BadInputException.class, () -> source.read(new Envelope(600_000, 600_010, 0, 10)));
  }

  @Test
  void aRasterOffTheShotsIsSaidAndLeftAlone() throws IOException {
    Path file = shots("b.csv", "%1$d,%3$.3f,%2$.3f,%4$.4f,GND", 0.42, 60);
    Files.writeString(
        file,
        "61,4980010,500010,243.0,GND\n62,4980011,500012,230,CB invert\n",
        java.nio.file.StandardOpenOption.APPEND);
    Terrain terrain =
        ElevationSource.open(input(List.of(raster()), file, correcting(false)), CRS, LOT)
            .read(YARD);
    assertEquals(
        ground(500_020.5, 4_980_015.5), terrain.ground().bilinear(500_020.5, 4_980_015.5), 1e-4);
    String before =
        terrain.sources().stream().filter(s -> s.startsWith("before")).findFirst().orElseThrow();
    assertTrue(before.contains("61 shots stand 0.420 m above"), before);
    assertTrue(before.contains("outliers: 61 (+2.50 m)"), before);
    assertTrue(
        terrain.warnings().stream().anyMatch(w -> w.contains("elevation.correct: true")),
        terrain.warnings().toString());
  }

  @Test
  void aRasterIsMovedAndBentToTheShotsWhereAsked() throws IOException {
    Path file = shots("c.csv", "%1$d,%3$.3f,%2$.3f,%4$.4f,GND", 0.42, 60);
    Path raster = raster();
    Terrain terrain =
        ElevationSource.open(input(List.of(raster), file, correcting(true)), CRS, LOT)
            .read(new Envelope(499_990, 500_050, 4_979_990, 4_980_040));
    assertEquals(
        ground(500_020.5, 4_980_015.5) + 0.42,
        terrain.ground().bilinear(500_020.5, 4_980_015.5),
        1e-3);
    assertTrue(
        terrain.sources().stream().anyMatch(s -> s.startsWith("after")),
        terrain.sources().toString());
    assertTrue(
        terrain.assumptions().stream()
            .anyMatch(a -> a.about().equals("elevation.correct") && a.value().contains("+0.420")));
  }

  @Test
  void bendingIsExactAtAShotAndEndsAtItsRadius() {
    ElevationGrid flat = new ElevationGrid(new GridFrame(40, 40, 0, 40, 1), new float[40 * 40]);
    List<Shot> shots =
        List.of(
            new Shot("1", 10.5, 20.5, 0.05, ""),
            new Shot("2", 30.5, 20.5, 0, ""),
            new Shot("3", 30.5, 35.5, 0, ""));
    ElevationGrid bent = RasterTie.of(shots, flat).correct(flat, 6);
    assertEquals(0.05, bent.bilinear(10.5, 20.5), 1e-4);
    assertEquals(0, bent.bilinear(17.5, 20.5), 1e-6);
    assertTrue(bent.bilinear(13.5, 20.5) > 0.01 && bent.bilinear(13.5, 20.5) < 0.05);
  }

  @Test
  void aPlanesTiltIsFound() {
    PlaneFit fit = new PlaneFit();
    double[][] places = {{0, 0}, {3, 1}, {-2, 4}, {5, -3}, {1, 1}};
    for (double[] p : places) {
      fit.add(1 + p[0] * p[0], p[0], p[1], 7 + 0.3 * p[0] - 0.2 * p[1]);
    }
    assertEquals(7, fit.atOrigin(), 1e-12);
    assertEquals(0.3, fit.slopeX(), 1e-12);
    assertEquals(-0.2, fit.slopeY(), 1e-12);
  }

  @Test
  void shotsOffTheRasterAreRefused() throws IOException {
    Path file = Files.writeString(folder.resolve("far.csv"), "P,N,E,Z\n1,4990000,510000,240\n");
    BadInputException refusal =
        assertThrows(
            BadInputException.class,
            () -> ElevationSource.open(input(List.of(raster()), file, ShotInput.NONE), CRS, null));
    assertTrue(refusal.getMessage().contains("none of its shots lies on the raster"));
  }
}
