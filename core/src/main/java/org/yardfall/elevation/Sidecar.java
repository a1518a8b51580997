package org.yardfall.elevation;

import java.nio.file.Path;

/** Files that belong to another by their name. */
final class Sidecar {

  private Sidecar() {}

  /** The file of the same name with another ending. */
  static Path of(Path file, String ending) {
    String name = file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    return file.resolveSibling((dot < 0 ? name : name.substring(0, dot)) + "." + ending);
  }
}
