package org.yardfall.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** Starts the packaged command as its users do and catches what it says. */
final class Starter {

  /**
   * What a run left behind.
   *
   * @param exit the exit code
   * @param out what it printed
   * @param err what it complained of
   */
  record Run(int exit, String out, String err) {

    /** The lines on stderr. */
    List<String> complaints() {
      return err.lines().toList();
    }
  }

  /** The packaged starter. */
  static final Path YARDFALL =
      Path.of("target", "yardfall", "bin", "yardfall").toAbsolutePath().normalize();

  /** The samples. */
  static final Path SAMPLES = Path.of("..", "samples").toAbsolutePath().normalize();

  private Starter() {}

  /** Copies a sample's files into a folder, for a test to change. */
  static void copySample(String name, Path folder) throws IOException {
    try (Stream<Path> files = Files.list(SAMPLES.resolve(name))) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        Files.copy(file, folder.resolve(file.getFileName()));
      }
    }
  }

  /** Runs the command in the given working directory. */
  static Run run(Path directory, Object... arguments) throws IOException {
    List<String> command = new ArrayList<>(List.of(YARDFALL.toString()));
    for (Object argument : arguments) {
      command.add(argument.toString());
    }
    return start(directory, command, Map.of());
  }

  /** Runs any command line with changes to the environment. */
  static Run start(Path directory, List<String> command, Map<String, String> environment)
      throws IOException {
    Path out = Files.createTempFile("yardfall-test", ".out");
    Path err = Files.createTempFile("yardfall-test", ".err");
    try {
      ProcessBuilder builder =
          new ProcessBuilder(command)
              .directory(directory.toFile())
              .redirectOutput(out.toFile())
              .redirectError(err.toFile());
      builder.environment().putAll(environment);
      Process process = builder.start();
      process.getOutputStream().close();
      if (!process.waitFor(5, TimeUnit.MINUTES)) {
        process.destroyForcibly();
        throw new IOException("still running after five minutes: " + command);
      }
      return new Run(
          process.exitValue(),
          Files.readString(out, StandardCharsets.UTF_8),
          Files.readString(err, StandardCharsets.UTF_8));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException(e);
    } finally {
      Files.deleteIfExists(out);
      Files.deleteIfExists(err);
    }
  }
}
