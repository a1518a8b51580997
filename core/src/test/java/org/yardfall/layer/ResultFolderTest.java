package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.site.BadInputException;
import org.yardfall.site.UnitSystem;

class ResultFolderTest {

  private static final ResultFolder.Part FULL_DISK =
      folder -> {
        Files.writeString(folder.resolve("plan.pdf"), "half");
        throw new FileSystemException("plan.pdf", null, "No space left on device");
      };

  @TempDir Path home;

  @Test
  void everythingIsThere() throws IOException {
    Path folder = home.resolve("new/deep");
    write(ResultFixture.metric(), folder);
    List<String> names = new ArrayList<>(contents(folder).keySet());
    for (String file :
        List.of("results.json", "site.yml", "site.gpkg", "site.kml", "take-off.csv")) {
      assertTrue(names.remove(file), file);
    }
    for (Layer layer : LayerSet.of(ResultFixture.metric()).layers()) {
      for (String ending : List.of("geojson", "shp", "shx", "dbf", "prj", "cpg", "sld")) {
        assertTrue(names.remove("layers/" + layer.name() + "." + ending), layer.name());
      }
    }
    assertEquals(List.of(), names);
  }

  @Test
  void theSameResultGivesTheSameBytes() throws IOException {
    write(ResultFixture.usFeet(), home.resolve("a"));
    write(ResultFixture.usFeet(), home.resolve("b"));
    checkSame(contents(home.resolve("a")), contents(home.resolve("b")));
  }

  @Test
  void anEarlierRunIsReplacedAsAWhole() throws IOException {
    Path folder = home.resolve("out");
    write(ResultFixture.metric(), folder);
    Files.writeString(folder.resolve("cut-sheet-R1.csv"), "of the plan before");
    write(ResultFixture.empty(), folder);
    assertFalse(Files.exists(folder.resolve("cut-sheet-R1.csv")));
    write(ResultFixture.empty(), home.resolve("fresh"));
    checkSame(contents(home.resolve("fresh")), contents(folder));
    checkOnlyIn(home, "fresh", "out");
  }

  @Test
  void anEmptyFolderIsTaken() throws IOException {
    Path folder = Files.createDirectory(home.resolve("out"));
    write(ResultFixture.empty(), folder);
    assertTrue(Files.exists(folder.resolve("results.json")));
  }

  @Test
  void aFullDiskLeavesNothing() throws IOException {
    checkRefused(home.resolve("new/deep"), "No space left on device", List.of(FULL_DISK));
    checkOnlyIn(home);
  }

  @Test
  void aFullDiskLeavesTheEarlierRun() throws IOException {
    Path folder = home.resolve("out");
    write(ResultFixture.metric(), folder);
    Map<String, byte[]> before = contents(folder);
    checkRefused(folder, "No space left on device", List.of(FULL_DISK));
    checkSame(before, contents(folder));
    checkOnlyIn(home, "out");
  }

  @Test
  void aFaultOfOursLeavesNothingEither() throws IOException {
    try {
      ResultFolder.write(
          ResultFixture.empty(),
          UnitSystem.METRIC,
          home.resolve("out"),
          List.of(
              folder -> {
                throw new IllegalStateException("ours");
              }));
      throw new AssertionError("no fault");
    } catch (IllegalStateException e) {
      checkOnlyIn(home);
    }
  }

  @Test
  void aFolderWithSomethingElseIsLeftAlone() throws IOException {
    Path folder = home.resolve("out");
    write(ResultFixture.metric(), folder);
    Files.writeString(folder.resolve("layers/notes.txt"), "mine");
    checkRefused(folder, "holds notes.txt", List.of());
    assertEquals("mine", Files.readString(folder.resolve("layers/notes.txt")));
    Path other = Files.createDirectory(home.resolve("photos"));
    Files.writeString(other.resolve("map.png"), "mine");
    checkRefused(other, "holds map.png", List.of());
  }

  @Test
  void aFileIsNoFolder() throws IOException {
    Path file = Files.writeString(home.resolve("out"), "mine");
    checkRefused(file, "is a file, not a folder", List.of());
    checkRefused(file.resolve("below"), "cannot be written", List.of());
    assertEquals("mine", Files.readString(file));
  }

  @Test
  void aLinkToAFolderStaysALink() throws IOException {
    Path folder = Files.createDirectory(home.resolve("there"));
    Path link = Files.createSymbolicLink(home.resolve("here"), folder);
    write(ResultFixture.empty(), link);
    assertTrue(Files.isSymbolicLink(link));
    assertTrue(Files.exists(folder.resolve("results.json")));
  }

  private static void write(Result result, Path folder) {
    assertEquals(List.of(), ResultFolder.write(result, UnitSystem.METRIC, folder, List.of()));
  }

  private static void checkRefused(Path folder, String what, List<ResultFolder.Part> parts) {
    try {
      ResultFolder.write(ResultFixture.empty(), UnitSystem.METRIC, folder, parts);
    } catch (BadInputException e) {
      assertTrue(e.getMessage().contains(what), e.getMessage());
      assertEquals(1, e.getMessage().lines().count());
      return;
    }
    throw new AssertionError("accepted");
  }

  private static void checkOnlyIn(Path folder, String... names) throws IOException {
    try (Stream<Path> entries = Files.list(folder)) {
      assertEquals(List.of(names), entries.map(e -> e.getFileName().toString()).sorted().toList());
    }
  }

  private static void checkSame(Map<String, byte[]> expected, Map<String, byte[]> actual) {
    assertEquals(expected.keySet(), actual.keySet());
    expected.forEach((name, bytes) -> assertArrayEquals(bytes, actual.get(name), name));
  }

  private static Map<String, byte[]> contents(Path folder) throws IOException {
    Map<String, byte[]> contents = new TreeMap<>();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        contents.put(
            folder.relativize(file).toString().replace('\\', '/'), Files.readAllBytes(file));
      }
    }
    return contents;
  }
}
