package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.yardfall.elevation.RasterFixtures.expected;
import static org.yardfall.elevation.RasterFixtures.file;
import static org.yardfall.elevation.RasterFixtures.geotransform;
import static org.yardfall.elevation.RasterFixtures.input;
import static org.yardfall.elevation.RasterFixtures.read;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.site.CrsLookup;

/**
 * However the same ground is stored, it reads the same, to the bit and in the same place. What is
 * right was read by GDAL 3.6.2 (see make-rasters.py beside the rasters).
 */
class RasterEncodingTest {

  private static final float[] GROUND = expected("plain.txt");

  @ParameterizedTest
  @ValueSource(
      strings = {
        "plain.tif",
        "lzw_pred3_tiled.tif",
        "lzw_strips.tif",
        "zstd_pred3.tif",
        "bigtiff_deflate.tif",
        "big_endian.tif",
        "packbits.tif",
        "cog_deflate.tif",
        "float64.tif",
        "pixel_is_point.tif",
        "south_up.tif",
        "grid.asc"
      })
  void everyEncodingReadsTheSame(String name) {
    checkGround(read(name, "EPSG:3794"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"deflate", "lzw", "zstd"})
  void everyCodecReadsTheSameWithEveryPredictor(String codec) {
    for (String predictor : new String[] {"1", "2", "3"}) {
      String name = "small_" + codec + "_pred" + predictor + ".tif";
      float[] z = read(name).ground().z();
      assertEquals(64, z.length, name);
      for (int i = 0; i < z.length; i++) {
        assertEquals(GROUND[i / 8 * 48 + i % 8], z[i], name);
      }
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"no_crs.tif", "world_file.tif"})
  void aRasterWithoutACrsReadsTheSameInTheOneGiven(String name) {
    ElevationSource source =
        ElevationSource.open(
            input(OptionalDouble.empty(), "EPSG:3794", file(name)), CrsLookup.of("EPSG:3794"));
    checkGround(source.read(source.extentM()));
  }

  private static void checkGround(Terrain terrain) {
    double[] place = geotransform("plain.txt");
    GridFrame frame = terrain.ground().frame();
    assertEquals(new GridFrame(48, 48, place[0], place[3], place[1]), frame);
    assertArrayEquals(GROUND, terrain.ground().z());
    assertEquals(0.01, terrain.stepM(), 1e-12);
    assertTrue(terrain.warnings().isEmpty(), () -> terrain.warnings().toString());
  }

  @Test
  void storedWholeDecimetresAreScaled() {
    Terrain terrain = read("decimetres.tif");
    assertArrayEquals(expected("decimetres.txt"), terrain.ground().z(), 1e-5f);
    assertEquals(0.1, terrain.stepM(), 1e-12);
  }

  @ParameterizedTest
  @ValueSource(strings = {"plain.tif", "lzw_pred3_tiled.tif", "south_up.tif", "grid.asc"})
  void aWindowIsThatPartOfTheWhole(String name) {
    ElevationSource source = RasterFixtures.open(name, "EPSG:3794");
    Terrain part = source.read(new Envelope(564409.2, 564420.1, 146580.0, 146590.3));
    assertEquals(new GridFrame(12, 11, 564408.5, 146590.5, 1), part.ground().frame());
    for (int row = 0; row < 11; row++) {
      for (int col = 0; col < 12; col++) {
        assertEquals(GROUND[(row + 9) * 48 + col + 9], part.ground().at(col, row));
      }
    }
  }
}
