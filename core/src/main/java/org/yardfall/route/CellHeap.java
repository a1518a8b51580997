package org.yardfall.route;

import java.util.Arrays;

/**
 * A heap of whole numbers by a key, least first; equal keys come in order of the number, so that
 * results never depend on the order of insertion.
 */
final class CellHeap {

  /** Children of a place: with four of them the heap is half as deep as with two. */
  private static final int CHILDREN = 4;

  private double[] key = new double[64];
  private int[] item = new int[64];
  private int size;

  boolean isEmpty() {
    return size == 0;
  }

  double topKey() {
    return key[0];
  }

  void add(int what, double by) {
    if (size == item.length) {
      key = Arrays.copyOf(key, 2 * size);
      item = Arrays.copyOf(item, 2 * size);
    }
    int i = size++;
    while (i > 0) {
      int parent = (i - 1) / CHILDREN;
      if (!before(by, what, key[parent], item[parent])) {
        break;
      }
      key[i] = key[parent];
      item[i] = item[parent];
      i = parent;
    }
    key[i] = by;
    item[i] = what;
  }

  int remove() {
    int top = item[0];
    size--;
    double by = key[size];
    int what = item[size];
    int i = 0;
    while (true) {
      int first = CHILDREN * i + 1;
      if (first >= size) {
        break;
      }
      int child = first;
      for (int c = first + 1; c < Math.min(size, first + CHILDREN); c++) {
        if (before(key[c], item[c], key[child], item[child])) {
          child = c;
        }
      }
      if (!before(key[child], item[child], by, what)) {
        break;
      }
      key[i] = key[child];
      item[i] = item[child];
      i = child;
    }
    key[i] = by;
    item[i] = what;
    return top;
  }

  private static boolean before(double key, int item, double otherKey, int otherItem) {
    return key < otherKey || (key == otherKey && item < otherItem);
  }
}
