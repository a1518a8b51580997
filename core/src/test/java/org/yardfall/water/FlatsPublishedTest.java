package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.yardfall.elevation.ElevationGrid;

/**
 * Flats against the grids that the authors of Barnes, Lehman &amp; Mulla 2014 (Computers &amp;
 * Geosciences 62) keep with their reference implementation as worked examples: elevations and the
 * right directions, cell by cell (see NOTICE beside the files).
 */
class FlatsPublishedTest {

  /** East, north-east, north … counter-clockwise. */
  private static final String ARROWS = "→↗↑↖←↙↓↘";

  private static final String NOWHERE = "·";

  /** A winding valley, one flat with islands of higher ground and a wide lower edge. */
  @Test
  void theValleyDrainsAsPublished() throws IOException {
    check("flats_valley.txt", 4, 314, 0);
  }

  /**
   * Flats of several heights, with one and with two outlets, and one without any. Five cells lie
   * midway between two ways that are equally good, and take the mirror image of the published one.
   */
  @Test
  void severalFlatsDrainAsPublished() throws IOException {
    check("flats_several.txt", 4, 96, 5);
  }

  /**
   * The flat of 5 by 5 cells that the authors' collection names after Garbrecht &amp; Martz 1997
   * (Journal of Hydrology 193; the paper itself was not read); directions as a test of another open
   * implementation of the 2014 method gives them.
   */
  @Test
  void theFlatOfFiveByFiveDrainsAsPublished() {
    ElevationGrid ground =
        Grids.rows(
            "9 9 9 9 9 9 9",
            "9 6 6 6 6 6 9",
            "8 6 6 6 6 6 9",
            "8 6 6 6 6 6 9",
            "7 6 6 6 6 6 8",
            "7 6 6 6 6 6 8",
            "7 7 5 7 7 8 8");
    List<String> arrows =
        List.of(
            "· · · · · · ·",
            "· ↘ ↓ ↓ ↓ ↙ ·",
            "· ↘ ↘ ↓ ↙ ↙ ·",
            "· ↘ ↓ ↓ ↓ ↙ ·",
            "· ↓ ↓ ↓ ↙ ← ·",
            "· ↘ ↓ ↙ ← ↖ ·",
            "· · · · · · ·");
    check(ground, arrows, 7, 25, 0);
  }

  private static void check(String file, float wall, int flatCells, int mirrored)
      throws IOException {
    try (InputStream in = FlatsPublishedTest.class.getResourceAsStream(file)) {
      String[] parts =
          new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\\R\\s*\\R", -1);
      check(
          Grids.rows(parts[0].lines().toArray(String[]::new)),
          parts[1].lines().toList(),
          wall,
          flatCells,
          mirrored);
    }
  }

  /**
   * Compares the cells lower than the walls; on a wall several falls may be equally steep, and at
   * the rim the reference lets all water leave.
   */
  private static void check(
      ElevationGrid ground, List<String> arrows, float wall, int flatCells, int mirrored) {
    byte[] toward = Basins.of(ground).toward();
    int cols = ground.frame().cols();
    int same = 0;
    int cells = 0;
    for (int row = 1; row < ground.frame().rows() - 1; row++) {
      String[] published = arrows.get(row).split(" ", -1);
      for (int col = 1; col < cols - 1; col++) {
        if (ground.at(col, row) < wall) {
          byte k = toward[row * cols + col];
          cells++;
          if (published[col].equals(arrow(k))) {
            same++;
          } else {
            assertEquals(published[col], arrow((12 - k) % 8), "nor the mirror image");
          }
        }
      }
    }
    assertEquals(flatCells, cells);
    assertEquals(flatCells - mirrored, same);
  }

  private static String arrow(int k) {
    return k < 8 ? ARROWS.substring(k, k + 1) : NOWHERE;
  }
}
