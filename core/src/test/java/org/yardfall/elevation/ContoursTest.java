package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.TreeSet;
import java.util.function.DoubleBinaryOperator;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;

/** Contours against the geometry of simple ground. */
class ContoursTest {

  private static ElevationGrid grid(int cols, int rows, DoubleBinaryOperator ground) {
    GridFrame frame = new GridFrame(cols, rows, 0, rows, 1);
    float[] z = new float[frame.size()];
    for (int row = 0; row < rows; row++) {
      for (int col = 0; col < cols; col++) {
        z[row * cols + col] = (float) ground.applyAsDouble(frame.x(col), frame.y(row));
      }
    }
    return new ElevationGrid(frame, z);
  }

  @Property(tries = 30, seed = "20261125")
  void contoursOfAPlaneAreStraightAndEquallySpaced(
      @ForAll @DoubleRange(min = -0.2, max = 0.2) double a,
      @ForAll @DoubleRange(min = 0.02, max = 0.2) double b) {
    double interval = 0.1 * 0.3048; // a tenth of a foot
    List<Contour> contours = Contours.of(grid(30, 20, (x, y) -> 50 + a * x + b * y), interval);
    TreeSet<Long> levels = new TreeSet<>();
    for (Contour contour : contours) {
      long level = Math.round(contour.elevationM() / interval);
      assertTrue(levels.add(level), "one line a level");
      for (Coordinate c : contour.line().getCoordinates()) {
        // The line a·x + b·y = level − 50; a float at 50 m is exact to 4 micrometres.
        assertEquals(contour.elevationM(), 50 + a * c.x + b * c.y, 1e-5);
      }
    }
    double low = 50 + Math.min(0.5 * a, 29.5 * a) + 0.5 * b;
    double high = 50 + Math.max(0.5 * a, 29.5 * a) + 19.5 * b;
    assertTrue(
        Math.abs(levels.size() - (Math.floor(high / interval) - Math.ceil(low / interval) + 1))
            <= 1);
  }

  @Test
  void aConesContoursAreRingsOnItsCircles() {
    List<Contour> contours =
        Contours.of(grid(41, 41, (x, y) -> 10 - Math.hypot(x - 20.5, y - 20.5)), 2.5);
    List<Contour> rings =
        contours.stream().filter(c -> c.elevationM() > -5 && c.elevationM() < 10).toList();
    assertEquals(
        "-2.5 0.0 2.5 5.0 7.5",
        rings.stream().map(c -> String.valueOf(c.elevationM())).collect(Collectors.joining(" ")));
    for (Contour ring : rings) {
      double radius = 10 - ring.elevationM();
      assertTrue(ring.line().isClosed() && ring.line().isSimple());
      for (Coordinate c : ring.line().getCoordinates()) {
        // Between centres 1 m apart a straight line misses a cone by 1/(8 r) at most.
        assertEquals(radius, Math.hypot(c.x - 20.5, c.y - 20.5), 1 / (8 * (radius - 1)));
      }
    }
  }

  @Test
  void levelGroundHasNoneEvenAtALevel() {
    assertTrue(Contours.of(grid(5, 5, (x, y) -> 3), 1).isEmpty());
    // A plateau at the level is above it: only its rim is drawn, once.
    List<Contour> rim =
        Contours.of(
            grid(9, 9, (x, y) -> Math.max(Math.abs(x - 4.5), Math.abs(y - 4.5)) < 3 ? 3 : 2.5), 1);
    assertEquals(1, rim.size());
    assertTrue(rim.get(0).line().isClosed());
  }

  @Test
  void aSaddleIsPartedByItsMean() {
    checkSaddle(new float[] {1, 0, 0, 1}, 0.4, 2);
    checkSaddle(new float[] {1, 0, 0, 1}, 0.6, 2);
  }

  private static void checkSaddle(float[] z, double level, int lines) {
    List<Contour> contours = Contours.of(new ElevationGrid(new GridFrame(2, 2, 0, 2, 1), z), level);
    List<Contour> at = contours.stream().filter(c -> c.elevationM() == level).toList();
    assertEquals(lines, at.size());
    // The mean, 0.5, decides: below it the high corners are joined, so each line cuts off a low
    // one.
    boolean joined = level < 0.5;
    for (Contour contour : at) {
      Coordinate middle = contour.line().getCentroid().getCoordinate();
      boolean nearLow = (middle.x - 1) * (middle.y - 1) > 0;
      assertEquals(joined, nearLow);
    }
  }

  @Test
  void unknownGroundHasNone() {
    ElevationGrid holed = grid(10, 10, (x, y) -> x > 4 && x < 6 ? Double.NaN : y);
    for (Contour contour : Contours.of(holed, 1)) {
      for (Coordinate c : contour.line().getCoordinates()) {
        assertTrue(c.x <= 3.5 || c.x >= 6.5);
      }
    }
    assertEquals(9 * 2, Contours.of(holed, 1).size() + 0);
  }

  @Test
  void anIntervalMustBeAboveNought() {
    assertThrows(IllegalArgumentException.class, () -> Contours.of(grid(3, 3, (x, y) -> x), 0));
  }
}
