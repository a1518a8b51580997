package org.yardfall.water;

import java.util.Arrays;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * The lowest pass between every two neighbouring basins, and from every basin over the edge of the
 * known ground. The elevation of a pass is that of the higher of its two cells. An open-addressing
 * table by pair of labels; of several equally low passes the first in the order of cells is kept.
 */
final class Passes {

  /** Direction of a pass over the edge of the known ground. */
  static final byte OVER_THE_EDGE = -1;

  private long[] pair = new long[1 << 10]; // smaller label in the high half; 0 is free
  private int[] place = new int[1 << 10];

  private long[] pairs = new long[1 << 9];
  private float[] elevation = new float[1 << 9];
  private int[] cell = new int[1 << 9];
  private byte[] way = new byte[1 << 9];
  private int size;

  private long lastPair;
  private int lastPlace;

  /** The passes between the basins of some ground. On all cores. */
  static Passes of(ElevationGrid ground, Basins basins) {
    GridFrame frame = ground.frame();
    Passes[] parts = new Passes[Stripes.count(frame.cols(), frame.rows())];
    Stripes.run(
        frame.cols(),
        frame.rows(),
        (stripe, from, to) -> {
          Passes part = new Passes();
          part.scan(ground, basins.label(), from, to);
          parts[stripe] = part;
        });
    Passes all = parts[0];
    for (int i = 1; i < parts.length; i++) {
      all.add(parts[i]);
      parts[i] = null;
    }
    return all;
  }

  private void scan(ElevationGrid ground, int[] label, int fromRow, int toRow) {
    int cols = ground.frame().cols();
    int rows = ground.frame().rows();
    float[] z = ground.z();
    for (int row = fromRow; row < toRow; row++) {
      boolean last = row == rows - 1;
      for (int col = 0; col < cols; col++) {
        int c = row * cols + col;
        int a = label[c];
        if (a == Basins.UNKNOWN) {
          unknown(ground.frame(), z, label, col, row);
          continue;
        }
        boolean east = col < cols - 1;
        boolean west = col > 0;
        if (!east || !west || last || row == 0) {
          over(a, z, c);
        }
        if (east && label[c + 1] != a) {
          between(a, label[c + 1], z, c, c + 1, 0);
        }
        if (!last) {
          if (west && label[c + cols - 1] != a) {
            between(a, label[c + cols - 1], z, c, c + cols - 1, 5);
          }
          if (label[c + cols] != a) {
            between(a, label[c + cols], z, c, c + cols, 6);
          }
          if (east && label[c + cols + 1] != a) {
            between(a, label[c + cols + 1], z, c, c + cols + 1, 7);
          }
        }
      }
    }
  }

  private void unknown(GridFrame frame, float[] z, int[] label, int col, int row) {
    for (int k = 0; k < Neighbours.COUNT; k++) {
      int col2 = col + Neighbours.DCOL[k];
      int row2 = row + Neighbours.DROW[k];
      if (frame.has(col2, row2)) {
        int n = row2 * frame.cols() + col2;
        if (label[n] != Basins.UNKNOWN) {
          over(label[n], z, n);
        }
      }
    }
  }

  private void over(int a, float[] z, int c) {
    if (a != Basins.OUTSIDE) {
      offer((long) Basins.OUTSIDE << 32 | a, z[c], c, OVER_THE_EDGE);
    }
  }

  private void between(int a, int b, float[] z, int c, int n, int k) {
    if (b != Basins.UNKNOWN) {
      offer((long) Math.min(a, b) << 32 | Math.max(a, b), Math.max(z[c], z[n]), c, (byte) k);
    }
  }

  private void offer(long key, float height, int c, byte k) {
    int i = key == lastPair ? lastPlace : find(key);
    lastPair = key;
    lastPlace = i;
    if (height < elevation[i]) {
      elevation[i] = height;
      cell[i] = c;
      way[i] = k;
    }
  }

  private int find(long key) {
    int mask = pair.length - 1;
    int slot = slot(key, mask);
    while (pair[slot] != 0) {
      if (pair[slot] == key) {
        return place[slot];
      }
      slot = (slot + 1) & mask;
    }
    if (size == pairs.length) {
      grow();
      mask = pair.length - 1;
      slot = slot(key, mask);
      while (pair[slot] != 0) {
        slot = (slot + 1) & mask;
      }
    }
    pair[slot] = key;
    place[slot] = size;
    pairs[size] = key;
    elevation[size] = Float.POSITIVE_INFINITY;
    return size++;
  }

  private void grow() {
    int room = size * 2;
    pairs = Arrays.copyOf(pairs, room);
    elevation = Arrays.copyOf(elevation, room);
    cell = Arrays.copyOf(cell, room);
    way = Arrays.copyOf(way, room);
    pair = new long[room * 2];
    place = new int[room * 2];
    int mask = pair.length - 1;
    for (int i = 0; i < size; i++) {
      int slot = slot(pairs[i], mask);
      while (pair[slot] != 0) {
        slot = (slot + 1) & mask;
      }
      pair[slot] = pairs[i];
      place[slot] = i;
    }
  }

  private static int slot(long key, int mask) {
    long mixed = key * 0x9E3779B97F4A7C15L;
    return (int) (mixed >>> 32) & mask;
  }

  private void add(Passes other) {
    for (int i = 0; i < other.size; i++) {
      offer(other.pairs[i], other.elevation[i], other.cell[i], other.way[i]);
    }
  }

  /** Number of passes. */
  int size() {
    return size;
  }

  /** The passes from low to high, equal ones as first met. */
  int[] lowestFirst() {
    long[] keys = new long[size];
    for (int i = 0; i < size; i++) {
      keys[i] = LeastFirst.key(elevation[i], i);
    }
    Arrays.parallelSort(keys);
    int[] order = new int[size];
    for (int i = 0; i < size; i++) {
      order[i] = (int) keys[i];
    }
    return order;
  }

  /** Smaller label of the pair that a pass joins. */
  int smaller(int pass) {
    return (int) (pairs[pass] >>> 32);
  }

  /** Larger label of the pair that a pass joins. */
  int larger(int pass) {
    return (int) pairs[pass];
  }

  /** Elevation of a pass in metres. */
  float elevation(int pass) {
    return elevation[pass];
  }

  /** The first cell of a pass. */
  int cell(int pass) {
    return cell[pass];
  }

  /** The direction from the first cell to the second, or {@link #OVER_THE_EDGE}. */
  byte way(int pass) {
    return way[pass];
  }
}
