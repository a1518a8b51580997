package org.yardfall.water;

import static org.yardfall.water.SteepestDescent.LEVEL;

import java.util.Arrays;
import org.yardfall.elevation.GridFrame;

/**
 * Drains flats without touching an elevation: toward their lower edge and away from their higher
 * edge (Barnes, Lehman &amp; Mulla 2014, "An efficient assignment of drainage direction over flat
 * surfaces in raster digital elevation models", Computers &amp; Geosciences 62). Each cell of a
 * flat gets twice its distance from the lower edge, plus how much nearer it is to higher ground
 * than the flat's remotest cell; water runs to the neighbour with the least of that. Every step
 * toward the lower edge takes off two and gives back at most one, so there are no loops.
 *
 * <p>A flat without a lower edge is a pit; its cells stay {@link SteepestDescent#LEVEL}. O(cells in
 * flats), on one core: draining by stripes the flats that lie within one was tried and took longer,
 * as most cells of large ponds are in flats that reach over several.
 */
final class Flats {

  private final float[] z;
  private final byte[] toward;
  private final int[] offset;

  /** By cell: {@link #base} + its place in the flat that holds it, less in flats seen before. */
  private int[] place;

  private int base = 1;

  private int[] cells = new int[1024];
  private int[] queue = new int[1024];
  private int[] fromLow = new int[1024];
  private int[] fromHigh = new int[1024];
  private int size;

  private Flats(GridFrame frame, float[] z, byte[] toward) {
    this.z = z;
    this.toward = toward;
    this.offset = Neighbours.offsets(frame.cols());
  }

  /**
   * Gives the level cells of every flat that has a lower edge their direction.
   *
   * @param z the surface
   * @param toward directions by cell as {@link SteepestDescent} leaves them; changed in place
   */
  static void drain(GridFrame frame, float[] z, byte[] toward) {
    new Flats(frame, z, toward).drain();
  }

  private void drain() {
    for (int c = 0; c < toward.length; c++) {
      if (toward[c] == LEVEL && (place == null || place[c] == 0) && touchesEqual(c)) {
        if (place == null) {
          place = new int[toward.length];
        }
        collect(c);
        if (spread(fromLow)) {
          spread(fromHigh);
          direct();
        }
        base += size;
      }
    }
  }

  // A level cell never lies at the grid's rim (there its water leaves), so its neighbours exist.
  private boolean touchesEqual(int c) {
    for (int o : offset) {
      if (z[c + o] == z[c]) {
        return true;
      }
    }
    return false;
  }

  /**
   * Gathers the flat that holds a cell, with 1 for those beside cells of the same height that know
   * where to go, and those beside higher ground.
   */
  private void collect(int start) {
    size = 0;
    add(start);
    for (int i = 0; i < size; i++) {
      int c = cells[i];
      float here = z[c];
      for (int o : offset) {
        int n = c + o;
        if (z[n] > here) {
          fromHigh[i] = 1;
        } else if (z[n] == here) {
          if (toward[n] != LEVEL) {
            fromLow[i] = 1;
          } else if (place[n] < base) {
            add(n);
          }
        }
      }
    }
  }

  private void add(int c) {
    if (size == cells.length) {
      int larger = size * 2;
      cells = Arrays.copyOf(cells, larger);
      queue = Arrays.copyOf(queue, larger);
      fromLow = Arrays.copyOf(fromLow, larger);
      fromHigh = Arrays.copyOf(fromHigh, larger);
    }
    fromLow[size] = 0;
    fromHigh[size] = 0;
    place[c] = base + size;
    cells[size++] = c;
  }

  /** Counts on from the cells at distance 1; false if there are none. */
  private boolean spread(int[] distance) {
    int tail = 0;
    for (int i = 0; i < size; i++) {
      if (distance[i] == 1) {
        queue[tail++] = i;
      }
    }
    for (int head = 0; head < tail; head++) {
      int i = queue[head];
      int c = cells[i];
      int next = distance[i] + 1;
      for (int o : offset) {
        int j = place[c + o] - base;
        if (j >= 0 && distance[j] == 0) {
          distance[j] = next;
          queue[tail++] = j;
        }
      }
    }
    return tail > 0;
  }

  private void direct() {
    int farthest = 0;
    for (int i = 0; i < size; i++) {
      farthest = Math.max(farthest, fromHigh[i]);
    }
    for (int i = 0; i < size; i++) {
      // without higher ground beside the flat there is nothing to keep away from
      fromHigh[i] = 2 * fromLow[i] + (fromHigh[i] == 0 ? 0 : farthest - fromHigh[i]);
    }
    for (int i = 0; i < size; i++) {
      toward[cells[i]] = fromLow[i] == 1 ? out(cells[i]) : downFrom(i);
    }
  }

  /** To the neighbour of the same height beyond the flat, which knows where to go. */
  private byte out(int c) {
    for (int k : Neighbours.SIDES_FIRST) {
      if (z[c + offset[k]] == z[c] && place[c + offset[k]] < base) {
        return (byte) k;
      }
    }
    throw new IllegalStateException("no way out of a flat at cell " + c);
  }

  private byte downFrom(int i) {
    int least = fromHigh[i];
    byte best = LEVEL;
    for (int k : Neighbours.SIDES_FIRST) {
      int j = place[cells[i] + offset[k]] - base;
      if (j >= 0 && fromHigh[j] < least) {
        least = fromHigh[j];
        best = (byte) k;
      }
    }
    return best;
  }
}
