package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.yardfall.site.BadInputException;

/** Signs that numbers are no ground, or coarser than they seem. */
class GroundSenseTest {

  private static final int SIDE = 80;

  @ParameterizedTest
  @CsvSource({"1, 1, 1", "0.1, 1, 0.1", "0.01, 1, 0.01", "0.05, 1, 0.05", "0.1, 0.3048, 0.03048"})
  void roundingShows(double step, double unitM, double stepM) {
    GroundSense sense = sense(slope(z -> Math.rint(z / unitM / step) * step * unitM), unitM, false);
    assertEquals(stepM, sense.stepM(), 1e-12);
  }

  @Test
  void feetRoundedAndStoredAsMetresShow() {
    GroundSense sense = sense(slope(z -> Math.rint(z / 0.3048 * 10) / 10 * 0.3048), 1, false);
    assertEquals(0.03048, sense.stepM(), 1e-12);
  }

  @Test
  void groundAsMeasuredHasNoStep() {
    GroundSense sense = sense(slope(z -> z), 1, false);
    assertEquals(0, sense.stepM());
    assertTrue(sense.warnings().isEmpty());
  }

  @Test
  void wholeMetresOfAGentleSlopeAreNoClasses() {
    GroundSense sense = sense(slope(z -> Math.rint(z)), 1, true);
    checkWarning(sense, "rounded to 1.00 m");
    assertTrue(sense.warnings().stream().noneMatch(w -> w.contains("classes")));
  }

  @Test
  void classesAreTold() {
    Random random = new Random(3);
    float[] z = new float[SIDE * SIDE];
    for (int i = 0; i < z.length; i++) {
      z[i] = 1 + random.nextInt(9);
    }
    checkWarning(sense(z, 1, true), "look like classes");
  }

  @Test
  void aScannedMapIsToldFromMountains() {
    // Black lines on white, 10 m cells; mountains of the same cell rise by their own distance at
    // most.
    Random random = new Random(4);
    float[] scan = new float[SIDE * SIDE];
    float[] mountains = new float[SIDE * SIDE];
    for (int i = 0; i < scan.length; i++) {
      scan[i] = random.nextInt(10) == 0 ? 20 : 240;
      mountains[i] = 9 * (i % SIDE) + 7 * (i / SIDE) + random.nextInt(3);
    }
    checkWarning(new GroundSense(scan, SIDE, 10, 1, true, "scan.tif"), "a picture's shades");
    assertTrue(
        new GroundSense(mountains, SIDE, 10, 1, true, "dem.tif")
            .warnings().stream().noneMatch(w -> w.contains("picture")));
  }

  @Test
  void oneHeightEverywhereIsTold() {
    checkWarning(sense(new float[SIDE * SIDE], 1, false), "the same elevation");
  }

  @Test
  void zerosFarBelowTheGroundAreTold() {
    float[] z = slope(height -> height);
    for (int i = 0; i < 500; i++) {
      z[i] = 0;
    }
    checkWarning(sense(z, 1, false), "exactly 0");
  }

  @Test
  void roofsAreTold() {
    float[] z = slope(height -> height);
    for (int i = 0; i < z.length; i++) {
      int col = i % SIDE % 20;
      int row = i / SIDE % 20;
      z[i] += col < 8 && row < 10 ? 6 : 0;
    }
    checkWarning(sense(z, 1, false), "roofs and tree crowns");
  }

  @Test
  void centimetresTakenForMetresAreRefusedOrTold() {
    assertThrows(BadInputException.class, () -> sense(slope(z -> Math.rint(z * 100)), 1, true));
    checkWarning(sense(slope(z -> Math.rint((z - 235) * 100)), 1, true), "steeper than");
  }

  private static void checkWarning(GroundSense sense, String words) {
    assertTrue(
        sense.warnings().stream().anyMatch(w -> w.contains(words)),
        () -> sense.warnings().toString());
  }

  private static GroundSense sense(float[] z, double unitM, boolean integer) {
    return new GroundSense(z, SIDE, 1, unitM, integer, "test");
  }

  /** A slope of 5 % from 240 m with a few centimetres of noise. */
  private static float[] slope(DoubleUnaryOperator stored) {
    Random random = new Random(11);
    float[] z = new float[SIDE * SIDE];
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) stored.applyAsDouble(240 + 0.05 * (i % SIDE) + 0.03 * random.nextGaussian());
    }
    return z;
  }
}
