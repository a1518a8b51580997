package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * Filling against scikit-image's {@code morphology.reconstruction(method='erosion')} from the edge
 * of the known ground, to the bit; made by {@code core/src/test/scripts/fill_fixtures.py}.
 */
class FillingOracleTest {

  @ParameterizedTest
  @CsvSource({"random,101,97", "flats,90,80", "holes,90,80", "real,96,96"})
  void fillsAsMorphologicalReconstructionDoes(String name, int cols, int rows) throws IOException {
    float[] ground = read(name + ".ground", cols * rows);
    float[] expected = read(name + ".filled", cols * rows);
    float[] filled = Filling.of(new ElevationGrid(new GridFrame(cols, rows, 0, rows, 1), ground));
    assertArrayEquals(expected, filled);
    int raised = 0;
    for (int c = 0; c < ground.length; c++) {
      raised += filled[c] > ground[c] ? 1 : 0;
    }
    assertTrue(raised > 50, "nothing to fill");
  }

  private static float[] read(String file, int size) throws IOException {
    try (InputStream in = FillingOracleTest.class.getResourceAsStream(file)) {
      float[] values = new float[size];
      ByteBuffer.wrap(in.readAllBytes()).order(ByteOrder.LITTLE_ENDIAN).asFloatBuffer().get(values);
      return values;
    }
  }
}
