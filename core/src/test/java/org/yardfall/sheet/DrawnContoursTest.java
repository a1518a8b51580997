package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleBinaryOperator;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.elevation.Contour;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.UnitSystem;

/** Ground whose contours are known from geometry. */
class DrawnContoursTest {

  private static final GridFrame FRAME = new GridFrame(60, 40, 100, 240, 1);
  private static final Envelope INNER = new Envelope(105, 155, 205, 235);

  @Test
  void aTiltedPlaneKeepsItsContoursWithinTheWindow() {
    DrawnContours drawn = drawn(FRAME, (x, y) -> 10 + 0.02 * (x - 100), UnitSystem.METRIC);
    assertEquals(0.1, drawn.stepM());
    assertEquals(11, drawn.lines().size());
    for (Contour contour : drawn.lines()) {
      for (Coordinate c : contour.line().getCoordinates()) {
        if (INNER.contains(c)) {
          assertEquals(contour.elevationM(), 10 + 0.02 * (c.x - 100), 1e-5);
        }
      }
    }
  }

  @Test
  void theStepIsRoundInTheReadersUnits() {
    DoubleBinaryOperator slope = (x, y) -> 10 + 0.1 * (x - 100);
    assertEquals(0.5, drawn(FRAME, slope, UnitSystem.METRIC).stepM());
    assertEquals(2 * 0.3048, drawn(FRAME, slope, UnitSystem.US).stepM(), 1e-12);
  }

  /** Noise of 2 cm a cell on a plane: averaged it leaves each level one line. */
  @Test
  void noiseDoesNotFrillTheLines() {
    java.util.Random random = new java.util.Random(7);
    DrawnContours drawn =
        drawn(
            FRAME, (x, y) -> 10 + 0.05 * (x - 100) + 0.02 * random.nextDouble(), UnitSystem.METRIC);
    assertEquals(
        drawn.lines().stream().mapToDouble(Contour::elevationM).distinct().count(),
        drawn.lines().size());
  }

  /** A raster of 2000 by 2000 cells is drawn of a few hundred, in its right place. */
  @Test
  void aLargeRasterIsThinned() {
    GridFrame large = new GridFrame(2000, 2000, 0, 2000, 1);
    DrawnContours drawn = drawn(large, (x, y) -> 0.01 * y, UnitSystem.METRIC);
    for (Contour contour : drawn.lines()) {
      assertTrue(contour.line().getNumPoints() <= 450);
      for (Coordinate c : contour.line().getCoordinates()) {
        if (c.y > 20 && c.y < 1980) {
          assertEquals(contour.elevationM() / 0.01, c.y, 0.01);
        }
      }
    }
  }

  @Test
  void levelAndUnknownGroundHaveNone() {
    assertTrue(drawn(FRAME, (x, y) -> 10, UnitSystem.METRIC).lines().isEmpty());
    assertTrue(drawn(FRAME, (x, y) -> Double.NaN, UnitSystem.METRIC).lines().isEmpty());
  }

  private static DrawnContours drawn(GridFrame frame, DoubleBinaryOperator z, UnitSystem units) {
    float[] values = new float[frame.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = (float) z.applyAsDouble(frame.x(i % frame.cols()), frame.y(i / frame.cols()));
    }
    return DrawnContours.of(new ElevationGrid(frame, values), frame.envelope(), units);
  }
}
