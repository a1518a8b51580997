package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.function.DoubleBinaryOperator;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.yardfall.elevation.ElevationGrid;

/**
 * D∞ (Tarboton 1997, Water Resources Research 33(2)) on shapes whose answer is known: a plane falls
 * the same way everywhere; cones fall along the radius; the specific area of a cone is r / 2
 * outward and (R² − r²) / 2r inward (area between two radii over the contour's length).
 */
class DInfinityTest {

  @Test
  void aPlaneFallsTheSameWayEverywhere() {
    for (int degrees = 0; degrees < 360; degrees += 7) {
      double a = Math.toRadians(degrees);
      DInfinity flow = of(9, 9, (x, y) -> -0.02 * (Math.sin(a) * x + Math.cos(a) * y) + 50);
      for (int row = 1; row < 8; row++) {
        for (int col = 1; col < 8; col++) {
          double off = Math.abs(flow.bearingDeg(row * 9 + col) - degrees);
          assertTrue(Math.min(off, 360 - off) < 0.1, "bearing " + degrees + " off by " + off);
        }
      }
    }
  }

  @Test
  void conesFallAlongTheRadius() {
    checkRadial(1);
    checkRadial(-1);
  }

  private static void checkRadial(int sign) {
    ElevationGrid ground =
        Grids.surface(41, 41, 1, (x, y) -> sign * 0.1 * Math.hypot(x - 20.5, y - 20.5));
    DInfinity flow = DInfinity.of(ground.z(), FlowRouter.of(ground));
    for (int row = 1; row < 40; row++) {
      for (int col = 1; col < 40; col++) {
        double east = col - 20;
        double north = 20 - row;
        double radius = Math.hypot(east, north);
        if (radius > 3 && radius < 19) {
          double out = Math.toDegrees(Math.atan2(east, north));
          double expected = (out + (sign > 0 ? 180 : 0) + 720) % 360;
          double off = Math.abs(flow.bearingDeg(row * 41 + col) - expected);
          // a facet is flat where the cone is round: within half an arc of its chord
          assertTrue(Math.min(off, 360 - off) < 45 / radius, radius + " m out, off by " + off);
        }
      }
    }
  }

  @Test
  void aSaddleFallsAwayOnTwoSidesAndInFromTwo() {
    DInfinity flow = of(11, 11, (x, y) -> 0.01 * ((y - 5.5) * (y - 5.5) - (x - 5.5) * (x - 5.5)));
    for (int d = 2; d <= 4; d++) {
      assertEquals(90, flow.bearingDeg(5 * 11 + 5 + d), 1e-3);
      assertEquals(270, flow.bearingDeg(5 * 11 + 5 - d), 1e-3);
      // on the ridge's line the two facets beside it fall alike: by 2d − 1 along, by 1 across
      double aside = Math.toDegrees(Math.atan2(1, 2 * d - 1));
      assertEquals(aside, Math.abs(flow.bearingDeg((5 - d) * 11 + 5) - 180), 1e-3);
      double south = flow.bearingDeg((5 + d) * 11 + 5);
      assertEquals(aside, Math.min(south, 360 - south), 1e-3);
    }
  }

  /**
   * Water that runs at an angle a off a grid line takes sides and corners in shares 1 − 4a/π and
   * 4a/π, so it passes 1 / ((1 − p) cos a + p √2 cos(π/4 − a)) cells a metre: 0.88 on average over
   * all directions. A cell's area is the specific area times that, and half of itself.
   */
  @Test
  void aConesSpecificAreaIsThatOfItsRadius() {
    checkSpecificArea(-1, 35, 40, r -> r / 2);
    checkSpecificArea(1, 15, 25, r -> (45 * 45 - r * r) / (2 * r));
  }

  private static void checkSpecificArea(
      int sign, double from, double to, DoubleUnaryOperator expected) {
    int n = 101;
    ElevationGrid ground =
        Grids.surface(
            n,
            n,
            1,
            (x, y) -> {
              double r = Math.hypot(x - 50.5, y - 50.5);
              return r > 45 ? Double.NaN : sign * 0.1 * r;
            });
    double[] own = new double[n * n];
    for (int c = 0; c < own.length; c++) {
      own[c] = Float.isNaN(ground.z()[c]) ? 0 : 1;
    }
    double[] area = DInfinity.of(ground.z(), FlowRouter.of(ground)).accumulate(own);
    double sum = 0;
    int count = 0;
    for (int row = 0; row < n; row++) {
      for (int col = 0; col < n; col++) {
        double radius = Math.hypot(col - 50, row - 50);
        if (radius > from && radius < to) {
          sum += (area[row * n + col] - 0.5) / expected.applyAsDouble(radius);
          count++;
        }
      }
    }
    assertEquals(0.88, sum / count, 0.03);
  }

  @Test
  void nothingIsLostOnTheWay() {
    Random random = new Random(7);
    for (int i = 0; i < 300; i++) {
      ElevationGrid ground =
          Grids.random(random, 3 + random.nextInt(20), 3 + random.nextInt(20), i % 3 * 3, 0.02);
      FlowField steepest = FlowRouter.of(ground);
      DInfinity flow = DInfinity.of(Filling.of(ground), steepest);
      double[] own = new double[ground.z().length];
      double total = 0;
      for (int c = 0; c < own.length; c++) {
        own[c] = Float.isNaN(ground.z()[c]) ? 0 : 1;
        total += own[c];
      }
      double[] area = flow.accumulate(own);
      double left = 0;
      for (int c = 0; c < own.length; c++) {
        left += steepest.toward()[c] == FlowField.LEAVES ? area[c] : 0;
      }
      assertEquals(total, left, 1e-9 * total);
    }
  }

  private static DInfinity of(int cols, int rows, DoubleBinaryOperator height) {
    ElevationGrid ground = Grids.surface(cols, rows, 1, height);
    return DInfinity.of(Filling.of(ground), FlowRouter.of(ground));
  }
}
