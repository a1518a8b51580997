package org.yardfall.samples;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SamplesTest {

  @Test
  void theCommittedSamplesAreWhatTheGeneratorMakes(@TempDir Path made) throws IOException {
    MakeSamples.make(made);
    List<Path> files;
    try (Stream<Path> walk = Files.walk(made)) {
      files = walk.filter(Files::isRegularFile).sorted().toList();
    }
    assertTrue(files.size() >= 20, "files: " + files);
    for (Path file : files) {
      Path committed = Path.of("..", "samples").resolve(made.relativize(file));
      assertArrayEquals(
          Files.readAllBytes(committed), Files.readAllBytes(file), committed.toString());
    }
  }
}
