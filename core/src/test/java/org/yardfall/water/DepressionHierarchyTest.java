package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Deque;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * The hierarchy against flooding by hand: for every level, the ground below it is cut into parts
 * that hang together, and a part that reaches the edge below that level is no depression.
 */
class DepressionHierarchyTest {

  @Test
  void twoPitsMergeBeforeTheySpill() {
    ElevationGrid ground = Grids.rows("9 9 9 9 9", "9 1 4 2 9", "9 9 9 9 7", "9 9 9 9 9");
    DepressionHierarchy d = DepressionHierarchy.of(ground);
    int merged = d.root(d.firstNode());
    assertEquals(7, d.spillM(merged));
    assertEquals(14, d.spillCell(merged));
    assertEquals(6, d.bottomCell(merged));
    assertEquals(4, d.spillM(d.left(merged)));
    assertEquals(4, d.spillM(d.right(merged)));
    assertEquals(d.pitOf(8), d.spillsInto(d.pitOf(6)));
    assertEquals(d.pitOf(6), d.spillsInto(d.pitOf(8)));
  }

  @Test
  void anInletIsAnOutlet() {
    ElevationGrid ground = Grids.rows("9 9 9 9 9", "9 1 4 2 9", "9 9 9 9 7", "9 9 9 9 9");
    DepressionHierarchy d = DepressionHierarchy.of(ground, new int[] {8});
    assertEquals(1, d.roots().length);
    assertEquals(4, d.spillM(d.pitOf(6)));
    assertEquals(2, d.filled()[8]);
    assertEquals(4, d.filled()[6]);
  }

  @Test
  void theHierarchyOfRandomGroundIsThatOfFloodingItLevelByLevel() {
    Random random = new Random(4);
    for (int i = 0; i < 10_000; i++) {
      int cols = 3 + random.nextInt(6);
      int rows = 3 + random.nextInt(6);
      // all different heights, so that there is one answer
      check(distinct(random, cols, rows, random.nextInt(3) * 0.04));
    }
  }

  private static ElevationGrid distinct(Random random, int cols, int rows, double holes) {
    float[] z = new float[cols * rows];
    for (int c = 0; c < z.length; c++) {
      z[c] = c;
    }
    for (int c = z.length - 1; c > 0; c--) {
      int other = random.nextInt(c + 1);
      float swap = z[c];
      z[c] = z[other];
      z[other] = swap;
    }
    for (int c = 0; c < z.length; c++) {
      z[c] = random.nextDouble() < holes ? Float.NaN : z[c];
    }
    return new ElevationGrid(new GridFrame(cols, rows, 0, rows, 1), z);
  }

  private static void check(ElevationGrid ground) {
    DepressionHierarchy d = DepressionHierarchy.of(ground);
    DepressionMeasures measures =
        new DepressionMeasures(d, ground.z(), WetCells.of(d, ground.z(), d.filled()));
    Set<String> found = new TreeSet<>();
    for (int n = d.firstNode(); n < d.nodes(); n++) {
      if (!d.isPit(n) && d.spillM(d.left(n)) == d.spillM(n)) {
        continue; // more than two meet over one cell: the tree joins them in twos
      }
      found.add(
          d.bottomCell(n)
              + " spills at "
              + d.spillM(n)
              + " cell "
              + d.spillCell(n)
              + " cells "
              + measures.cells[n]
              + " holds "
              + Math.round(measures.volumeM3[n]));
    }
    assertEquals(flooded(ground), found, () -> Arrays.toString(ground.z()));
  }

  /** Every depression, described as in {@link #check}. */
  private static Set<String> flooded(ElevationGrid ground) {
    Set<String> all = new TreeSet<>();
    float[] z = ground.z();
    for (int spill = 0; spill < z.length; spill++) {
      if (Float.isNaN(z[spill])) {
        continue;
      }
      // cells below this one, in parts; each part that it joins to another, or to the edge, ends
      BitSet seen = new BitSet();
      Set<String> parts = new TreeSet<>();
      boolean outlet =
          Flood.onEdge(ground, spill % ground.frame().cols(), spill / ground.frame().cols());
      int closedParts = 0;
      int openParts = outlet ? 1 : 0;
      for (int start : around(ground, spill)) {
        if (!seen.get(start) && z[start] < z[spill]) {
          BitSet part = part(ground, start, z[spill]);
          seen.or(part);
          if (part.stream()
              .anyMatch(
                  c ->
                      Flood.onEdge(ground, c % ground.frame().cols(), c / ground.frame().cols()))) {
            openParts++;
          } else {
            closedParts++;
            parts.add(describe(z, part, spill));
          }
        }
      }
      if (closedParts + openParts > 1) {
        all.addAll(parts);
      }
    }
    return all;
  }

  private static String describe(float[] z, BitSet part, int spill) {
    int bottom = part.stream().reduce((a, b) -> z[b] < z[a] ? b : a).orElseThrow();
    double volume = part.stream().mapToDouble(c -> z[spill] - z[c]).sum();
    return bottom
        + " spills at "
        + z[spill]
        + " cell "
        + spill
        + " cells "
        + part.cardinality()
        + " holds "
        + Math.round(volume);
  }

  private static BitSet part(ElevationGrid ground, int start, float below) {
    BitSet part = new BitSet();
    Deque<Integer> open = new ArrayDeque<>(Set.of(start));
    part.set(start);
    while (!open.isEmpty()) {
      for (int n : around(ground, open.remove())) {
        if (ground.z()[n] < below && !part.get(n)) {
          part.set(n);
          open.add(n);
        }
      }
    }
    return part;
  }

  private static int[] around(ElevationGrid ground, int c) {
    GridFrame frame = ground.frame();
    int col = c % frame.cols();
    int row = c / frame.cols();
    int[] cells = new int[8];
    int size = 0;
    for (int r = row - 1; r <= row + 1; r++) {
      for (int k = col - 1; k <= col + 1; k++) {
        if (frame.has(k, r) && (r != row || k != col)) {
          cells[size++] = r * frame.cols() + k;
        }
      }
    }
    return Arrays.copyOf(cells, size);
  }
}
