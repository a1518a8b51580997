package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.Site;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;

/**
 * The rasters of the water stage read back tag by tag, without the library that wrote them: where
 * they lie, in which CRS and unit, and every cell. The tags are those of TIFF 6.0; 33550, 33922 and
 * 34735 are those of the GeoTIFF Standard 1.1 (OGC 19-008r4); 42112 and 42113 are GDAL's for the
 * unit and NoData.
 */
class RasterLayersTest {

  @TempDir private Path folder;
  private SurfaceWater water;
  private GridFrame frame;

  /** A slope to the east with a pit of 2 cells and a hole, on more than one tile. */
  @BeforeEach
  void write() throws IOException {
    frame = new GridFrame(300, 270, 500_000, 4_983_500, 0.5);
    float[] z = new float[frame.size()];
    for (int c = 0; c < z.length; c++) {
      z[c] = 100 - 0.01f * (c % 300);
    }
    z[cell(50, 100)] -= 0.5f;
    z[cell(51, 100)] -= 0.5f;
    z[cell(200, 30)] = Float.NaN;
    Site site = ResultFixture.empty().site();
    Terrain terrain =
        new Terrain(
            new ElevationGrid(frame, z), List.of(), 0.05, true, 0, "", List.of(), List.of());
    water = SurfaceWaterFinder.find(terrain, site);
    RasterLayers.write(water, site.crs(), folder);
  }

  @Test
  void theDepthAtSpillLevelInMetres() throws IOException {
    float[] depth = check("fill_depth.tif", "metre");
    for (int c = 0; c < depth.length; c++) {
      boolean pit = c == cell(50, 100) || c == cell(51, 100);
      float expected = c == cell(200, 30) ? -9999 : pit ? depth[c] : 0;
      assertEquals(expected, depth[c]);
    }
    // The pit spills to the east, where the ground beside it lies 0.02 and 0.01 m lower.
    assertEquals(0.48, depth[cell(50, 100)], 1e-4);
    assertEquals(0.49, depth[cell(51, 100)], 1e-4);
  }

  @Test
  void theContributingAreaInSquareMetres() throws IOException {
    float[] area = check("contributing_area.tif", "m2");
    assertEquals(-9999, area[cell(200, 30)]);
    float[] expected = new float[area.length];
    for (int c = 0; c < area.length; c++) {
      expected[c] = c == cell(200, 30) ? -9999 : (float) water.areaM2()[c];
    }
    assertArrayEquals(expected, area);
    // Along a row on which nothing lies, each cell adds its quarter of a square metre.
    for (int col = 0; col < 300; col++) {
      assertEquals(0.25f * (col + 1), area[cell(col, 250)]);
    }
  }

  private int cell(int col, int row) {
    return row * 300 + col;
  }

  private float[] check(String name, String unit) throws IOException {
    PlainTiff tiff = new PlainTiff(folder.resolve("rasters").resolve(name));
    checkNumbers(tiff, 256, 300); // columns
    checkNumbers(tiff, 257, 270); // rows
    checkNumbers(tiff, 258, 32); // bits a sample
    checkNumbers(tiff, 277, 1); // samples a cell
    checkNumbers(tiff, 339, 3); // floats
    // 8 is deflate, 32946 the older number of the same
    double compression = tiff.numbers(259)[0];
    assertTrue(compression == 8 || compression == 32946, "compression " + compression);
    assertFalse(tiff.has(317) && tiff.numbers(317)[0] != 1, "a predictor");
    checkNumbers(tiff, 322, 256); // tile width
    checkNumbers(tiff, 323, 256); // tile height
    checkNumbers(tiff, 33550, 0.5, 0.5, 0); // cell size
    checkNumbers(tiff, 33922, 0, 0, 0, 500_000, 4_983_500, 0); // corner
    assertEquals(1, geoKey(tiff, 1024), "projected");
    assertEquals(1, geoKey(tiff, 1025), "a cell is an area");
    assertEquals(26915, geoKey(tiff, 3072));
    assertEquals("-9999", tiff.text(42113).strip());
    assertTrue(tiff.text(42112).contains("role=\"unittype\">" + unit + "</Item>"));
    return tiff.cells();
  }

  private static void checkNumbers(PlainTiff tiff, int tag, double... expected) {
    assertArrayEquals(expected, tiff.numbers(tag), "tag " + tag);
  }

  /** A key's short value: after the directory's own four numbers come four for each key. */
  private static int geoKey(PlainTiff tiff, int key) {
    double[] keys = tiff.numbers(34735);
    for (int at = 4; at < keys.length; at += 4) {
      if (keys[at] == key) {
        return (int) keys[at + 3];
      }
    }
    throw new AssertionError("no key " + key);
  }
}
