package org.yardfall;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ForkJoinPool;
import java.util.function.Supplier;

/**
 * Runs work whose parallel streams lie one within another, so that all cores share it. In a pool of
 * its own, as a thread that calls a parallel stream from outside a pool helps only with that stream
 * and idles while another thread goes through a stream within.
 */
final class AllCores {

  private AllCores() {}

  /** Does the work; what it throws is thrown here. */
  static <T> T run(Supplier<T> work) {
    ForkJoinPool pool = new ForkJoinPool(Runtime.getRuntime().availableProcessors());
    try {
      return CompletableFuture.supplyAsync(work, pool).join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException fault) {
        throw fault;
      }
      if (e.getCause() instanceof Error fault) {
        throw fault;
      }
      throw e;
    } finally {
      pool.shutdown();
    }
  }
}
