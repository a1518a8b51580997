package org.yardfall.water;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateList;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.GridFrame;

/**
 * The outline of a set of cells along their sides: a polygon, or a multipolygon where the set hangs
 * together by corners only or not at all. Rings are walked with the cells on the right; where two
 * cells of one part meet at a corner the walk keeps to the left, so that no ring touches itself and
 * the result is valid.
 */
public final class CellOutline {

  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  /** Cells of the largest grid whose outlines are drawn cell by cell. */
  private static final int DRAWN_BY_CELL = 4_000_000;

  private static final int BLOCKS_ABOUT = 1_000_000;

  // steps of the walk: east, south, west, north, in rows downward
  private static final int[] STEP_COL = {1, 0, -1, 0};
  private static final int[] STEP_ROW = {0, 1, 0, -1};

  private final GridFrame frame;
  private final int firstCol;
  private final int firstRow;
  private final int cols;
  private final int rows;

  /** By cell of the window, which has a margin of one: the number of its part, from 1 on. */
  private final int[] part;

  private final BitSet walked = new BitSet();

  private CellOutline(GridFrame frame, int[] cells) {
    this.frame = frame;
    Extent extent = Extent.of(frame, cells);
    firstCol = extent.minCol - 1;
    firstRow = extent.minRow - 1;
    cols = extent.maxCol - extent.minCol + 3;
    rows = extent.maxRow - extent.minRow + 3;
    part = new int[cols * rows];
    for (int c : cells) {
      int row = c / frame.cols();
      part[(row - firstRow) * cols + c - row * frame.cols() - firstCol] = 1;
    }
  }

  /**
   * The outline of some cells in metres of the working plane; empty for none.
   *
   * @param cells cell indices in any order
   */
  public static Geometry of(GridFrame frame, int[] cells) {
    if (cells.length == 0) {
      return GEOMETRY.createPolygon();
    }
    return new CellOutline(frame, cells).outline();
  }

  /**
   * The outline of some cells as a map of the whole grid needs it: of a large grid, along square
   * blocks of cells of which half or more are in the set. A set that fills no block so keeps its
   * own outline. O(cells).
   */
  static Geometry thinned(GridFrame frame, int[] cells) {
    int block = blockCells(frame);
    if (block == 1) {
      return of(frame, cells);
    }
    GridFrame blocks =
        new GridFrame(
            (frame.cols() + block - 1) / block,
            (frame.rows() + block - 1) / block,
            frame.westM(),
            frame.northM(),
            frame.cellM() * block);
    Extent extent = Extent.of(frame, cells);
    int firstCol = extent.minCol / block;
    int firstRow = extent.minRow / block;
    int width = extent.maxCol / block - firstCol + 1;
    int height = extent.maxRow / block - firstRow + 1;
    short[] held = new short[width * height];
    int row = 0;
    for (int c : cells) {
      row = rowOf(frame, c, row);
      int col = c - row * frame.cols();
      held[(row / block - firstRow) * width + col / block - firstCol]++;
    }
    int[] kept = new int[held.length];
    int size = 0;
    for (int i = 0; i < held.length; i++) {
      if (held[i] * 2 >= block * block) {
        kept[size++] = (firstRow + i / width) * blocks.cols() + firstCol + i % width;
      }
    }
    return size == 0 ? of(frame, cells) : of(blocks, Arrays.copyOf(kept, size));
  }

  /** The row of a cell, most often that of the cell before it. */
  private static int rowOf(GridFrame frame, int cell, int before) {
    int col = cell - before * frame.cols();
    return col >= 0 && col < frame.cols() ? before : cell / frame.cols();
  }

  /** The least and greatest columns and rows of some cells. */
  private record Extent(int minCol, int maxCol, int minRow, int maxRow) {

    static Extent of(GridFrame frame, int[] cells) {
      int minCol = Integer.MAX_VALUE;
      int maxCol = -1;
      int minRow = Integer.MAX_VALUE;
      int maxRow = -1;
      int row = 0;
      for (int c : cells) {
        row = rowOf(frame, c, row);
        int col = c - row * frame.cols();
        minCol = Math.min(minCol, col);
        maxCol = Math.max(maxCol, col);
        minRow = Math.min(minRow, row);
        maxRow = Math.max(maxRow, row);
      }
      return new Extent(minCol, maxCol, minRow, maxRow);
    }
  }

