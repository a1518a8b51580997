package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;
import org.yardfall.elevation.GridFrame;

class CellOutlineTest {

  @Test
  void outlinesFollowTheCells() throws ParseException {
    check("POLYGON ((0 2, 2 2, 2 1, 1 1, 1 0, 0 0, 0 2))", "##", "#.");
    check("MULTIPOLYGON (((0 2, 1 2, 1 1, 0 1, 0 2)), ((1 1, 2 1, 2 0, 1 0, 1 1)))", "#.", ".#");
    check("POLYGON ((0 3, 3 3, 3 0, 0 0, 0 3), (1 2, 1 1, 2 1, 2 2, 1 2))", "###", "#.#", "###");
    check("POLYGON EMPTY", "..");
  }

  @Test
  void aRingOfCellsClosedByACornerIsValid() {
    Geometry ring = outline("###", "#.#", "##.");
    assertTrue(ring.isValid());
    assertEquals(7, ring.getArea());
    assertTrue(outline("####", "#.##", "##.#", "####").isValid());
  }

  @Test
  void anySetOfCellsGivesAValidOutlineOfItsArea() {
    Random random = new Random(6);
    for (int i = 0; i < 2000; i++) {
      int cols = 1 + random.nextInt(9);
      int rows = 1 + random.nextInt(9);
      double share = random.nextDouble();
      int[] cells =
          IntStream.range(0, cols * rows).filter(c -> random.nextDouble() < share).toArray();
      GridFrame frame = new GridFrame(cols, rows, 10, 20, 0.5);
      Geometry outline = CellOutline.of(frame, cells);
      assertTrue(outline.isValid(), outline::toString);
      assertEquals(cells.length * 0.25, outline.getArea(), 1e-12);
      assertTrue(Arrays.equals(cells, CellsWithin.of(frame, outline)), outline::toString);
    }
  }

  /** A disc of 600 cells radius on 9 million: blocks of 3 by 3 cells give it to their width. */
  @Test
  void onALargeGridOutlinesAreThinnedToBlocks() {
    GridFrame frame = new GridFrame(3000, 3000, 0, 3000, 1);
    int[] disc =
        IntStream.range(0, 9_000_000)
            .filter(c -> Math.hypot(c % 3000 - 1500, c / 3000 - 1500) < 600)
            .toArray();
    Geometry thinned = CellOutline.thinned(frame, disc);
    Geometry exact = CellOutline.of(frame, disc);
    assertTrue(thinned.isValid());
    assertTrue(thinned.getNumPoints() * 2 < exact.getNumPoints());
    assertEquals(exact.getArea(), thinned.getArea(), 0.002 * exact.getArea());
    assertTrue(exact.buffer(4).contains(thinned) && thinned.buffer(4).contains(exact));
    int[] few = {7, 8};
    assertEquals(CellOutline.of(frame, few), CellOutline.thinned(frame, few));
  }

  private static void check(String expected, String... rows) throws ParseException {
    assertEquals(new WKTReader().read(expected).norm(), outline(rows).norm());
  }

  private static Geometry outline(String... rows) {
    int cols = rows[0].length();
    int[] cells =
        IntStream.range(0, cols * rows.length)
            .filter(c -> rows[c / cols].charAt(c % cols) == '#')
            .toArray();
    return CellOutline.of(new GridFrame(cols, rows.length, 0, rows.length, 1), cells);
  }
}
