package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From the plan to the stakes to the proof, through the packaged command. */
class FieldIT {

  @TempDir private Path folder;

  @Test
  void whatWasStakedIsProvedAndASunkenStretchIsNot() throws IOException {
    Path site = Starter.SAMPLES.resolve("alder-row/site.yml");
    Starter.run(folder, "plan", site, "--quiet", "--out", "out");
    Starter.Run stake = Starter.run(folder, "stake", "out", "--interval", "1", "--units", "m");
    assertEquals("", stake.err());
    assertEquals(Yardfall.DONE, stake.exit());
    List<String> stakes = Files.readAllLines(folder.resolve("out/cut-sheet-R1.csv"));
    List<String> columns = cells(stakes.get(0));
    int x = columns.indexOf("x");
    int y = columns.indexOf("y");
    int invert = columns.indexOf("invert_m");
    List<String> laid = new ArrayList<>();
    List<String> sunken = new ArrayList<>();
    for (String stake1 : stakes.subList(1, stakes.size())) {
      List<String> cells = cells(stake1);
      int number = laid.size() + 1;
      // Coordinates are feet of the working CRS, elevations of the sheet metres.
      double feet = Double.parseDouble(cells.get(invert)) * 3937 / 1200;
      double sink = cells.get(0).equals("main") && number >= 12 && number <= 16 ? 0.1 : 0;
      laid.add(shot(number, cells.get(x), cells.get(y), feet));
      sunken.add(shot(number, cells.get(x), cells.get(y), feet - sink));
    }
    Files.write(folder.resolve("laid.csv"), laid);
    Files.write(folder.resolve("sunken.csv"), sunken);

    Starter.Run good =
        Starter.run(folder, "prove", "out", "--shots", "laid.csv", "--columns", "PENZD");
    assertEquals("", good.err());
    assertEquals(Yardfall.DONE, good.exit(), good.out());
    Starter.Run bad =
        Starter.run(folder, "prove", "out", "--shots", "sunken.csv", "--columns", "PENZD");
    assertEquals(Yardfall.NO_ANSWER, bad.exit(), bad.out());
    assertTrue(Files.exists(folder.resolve("out/as-built-R1.html")));
  }

  @Test
  void levelsAtTheStakesProveThePipeWithoutCoordinates() throws IOException {
    Path site = Starter.SAMPLES.resolve("alder-row/site.yml");
    Starter.run(folder, "plan", site, "--quiet", "--out", "out");
    Starter.run(folder, "stake", "out", "--interval", "1", "--units", "m");
    List<String> stakes = Files.readAllLines(folder.resolve("out/cut-sheet-R1.csv"));
    int invert = cells(stakes.get(0)).indexOf("invert_m");
    double benchmark = Double.parseDouble(cells(stakes.get(1)).get(invert)) + 1;
    List<String> notes = new ArrayList<>(List.of("point,BS (m),IS,FS,known"));
    notes.add(String.format(Locale.ROOT, "BM,1.500,,,%.3f", benchmark));
    for (String stake : stakes.subList(1, stakes.size())) {
      List<String> cells = cells(stake);
      double reading = benchmark + 1.5 - Double.parseDouble(cells.get(invert));
      notes.add(String.format(Locale.ROOT, "%s %s,,%.3f,,", cells.get(0), cells.get(1), reading));
    }
    notes.add("BM,,,1.500,");
    Files.write(folder.resolve("notes.csv"), notes);
    Starter.Run good = Starter.run(folder, "prove", "out", "--levels", "notes.csv");
    assertEquals("", good.err());
    assertEquals(Yardfall.DONE, good.exit(), good.out());
    assertTrue(good.out().contains("within tolerance"), good.out());

    Starter.Run both =
        Starter.run(folder, "prove", "out", "--levels", "notes.csv", "--shots", "notes.csv");
    assertEquals(Yardfall.BAD_INPUT, both.exit());
    assertEquals(1, both.complaints().size(), both.err());
    notes.set(notes.size() - 1, "BM,,,1.600,"); // 0.1 m off the benchmark it began on
    Files.write(folder.resolve("notes.csv"), notes);
    Starter.Run open = Starter.run(folder, "prove", "out", "--levels", "notes.csv");
    assertEquals(Yardfall.BAD_INPUT, open.exit());
    assertEquals(1, open.complaints().size(), open.err());
    assertTrue(open.err().contains("OUT OF TOLERANCE"), open.err());
  }

