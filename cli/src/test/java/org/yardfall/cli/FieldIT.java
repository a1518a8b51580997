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
