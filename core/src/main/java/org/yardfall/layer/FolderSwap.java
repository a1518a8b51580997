package org.yardfall.layer;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * Replaces a folder as a whole: the new content is gathered beside it and put in its place by
 * renaming, so that whoever looks sees the old content or the new, never a mixture.
 *
 * <p>A folder that cannot be renamed (the root of a mounted volume, or one in a parent that must
 * not be written to) is filled by renaming its entries instead; only the moment between those
 * renames is then not covered.
 */
final class FolderSwap implements AutoCloseable {

  private final Path target;
  private final boolean inside;
  private final Path fresh;
  private final Path old;
  private Path firstMade;

  /** Prepares the replacement of a folder, which need not exist yet. */
  FolderSwap(Path folder) throws IOException {
    Path absolute = folder.toAbsolutePath().normalize();
    target = Files.exists(absolute) ? absolute.toRealPath() : absolute;
    Path parent = target.getParent() == null ? target : target.getParent();
    inside = Files.exists(target) && !isRenamable(target, parent);
    makeParents(parent);
    Path home = inside ? target : parent;
    String mark = "." + target.getFileName() + "-" + Long.toHexString(System.nanoTime());
    fresh = home.resolve(mark + ".part");
    old = home.resolve(mark + ".old");
    try {
      Files.createDirectory(fresh);
    } catch (IOException e) {
      close();
      throw e;
    }
  }

  /** The folder to fill. */
  Path fresh() {
    return fresh;
  }

  /** Puts the new content in place of the old. */
  void commit() throws IOException {
    if (inside) {
      Files.createDirectory(old);
      List<Path> before = entries(target);
      before.remove(fresh);
      before.remove(old);
      moveAll(before, old);
      try {
        moveAll(entries(fresh), target);
      } catch (IOException e) {
        moveAll(entries(old), target);
        throw e;
      }
    } else if (Files.exists(target)) {
      Files.move(target, old);
      try {
        Files.move(fresh, target);
      } catch (IOException e) {
        Files.move(old, target);
        throw e;
      }
    } else {
      Files.move(fresh, target);
    }
    firstMade = null;
  }

  /**
   * Takes away what was gathered, and after a commit the old content. Where that fails, a hidden
   * folder is left over, which is no reason to call the job failed or to hide why it did.
   */
  @Override
  public void close() {
    deleteIfPossible(fresh);
    deleteIfPossible(old);
    deleteIfPossible(firstMade);
  }

  private void makeParents(Path parent) throws IOException {
    Path made = null;
    for (Path at = parent; at != null && !Files.exists(at); at = at.getParent()) {
      made = at;
    }
    firstMade = made;
    Files.createDirectories(parent);
  }

  private static boolean isRenamable(Path folder, Path parent) throws IOException {
    return !folder.equals(parent)
        && Files.isWritable(parent)
        && Files.getFileStore(folder).equals(Files.getFileStore(parent));
  }

  private static List<Path> entries(Path folder) throws IOException {
    try (Stream<Path> entries = Files.list(folder)) {
      return new ArrayList<>(entries.sorted().toList());
    }
  }

  private static void moveAll(List<Path> entries, Path into) throws IOException {
    for (Path entry : entries) {
      Files.move(entry, into.resolve(entry.getFileName()));
    }
  }

  private static void deleteIfPossible(Path folder) {
    if (folder == null || !Files.exists(folder)) {
      return;
    }
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(path);
      }
    } catch (IOException | UncheckedIOException e) {
      // left over, see close()
    }
  }
}
