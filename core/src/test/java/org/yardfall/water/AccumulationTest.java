package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.BitSet;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

class AccumulationTest {

  @Test
  void aPlaneGathersRowByRow() {
    ElevationGrid ground = Grids.surface(4, 3, 0.5, (x, y) -> -x);
    double[] area = Accumulation.areaM2(FlowRouter.of(ground));
    for (int row = 0; row < 3; row++) {
      for (int col = 0; col < 4; col++) {
        assertEquals(0.25 * (col + 1), area[row * 4 + col]);
      }
    }
  }

  @Test
  void unknownGroundCountsForNothing() {
    double[] area = Accumulation.areaM2(FlowRouter.of(Grids.rows("3 2 .", "3 2 .")));
    assertArrayEquals(new double[] {1, 2, 0, 1, 2, 0}, area);
  }

  @Test
  void randomGroundGathersAsByFollowingEveryCell() {
    Random random = new Random(8);
    for (int i = 0; i < 500; i++) {
      ElevationGrid ground =
          Grids.random(random, 1 + random.nextInt(15), 1 + random.nextInt(15), i % 2 * 4, 0.03);
      FlowField flow = FlowRouter.of(ground);
      double[] expected = new double[ground.z().length];
      BitSet edge = new BitSet();
      for (int start = 0; start < expected.length; start++) {
        boolean known = !Float.isNaN(ground.z()[start]);
        int cols = ground.frame().cols();
        boolean fromEdge = known && Flood.onEdge(ground, start % cols, start / cols);
        for (int c = known ? start : -1; c >= 0; c = flow.receiver(c)) {
          expected[c]++;
          edge.set(c, edge.get(c) || fromEdge);
        }
      }
      assertArrayEquals(expected, Accumulation.areaM2(flow));
      assertEquals(edge, EdgeReach.of(flow));
    }
  }

  @Test
  void countsOfMoreThanTwoThousandMillionStayExact() {
    // one column of cells each bringing 70,000 x 70,000: the sum passes 32-bit counters
    FlowField flow = new FlowField(new GridFrame(3, 1, 0, 1, 1), new byte[] {0, 0, 8});
    double each = 70_000.0 * 70_000.0;
    assertArrayEquals(
        new double[] {each, 2 * each, 3 * each},
        Accumulation.of(flow, new double[] {each, each, each}));
  }
}
