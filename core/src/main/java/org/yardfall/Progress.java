package org.yardfall;

/** Told what long work is at; for people, never for results. */
@FunctionalInterface
public interface Progress {

  /** Nobody is told. */
  Progress SILENT = stage -> {};

  /** A stage begins, for example {@code surface water}. */
  void stage(String stage);
}
