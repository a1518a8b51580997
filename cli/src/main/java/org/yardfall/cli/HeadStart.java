package org.yardfall.cli;

import java.io.IOException;
import org.yardfall.layer.ResultFolder;
import org.yardfall.sheet.Rehearsal;
import org.yardfall.site.CrsLookup;

/**
 * Loads on another core what a command will need, while it reads its arguments and its site. What
 * fails here fails again, with its message, where it is needed.
 */
final class HeadStart {

  private static Thread planes = new Thread();

  private HeadStart() {}

  /** Begins with what makes a CRS, and for a plan goes on with what the pages are drawn with. */
  static void begin(String[] args) {
    if (args.length < 2 || args[0].startsWith("-")) {
      return;
    }
    boolean pages = args[0].equals("plan");
    planes = daemon(HeadStart::planes);
    planes.start();
    if (pages) {
      daemon(HeadStart::pages).start();
    }
  }

  /**
   * Waits until a CRS could be made: libraries that load one another's classes must not do so on
   * two threads at once.
   */
  static void awaitPlanes() {
    try {
      planes.join();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static void planes() {
    CrsLookup.of("EPSG:32615");
  }

  private static void pages() {
    awaitPlanes();
    try {
      Rehearsal.draw();
      ResultFolder.prepare();
    } catch (IOException e) {
      return; // the pages will say so
    }
  }

  private static Thread daemon(Runnable work) {
    Thread thread = new Thread(work, "head start");
    thread.setDaemon(true);
    thread.setUncaughtExceptionHandler((t, fault) -> {});
    return thread;
  }
}