  /** How many cells wide the blocks are along which outlines are drawn; 1 for each cell. */
  static int blockCells(GridFrame frame) {
    return frame.size() <= DRAWN_BY_CELL
        ? 1
        : (int) Math.ceil(Math.sqrt((double) frame.size() / BLOCKS_ABOUT));
  }

  private Geometry outline() {
    int parts = numberParts();
    LinearRing[] shells = new LinearRing[parts];
    List<List<LinearRing>> holes = new ArrayList<>();
    for (int p = 0; p < parts; p++) {
      holes.add(new ArrayList<>());
    }
    for (int i = cols; i < part.length; i++) {
      if (part[i] != 0 && part[i - cols] != part[i] && !walked.get(i)) {
        LinearRing ring = walk(i);
        int p = part[i] - 1;
        if (Orientation.isCCW(ring.getCoordinateSequence())) {
          holes.get(p).add(ring);
        } else {
          shells[p] = ring;
        }
      }
    }
    Polygon[] polygons = new Polygon[parts];
    for (int p = 0; p < parts; p++) {
      polygons[p] = GEOMETRY.createPolygon(shells[p], holes.get(p).toArray(LinearRing[]::new));
    }
    return parts == 1 ? polygons[0] : GEOMETRY.createMultiPolygon(polygons);
  }

  /**
   * Numbers the parts that hang together by sides, in the order of their first cells: row by row,
   * with the numbers that prove to be one part joined under the least of them (Rosenfeld &amp;
   * Pfaltz 1966, "Sequential operations in digital picture processing", Journal of the ACM 13).
   */
  private int numberParts() {
    int[] joined = new int[64];
    int last = 0;
    for (int i = cols; i < part.length; i++) {
      if (part[i] == 0) {
        continue;
      }
      int west = part[i - 1];
      int north = part[i - cols];
      if (west == 0 && north == 0) {
        if (++last == joined.length) {
          joined = Arrays.copyOf(joined, last * 2);
        }
        joined[last] = last;
        part[i] = last;
      } else if (west == north || west == 0 || north == 0) {
        part[i] = Math.max(west, north);
      } else {
        int a = first(joined, west);
        int b = first(joined, north);
        part[i] = Math.min(a, b);
        joined[Math.max(a, b)] = part[i];
      }
    }
    int parts = 0;
    for (int n = 1; n <= last; n++) {
      joined[n] = joined[n] == n ? ++parts : joined[joined[n]];
    }
    for (int i = cols; i < part.length; i++) {
      part[i] = joined[part[i]];
    }
    return parts;
  }

  private static int first(int[] joined, int number) {
    int at = number;
    while (joined[at] != at) {
      joined[at] = joined[joined[at]];
      at = joined[at];
    }
    return at;
  }

  /** Walks the ring that passes east along the north side of a cell. */
  private LinearRing walk(int start) {
    int mine = part[start];
    int row = start / cols;
    int col = start - row * cols;
    CoordinateList ring = new CoordinateList();
    int way = 0;
    int here = start;
    // (col, row) is the window's corner at the north-west of the cell of that number
    do {
      if (way == 0) {
        walked.set(here);
      }
      col += STEP_COL[way];
      row += STEP_ROW[way];
      int left = ahead(col, row, way, 3);
      int right = ahead(col, row, way, 1);
      int turn = part[left] == mine ? 3 : part[right] == mine ? 0 : 1;
      if (turn != 0) {
        ring.add(corner(col, row));
      }
      way = (way + turn) & 3;
      here = ahead(col, row, way, 1);
    } while (here != start || way != 0);
    ring.closeRing();
    return GEOMETRY.createLinearRing(ring.toCoordinateArray());
  }

  /** The cell beyond a corner, to one side of the way (1 right, 3 left). */
  private int ahead(int col, int row, int way, int side) {
    int s = (way + side) & 3;
    int c = col - 1 + Math.max(0, STEP_COL[way] + STEP_COL[s]);
    int r = row - 1 + Math.max(0, STEP_ROW[way] + STEP_ROW[s]);
    return r * cols + c;
  }

  private Coordinate corner(int col, int row) {
    return new Coordinate(
        frame.westM() + (firstCol + col) * frame.cellM(),
        frame.northM() - (firstRow + row) * frame.cellM());
  }
}
