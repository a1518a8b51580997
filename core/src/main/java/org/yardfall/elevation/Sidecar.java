package org.yardfall.elevation;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** Files that belong to another by their name. */
final class Sidecar {

  private Sidecar() {}

  /** The first that there is of the files of the same name with other endings. */
  static Optional<Path> of(Path file, List<String> endings) {
    String name = file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    String stem = dot < 0 ? name : name.substring(0, dot);
    return endings.stream()
        .map(ending -> file.resolveSibling(stem + "." + ending))
        .filter(Files::isRegularFile)
        .findFirst();
  }
}
