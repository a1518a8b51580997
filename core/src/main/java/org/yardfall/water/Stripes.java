package org.yardfall.water;

import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;

/**
 * Work on a grid by stripes of rows, on all cores where the grid is large enough for that to pay.
 * The stripes depend on the grid alone, so whatever is collected by stripe and joined in their
 * order is the same on any number of cores.
 */
final class Stripes {

  private static final int ROWS_AT_LEAST = 64;
  private static final int STRIPES_AT_MOST = 64;
  private static final int CELLS_WORTH_IT = 1 << 17;

  /** Work on the rows from the first, up to but without the last. */
  interface Work {
    void on(int stripe, int fromRow, int toRow);
  }

  private Stripes() {}

  /** Number of stripes for a grid. */
  static int count(int cols, int rows) {
    if ((long) cols * rows < CELLS_WORTH_IT) {
      return 1;
    }
    return Math.max(1, Math.min(STRIPES_AT_MOST, rows / ROWS_AT_LEAST));
  }

  /** Does the work on every stripe; returns when all is done. */
  static void run(int cols, int rows, Work work) {
    int n = count(cols, rows);
    if (n == 1) {
      work.on(0, 0, rows);
      return;
    }
    // Dealt one by one, as some hold far more work than others.
    AtomicInteger next = new AtomicInteger();
    IntStream.rangeClosed(0, ForkJoinPool.getCommonPoolParallelism())
        .parallel()
        .forEach(
            worker -> {
              for (int s = next.getAndIncrement(); s < n; s = next.getAndIncrement()) {
                work.on(s, (int) ((long) rows * s / n), (int) ((long) rows * (s + 1) / n));
              }
            });
  }
}
