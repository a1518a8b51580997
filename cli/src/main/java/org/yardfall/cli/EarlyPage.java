package org.yardfall.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.FutureTask;
import org.yardfall.layer.ResultFolder;

/** A page made on a core that is idle, well before the folder it belongs into is written. */
final class EarlyPage {

  private final FutureTask<String> page;

  private EarlyPage(FutureTask<String> page) {
    this.page = page;
  }

  /** Begins to make a page. What becomes of it is told when it is written, if it ever is. */
  static EarlyPage begin(Callable<String> page) {
    FutureTask<String> task = new FutureTask<>(page);
    Thread thread = new Thread(task, "early page");
    thread.setDaemon(true);
    thread.start();
    return new EarlyPage(task);
  }

  /**
   * Writes the page, once it is made.
   *
   * @throws IOException if it could not be made or cannot be written
   */
  void write(Path file) throws IOException {
    Files.writeString(file, ResultFolder.outcome(page));
  }
}
