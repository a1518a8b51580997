package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.yardfall.elevation.RasterFixtures.expected;
import static org.yardfall.elevation.RasterFixtures.file;
import static org.yardfall.elevation.RasterFixtures.geotransform;
import static org.yardfall.elevation.RasterFixtures.read;

import java.util.function.DoubleBinaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rasters that do not lie square in the working CRS are interpolated onto cells that do. */
class RasterResamplingTest {

  /** Columns run along (0.8, 0.6): the ramp climbs 0.2 m a metre that way. */
  @Test
  void aTurnedPlaneStaysThatPlane() {
    checkPlane(
        read("rotated.tif"), (x, y) -> 100 + 0.2 * (0.8 * (x - 500_000) + 0.6 * (y - 5e6) - 0.5));
  }

  @Test
  void aShearedPlaneStaysThatPlane() {
    // Columns lean half a metre east for each row south: the shear is not dropped.
    Terrain terrain = read("sheared.tif");
    GridFrame frame = terrain.ground().frame();
    int inside = 0;
    for (int row = 0; row < frame.rows(); row++) {
      for (int col = 0; col < frame.cols(); col++) {
        double south = 5e6 - frame.y(row);
        double along = frame.x(col) - 500_000 - 0.5 * south;
        boolean within = south > 0.5 && south < 7.5 && along > 0.5 && along < 7.5;
        if (within) {
          assertEquals(
              240 + 0.1 * (along - 0.5) + 0.02 * (south - 0.5),
              terrain.ground().at(col, row),
              1e-4);
          inside++;
        }
      }
    }
    assertTrue(inside > 35, inside + " cells");
  }

  @Test
  void aPlaneOfOblongCellsStaysThatPlane() {
    checkPlane(read("oblong.tif"), (x, y) -> 100 + 0.2 * (x - 500_000 - 0.5));
  }

  private static void checkPlane(Terrain terrain, DoubleBinaryOperator plane) {
    GridFrame frame = terrain.ground().frame();
    int inside = 0;
    for (int row = 0; row < frame.rows(); row++) {
      for (int col = 0; col < frame.cols(); col++) {
        float z = terrain.ground().at(col, row);
        double expected = plane.applyAsDouble(frame.x(col), frame.y(row));
        // In the outermost half of a cell the nearest centres count.
        if (!Float.isNaN(z) && expected > 100 && expected < 102.2) {
          assertEquals(expected, z, 1e-4);
          inside++;
        }
      }
    }
    assertTrue(inside > 50, inside + " cells");
    assertTrue(terrain.assumptions().stream().anyMatch(a -> a.value().contains("bilinear")));
  }

  /** Against GDAL's bilinear warp of the same ground to the same cells, with exact transforms. */
  @Test
  void groundBroughtToUtmIsWhatGdalMakesOfIt() {
    ElevationGrid ground = read("plain.tif", "EPSG:32633").ground();
    double[] place = geotransform("utm.txt");
    assertEquals(new GridFrame(49, 49, place[0], place[3], place[1]), ground.frame());
    float[] expected = expected("utm.txt");
    for (int i = 0; i < expected.length; i++) {
      if (expected[i] == -9999) {
        assertTrue(Float.isNaN(ground.z()[i]), "cell " + i);
      } else {
        assertEquals(expected[i], ground.z()[i], 1e-3, "cell " + i);
      }
    }
  }

  @Test
  void aRasterInDegreesHasItsUtmZone() {
    assertEquals(
        "EPSG:32633", ElevationSource.PLANES.zone(file("degrees.tif")).orElseThrow().name());
  }

  /**
   * GDAL brought the ground to degrees and to Web Mercator; brought back, it is the same ground.
   */
  @ParameterizedTest
  @CsvSource({"degrees.tif", "mercator.tif"})
  void groundFromAnotherCrsComesBackToItsPlace(String name) {
    Terrain back = read(name, "EPSG:3794");
    ElevationGrid ground =
        new ElevationGrid(read("plain.tif").ground().frame(), expected("plain.txt"));
    GridFrame frame = back.ground().frame();
    double sum = 0;
    int n = 0;
    for (int row = 0; row < frame.rows(); row++) {
      for (int col = 0; col < frame.cols(); col++) {
        double was = ground.bilinear(frame.x(col), frame.y(row));
        float is = back.ground().at(col, row);
        if (!Double.isNaN(was) && !Float.isNaN(is)) {
          assertEquals(was, is, 0.2);
          sum += Math.abs(was - is);
          n++;
        }
      }
    }
    assertTrue(n > 1500, n + " cells");
    assertTrue(sum / n < 0.01, "mean difference " + sum / n);
    assertTrue(back.assumptions().stream().anyMatch(a -> a.value().contains("bilinear")));
  }
}
