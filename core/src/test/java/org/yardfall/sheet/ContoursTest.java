package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.DoubleBinaryOperator;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.UnitSystem;

/** Contours against ground whose contours are known from geometry. */
class ContoursTest {

  private static final GridFrame FRAME = new GridFrame(60, 40, 100, 240, 1);
  private static final Envelope WINDOW = FRAME.envelope();

  @Test
  void aTiltedPlaneHasStraightContours() {
    List<Contours.Contour> lines = Contours.of(grid((x, y) -> 10 + 0.02 * (x - 100)), WINDOW, 0.25);
    assertEquals(4, lines.size());
    for (Contours.Contour contour : lines) {
      for (Coordinate c : inside(contour)) {
        assertEquals(contour.levelM(), 10 + 0.02 * (c.x - 100), 1e-6);
      }
    }
  }

  @Test
  void aConeHasRingsRoundItsMiddle() {
    ElevationGrid cone = grid((x, y) -> 20 - 0.1 * Math.hypot(x - 130, y - 220));
    List<Contours.Contour> lines = Contours.of(cone, WINDOW, 0.5);
    Contours.Contour ring = lines.stream().filter(c -> c.levelM() == 19).findFirst().orElseThrow();
    assertTrue(ring.line().isClosed());
    for (Coordinate c : ring.line().getCoordinates()) {
      assertEquals(10, Math.hypot(c.x - 130, c.y - 220), 0.15);
    }
  }

  @Test
  void levelGroundOnAContourHasNone() {
    assertEquals(List.of(), Contours.of(grid((x, y) -> 10), WINDOW, 0.5));
  }

  @Test
  void aSaddleIsDrawnWithoutCrossingLines() {
    List<Contours.Contour> lines =
        Contours.of(grid((x, y) -> 5 + (x - 130) * (y - 220) / 1000), WINDOW, 0.05);
    for (Contours.Contour contour : lines) {
      assertTrue(contour.line().isSimple(), "contour " + contour.levelM() + " crosses itself");
    }
  }

  @Test
  void unknownGroundHasNoContours() {
    assertEquals(List.of(), Contours.of(grid((x, y) -> Double.NaN), WINDOW, 0.5));
  }

  @Test
  void theStepIsRoundInTheReadersUnits() {
    ElevationGrid slope = grid((x, y) -> 10 + 0.1 * (x - 100));
    assertEquals(0.5, Contours.stepM(slope, WINDOW, UnitSystem.METRIC));
    assertEquals(2 * 0.3048, Contours.stepM(slope, WINDOW, UnitSystem.US), 1e-12);
  }

  /** The smoothing bends the lines only within two cells of the grid's rim. */
  private static List<Coordinate> inside(Contours.Contour contour) {
    Envelope inner = new Envelope(WINDOW);
    inner.expandBy(-3.6);
    return java.util.Arrays.stream(contour.line().getCoordinates())
        .filter(inner::contains)
        .toList();
  }

  private static ElevationGrid grid(DoubleBinaryOperator z) {
    float[] values = new float[FRAME.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = (float) z.applyAsDouble(FRAME.x(i % FRAME.cols()), FRAME.y(i / FRAME.cols()));
    }
    return new ElevationGrid(FRAME, values);
  }
}