  @Test
  void aPlanSaysWhereToShootAndIsHeldAgainstTheShots() throws IOException {
    Path site = Starter.SAMPLES.resolve("fernhill/site.yml");
    Starter.run(folder, "plan", site, "--quiet", "--out", "first");
    for (String file : List.of("shot-list.csv", "shot-list.geojson", "shot-list.gpx")) {
      assertTrue(Files.size(folder.resolve("first").resolve(file)) > 100, file);
    }
    List<String> places = Files.readAllLines(folder.resolve("first/shot-list.csv"));
    assertEquals("id", cells(places.get(0)).get(0));
    List<String> same = new ArrayList<>();
    List<String> lower = new ArrayList<>();
    for (String place : places.subList(1, places.size())) {
      List<String> cells = cells(place);
      if (cells.get(1).equals("ground")) {
        double z = Double.parseDouble(cells.get(6));
        same.add(shot(same.size() + 1, cells.get(2), cells.get(3), z));
        lower.add(shot(lower.size() + 1, cells.get(2), cells.get(3), z - 0.6));
      }
    }
    Files.write(folder.resolve("same.csv"), same);
    Files.write(folder.resolve("lower.csv"), lower);
    Starter.Run held = against(site, "same.csv", "second");
    assertEquals(Yardfall.DONE, held.exit(), held.err());
    assertTrue(held.out().contains("It can be built as planned."), held.out());
    assertTrue(held.out().contains("the decision holds"), held.out());
    String kept = Files.readString(folder.resolve("second/recheck.txt"));
    assertTrue(held.out().contains(kept), kept);
    assertTrue(Files.readString(folder.resolve("second/site.yml")).contains("correct: true"));

    // Ground 0.6 m lower than the raster said leaves no cover over the pipe as planned.
    Starter.Run fallen = against(site, "lower.csv", "third");
    assertTrue(fallen.out().contains("It cannot be built as planned: "), fallen.out());
    assertTrue(fallen.out().contains("0.600 m lower than before by the median"), fallen.out());
  }

  private Starter.Run against(Path site, String shots, String out) throws IOException {
    return Starter.run(folder, "plan", site, "--shots", shots, "--against", "first", "--out", out);
  }

  @Test
  void levelNotesAreReducedAndChecked() throws IOException {
    // A published exercise on field notes: 100.00 to 94.95, known 94.91, so +0.04 off.
    Path notes =
        Files.writeString(
            folder.resolve("notes.csv"),
            """
            point,BS (ft),FS,known
            BM A,3.10,,100.00
            TP1,6.44,9.82,
            TP2,8.76,6.96,
            TP3,7.12,3.27,
            BM B,,10.42,94.91
            """);
    Starter.Run strict = Starter.run(folder, "level", notes);
    assertEquals("", strict.err());
    assertEquals(Yardfall.NO_ANSWER, strict.exit(), strict.out());
    assertTrue(strict.out().contains("94.95"), strict.out());
    assertTrue(strict.out().contains("OUT OF TOLERANCE"), strict.out());
    Starter.Run loose =
        Starter.run(
            folder,
            "level",
            notes,
            "--allowed-per-set-up",
            "0.02 ft",
            "--grade",
            "93.00",
            "--out",
            "reduced.csv");
    assertEquals(Yardfall.DONE, loose.exit(), loose.err() + loose.out());
    List<String> reduced = Files.readAllLines(folder.resolve("reduced.csv"));
    assertEquals("point,set_up,sight,hi,elevation,adjusted,cut_to_93.00", reduced.get(0));
    assertEquals("BM B,4,foresight,,94.95,94.910,1.910", reduced.get(5));
  }

  @Test
  void notesThatCannotBeReducedAreRefusedInOneLine() throws IOException {
    Files.writeString(folder.resolve("empty.csv"), "");
    Files.writeString(folder.resolve("unit.csv"), "point,BS,FS,known\nA,1,,100\nB,,1,\n");
    Files.writeString(folder.resolve("start.csv"), "point,BS (m),FS\nA,1,\nB,,1\n");
    Files.write(folder.resolve("noise.csv"), new byte[] {(byte) 0xC3, (byte) 0x28, 0, 1, 2});
    for (String file : List.of("empty.csv", "unit.csv", "start.csv", "noise.csv", "none.csv")) {
      Starter.Run run = Starter.run(folder, "level", file);
      assertEquals(Yardfall.BAD_INPUT, run.exit(), file);
      assertEquals(1, run.complaints().size(), run.err());
      assertTrue(run.err().contains(file), run.err());
    }
  }

  @Test
  void aRouteOrAFolderThatIsNotThereIsSaid() throws IOException {
    Starter.Run run = Starter.run(folder, "stake", "nowhere");
    assertEquals(Yardfall.BAD_INPUT, run.exit());
    assertEquals(1, run.complaints().size(), run.err());
  }

  private static List<String> cells(String line) {
    return List.of(line.split(",", -1));
  }

  private static String shot(int number, String x, String y, double z) {
    return String.format(Locale.ROOT, "%d,%s,%s,%.3f,pipe", number, x, y, z);
  }
}
