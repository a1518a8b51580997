package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.Given;
import org.yardfall.site.WorkingCrs;

/** What is written reads back the same. */
class GeoTiffWriterTest {

  @TempDir private Path folder;

  @ParameterizedTest
  @CsvSource({
    "EPSG:26915, 0.5, 500000, 5000000, metre",
    "EPSG:2903, 1, 1620000, 1420000, US survey foot",
    "EPSG:2994, 2.5, 635600, 853520, foot"
  })
  void aGridReadsBackToTheBit(String code, double cell, double west, double north, String unit)
      throws IOException {
    WorkingCrs crs = CrsLookup.of(code);
    GridFrame frame =
        new GridFrame(300, 270, crs.toMetres(west), crs.toMetres(north), crs.toMetres(cell));
    float[] values = noise(frame);
    Path file = folder.resolve("grid.tif");
    GeoTiffWriter.write(file, frame, values, crs, unit);

    assertEquals(code, ElevationSource.PLANES.own(file).orElseThrow().name());
    Terrain terrain = read(file, crs);
    assertEquals(frame.cols(), terrain.ground().frame().cols());
    assertEquals(frame.rows(), terrain.ground().frame().rows());
    assertEquals(frame.westM(), terrain.ground().frame().westM(), 1e-9 * frame.westM());
    assertEquals(frame.northM(), terrain.ground().frame().northM(), 1e-9 * frame.northM());
    assertEquals(frame.cellM(), terrain.ground().frame().cellM(), 1e-12);
    float[] metres = new float[values.length];
    for (int i = 0; i < metres.length; i++) {
      metres[i] = (float) (values[i] * crs.metresPerUnit());
    }
    assertArrayEquals(metres, terrain.ground().z());
  }

  @Test
  void theSameGridGivesTheSameBytes() throws IOException {
    WorkingCrs crs = CrsLookup.of("EPSG:26915");
    GridFrame frame = new GridFrame(40, 30, 500_000, 5_000_000, 1);
    Path one = folder.resolve("one.tif");
    Path two = folder.resolve("two.tif");
    GeoTiffWriter.write(one, frame, noise(frame), crs, "m2");
    GeoTiffWriter.write(two, frame, noise(frame), crs, "m2");
    assertEquals(-1, Files.mismatch(one, two));
  }

  private static Terrain read(Path file, WorkingCrs crs) {
    ElevationSource source = ElevationSource.open(Given.elevation(file), crs);
    return source.read(source.extentM());
  }

  private static float[] noise(GridFrame frame) {
    Random random = new Random(7);
    float[] values = new float[frame.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = i % 97 == 0 ? Float.NaN : 240 + random.nextFloat();
    }
    return values;
  }
}
