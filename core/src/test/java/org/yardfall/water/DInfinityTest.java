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
      int bearing = degrees;
      check(
          21,
          (x, y) -> -0.02 * (Math.sin(a) * x + Math.cos(a) * y) + 50,
          (x, y) -> bearing,
          (x, y) -> 0.1);
    }
  }

  /**
   * A facet is flat where the cone is round: within half an arc of its chord, a cell's half
   * diagonal over the radius.
   */
  @Test
  void conesFallAlongTheRadius() {
    DoubleBinaryOperator within = (x, y) -> seen(Math.sqrt(0.5), x, y);
    check(41, (x, y) -> -0.1 * Math.hypot(x, y), (x, y) -> bearing(x, y), within);
    check(41, (x, y) -> 0.1 * Math.hypot(x, y), (x, y) -> bearing(-x, -y), within);
  }

  /**
   * The saddle z = x² − y² falls along (−x, y), and z = xy, the same turned by 45°, along (−y, −x).
   * A facet takes its falls half a cell off the middle each way, and from its corner; there the
   * gradient, as long as the radius, is another by a cell at most.
   */
  @Test
  void saddlesFallAwayOnTwoSidesAndInFromTwo() {
    DoubleBinaryOperator within = (x, y) -> seen(1, x, y);
    check(41, (x, y) -> 0.01 * (x * x - y * y), (x, y) -> bearing(-x, y), within);
    check(41, (x, y) -> 0.01 * x * y, (x, y) -> bearing(-y, -x), within);
  }

  /** The angle under which a length in cells is seen from the middle, in degrees. */
  private static double seen(double length, double x, double y) {
    double radius = Math.hypot(x, y);
    return radius < 1 ? 180 : Math.toDegrees(Math.asin(length / radius)) + 1e-3;
  }

  private static double bearing(double east, double north) {
    return Math.toDegrees(Math.atan2(east, north));
  }

  /**
   * Every cell within the rim of a shape that holds no water: its bearing is that of the steepest
   * facet to the bit of a float, and that of the gradient within the given degrees.
   *
   * @param n columns and rows, odd; x and y are metres from the middle cell
   */
  private static void check(
      int n,
      DoubleBinaryOperator height,
      DoubleBinaryOperator gradientDeg,
      DoubleBinaryOperator withinDeg) {
    double middle = n / 2.0;
    ElevationGrid ground =
        Grids.surface(n, n, 1, (x, y) -> height.applyAsDouble(x - middle, y - middle));
    DInfinity flow = DInfinity.of(ground.z(), FlowRouter.of(ground));
    int fall = 0;
    for (int row = 1; row < n - 1; row++) {
      for (int col = 1; col < n - 1; col++) {
        double x = col - n / 2;
        double y = n / 2 - row;
        double expected = steepestFacet(ground, col, row);
        if (Double.isNaN(expected)) {
          continue; // the bottom of a cone, where no facet falls
        }
        double bearing = flow.bearingDeg(row * n + col);
        assertEquals(0, between(expected, bearing), 1e-3, x + ", " + y);
        assertTrue(
            between(gradientDeg.applyAsDouble(x, y), bearing) <= withinDeg.applyAsDouble(x, y),
            x + ", " + y + " falls to " + bearing);
        fall++;
      }
    }
    assertTrue(fall >= (n - 2) * (n - 2) - 1, fall + " cells fall");
  }

  /**
   * Tarboton's equations 1 to 5 and table 1, facet by facet: e0 at the cell, e1 at the side, e2 at
   * the corner, s1 = e0 − e1, s2 = e1 − e2, r = atan(s2 / s1) kept to 0 … 45°, and the angle af · r
   * + ac · 90° counter-clockwise from east. As a bearing; NaN where no facet falls.
   */
  private static double steepestFacet(ElevationGrid ground, int col, int row) {
    int[][] e1 = {{1, 0}, {0, 1}, {0, 1}, {-1, 0}, {-1, 0}, {0, -1}, {0, -1}, {1, 0}};
    int[][] e2 = {{1, 1}, {1, 1}, {-1, 1}, {-1, 1}, {-1, -1}, {-1, -1}, {1, -1}, {1, -1}};
    int[] ac = {0, 1, 1, 2, 2, 3, 3, 4};
    int[] af = {1, -1, 1, -1, 1, -1, 1, -1};
    double steepest = 0;
    double angle = Double.NaN;
    for (int facet = 0; facet < 8; facet++) {
      double z0 = ground.at(col, row);
      double z1 = ground.at(col + e1[facet][0], row - e1[facet][1]);
      double z2 = ground.at(col + e2[facet][0], row - e2[facet][1]);
      double r = Math.atan2(z1 - z2, z0 - z1);
      double s = Math.hypot(z0 - z1, z1 - z2);
      if (r < 0) {
        r = 0;
        s = z0 - z1;
      } else if (r > Math.PI / 4) {
        r = Math.PI / 4;
        s = (z0 - z2) / Math.sqrt(2);
      }
      if (s > steepest) {
        steepest = s;
        angle = af[facet] * r + ac[facet] * Math.PI / 2;
      }
    }
    return 90 - Math.toDegrees(angle);
  }

  /** The angle between two bearings, 0 to 180. */
  private static double between(double a, double b) {
    return Math.abs(Math.IEEEremainder(a - b, 360));
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

  /**
   * On a plane the way from one contour to another is as long as they are apart, whichever way the
   * plane falls; on level ground a step is as long as it is.
   */
  @Test
  void aWayIsAsLongAsTheContoursAreApart() {
    int n = 201;
    for (int degrees = 0; degrees < 360; degrees += 7) {
      double east = Math.sin(Math.toRadians(degrees));
      double north = Math.cos(Math.toRadians(degrees));
      ElevationGrid ground = Grids.surface(n, n, 1, (x, y) -> 50 - 0.02 * (east * x + north * y));
      FlowField flow = FlowRouter.of(ground);
      int cell = n * (n / 2) + n / 2;
      double sum = 0;
      double steps = 0;
      int at = cell;
      for (int i = 0; i < 60; i++) {
        sum += DInfinity.advanceM(ground.z(), flow, at);
        steps += flow.stepM(at);
        at = flow.receiver(at);
      }
      double apart = (ground.z()[cell] - ground.z()[at]) / 0.02;
      assertEquals(apart, sum, 0.002 * apart, degrees + "°");
      assertTrue(steps >= 0.999 * sum && steps < 1.10 * sum, degrees + "°");
    }
    ElevationGrid level = Grids.surface(5, 5, 1, (x, y) -> 3);
    FlowField flow = FlowRouter.of(level);
    assertEquals(flow.stepM(12), DInfinity.advanceM(level.z(), flow, 12), 1e-12);
  }
}
