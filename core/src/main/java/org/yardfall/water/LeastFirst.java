package org.yardfall.water;

import java.util.Arrays;

/**
 * A binary heap of whole numbers by a height, least first; of equal heights the smaller number
 * comes first. A height and its number make one long, so that comparing is one instruction.
 */
final class LeastFirst {

  private long[] keys = new long[64];
  private int size;

  /** A long that sorts as the height does, then as the number; −0 and 0 are one height. */
  static long key(float height, int number) {
    int bits = Float.floatToIntBits(height + 0f);
    return (long) (bits ^ (bits >> 31 & 0x7fffffff)) << 32 | number;
  }

  boolean isEmpty() {
    return size == 0;
  }

  /** The least height. */
  float leastHeight() {
    int bits = (int) (keys[0] >> 32);
    return Float.intBitsToFloat(bits ^ (bits >> 31 & 0x7fffffff));
  }

  /**
   * Puts in a number of 0 or more.
   *
   * @param height not NaN
   */
  void add(float height, int number) {
    if (size == keys.length) {
      keys = Arrays.copyOf(keys, size * 2);
    }
    long key = key(height, number);
    int i = size++;
    while (i > 0) {
      int above = (i - 1) >>> 1;
      if (keys[above] <= key) {
        break;
      }
      keys[i] = keys[above];
      i = above;
    }
    keys[i] = key;
  }

  /** Takes out the number of the least height. */
  int remove() {
    int number = (int) keys[0];
    long key = keys[--size];
    int i = 0;
    for (int below = 1; below < size; below = 2 * i + 1) {
      if (below + 1 < size && keys[below + 1] < keys[below]) {
        below++;
      }
      if (keys[below] >= key) {
        break;
      }
      keys[i] = keys[below];
      i = below;
    }
    keys[i] = key;
    return number;
  }
}
