package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.yardfall.elevation.RasterFixtures.expected;
import static org.yardfall.elevation.RasterFixtures.read;

import java.awt.Rectangle;
import java.util.Arrays;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Unknown cells stay unknown, and only they. */
class RasterVoidTest {

  /**
   * Of the two huge marks one is −3.4e38 as a float holds it, −3.3999999521e38, while its tag says
   * −3.4e+38; the other is the least float, −3.4028235e38, under that same tag.
   */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "hole_declared.tif",
        "hole_undeclared.tif",
        "hole_nan.tif",
        "hole_huge.tif",
        "hole_huge_cast.tif"
      })
  void aHoleIsNotGroundHoweverItIsMarked(String name) {
    float[] ground = expected("plain.txt");
    Terrain terrain = read(name);
    checkHole(terrain, 48, new Rectangle(20, 10, 6, 4));
    for (int i = 0; i < ground.length; i++) {
      float z = terrain.ground().z()[i];
      assertTrue(Float.isNaN(z) || z == ground[i]);
    }
  }

  @Test
  void anUndeclaredMarkIsTold() {
    Terrain terrain = read("hole_undeclared.tif");
    assertTrue(terrain.warnings().stream().anyMatch(w -> w.contains("24 cells hold -9999")));
    for (String declared : new String[] {"declared", "nan", "huge", "huge_cast"}) {
      assertTrue(read("hole_" + declared + ".tif").warnings().isEmpty(), declared);
    }
  }

  @Test
  void maskedCellsAreUnknown() {
    checkHole(read("masked.tif"), 12, new Rectangle(5, 2, 4, 2));
  }

  private static void checkHole(Terrain terrain, int cols, Rectangle hole) {
    float[] z = terrain.ground().z();
    for (int i = 0; i < z.length; i++) {
      assertEquals(hole.contains(i % cols, i / cols), Float.isNaN(z[i]), "cell " + i);
    }
  }

  /** A level ground at 7 with random holes is at 7 or unknown wherever it is interpolated. */
  @Property(tries = 200, seed = "20261125")
  void voidsNeverBleed(
      @ForAll long seed,
      @ForAll @DoubleRange(min = -0.7, max = 0.7) double turn,
      @ForAll @DoubleRange(min = 0.3, max = 3) double size) {
    Random random = new Random(seed);
    Rectangle cells = new Rectangle(9, 8);
    float[] level = new float[72];
    Arrays.fill(level, 7);
    for (int i = 0; i < 8; i++) {
      level[random.nextInt(72)] = Float.NaN;
    }
    double cos = Math.cos(turn);
    double sin = Math.sin(turn);
    Resampler resampler =
        new Resampler(
            xy -> {
              for (int i = 0; i < xy.length; i += 2) {
                double x = xy[i];
                xy[i] = 4.5 + cos * x - sin * xy[i + 1];
                xy[i + 1] = 4 - sin * x - cos * xy[i + 1];
              }
            },
            cells);
    GridFrame frame = new GridFrame(12, 12, -6 * size, 6 * size, size);
    float[] z = resampler.resample(frame, cells, level);
    for (int i = 0; i < z.length; i++) {
      double x = frame.x(i % 12);
      double y = frame.y(i / 12);
      double u = 4.5 + cos * x - sin * y;
      double v = 4 - sin * x - cos * y;
      if (u > 0.5 && u < 8.5 && v > 0.5 && v < 7.5 && away(u) && away(v)) {
        int at = ((int) (v - 0.5)) * 9 + (int) (u - 0.5);
        boolean known = !Float.isNaN(level[at] + level[at + 1] + level[at + 9] + level[at + 10]);
        assertEquals(known ? 7 : Float.NaN, z[i]);
      } else {
        assertTrue(Float.isNaN(z[i]) || z[i] == 7);
      }
    }
  }

  private static boolean away(double cell) {
    double share = cell - 0.5 - Math.floor(cell - 0.5);
    return share > 1e-5 && share < 1 - 1e-5;
  }
}
