package org.yardfall.cli;

import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarStyle;
import org.yardfall.Progress;

/** Shows on stderr what long work is at, where stderr is a terminal. */
final class TerminalProgress implements Progress, AutoCloseable {

  /** Set by the starter where stderr is a terminal, which Java itself cannot tell. */
  private static final String WATCHED = "yardfall.watched";

  private final ProgressBar bar;

  private TerminalProgress(ProgressBar bar) {
    this.bar = bar;
  }

  /** Progress of a command; silent where it was asked to be or nobody watches. */
  static TerminalProgress of(boolean quiet) {
    boolean watched = !quiet && Boolean.getBoolean(WATCHED);
    return new TerminalProgress(
        watched
            ? new ProgressBarBuilder()
                .setTaskName("yardfall")
                .setStyle(ProgressBarStyle.ASCII)
                .setUpdateIntervalMillis(200)
                .clearDisplayOnFinish()
                .build()
            : null);
  }

  @Override
  public void stage(String stage) {
    if (bar != null) {
      bar.setExtraMessage(stage);
      bar.refresh();
    }
  }

  @Override
  public void close() {
    if (bar != null) {
      bar.close();
    }
  }
}
