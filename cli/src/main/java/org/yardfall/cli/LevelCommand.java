package org.yardfall.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.yardfall.fieldwork.FieldUnits;
import org.yardfall.fieldwork.LevelNotes;
import org.yardfall.fieldwork.LevelTolerance;
import org.yardfall.site.BadInputException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Level notes reduced: elevations, checks, adjustment, cut or fill to a grade. */
@Command(
    name = "level",
    mixinStandardHelpOptions = true,
    description = {
      "Reduces level notes: elevations, the arithmetic check, the misclosure, the adjustment.",
      "NOTES.csv has a line a point and a header: point, BS, IS, FS, known (the benchmark's"
          + " elevation); also HI, elevation and distance where they are booked."
    })
final class LevelCommand implements Callable<Integer> {

  @Parameters(index = "0", paramLabel = "NOTES.csv", description = "The notes as booked.")
  private Path file;

  @Mixin private LevelOptions levels;

  @Option(
      names = "--grade",
      paramLabel = "ELEVATION",
      description = "Also the cut (fill: negative) at each point to this elevation.")
  private BigDecimal grade;

  @Option(
      names = "--out",
      paramLabel = "FILE.csv",
      description = "Also write the reduced points to this file.")
  private Path out;

  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    LevelNotes notes = levels.read(file);
    Optional<BigDecimal> to = Optional.ofNullable(grade);
    if (out != null) {
      try {
        Files.writeString(out, notes.csv(to), StandardCharsets.UTF_8);
      } catch (IOException e) {
        throw new BadInputException(
            out.toString(), "cannot be written (" + e.getMessage() + ")", "give another file");
      }
    }
    PrintWriter print = spec.commandLine().getOut();
    notes.table(to).forEach(print::println);
    notes.sentences().forEach(print::println);
    notes
        .assumptions()
        .forEach(a -> print.println("Assumed: " + a.value() + " (" + a.source() + ")"));
    print.flush();
    return notes.passed() ? Yardfall.DONE : Yardfall.NO_ANSWER;
  }

  /** How notes are read, wherever they are. */
  static final class LevelOptions {

    @Option(
        names = "--level-unit",
        paramLabel = "m|ft|ftUS",
        description = "Unit of the notes where their header does not name it, as in: BS (ft).")
    private String unit;

    @Option(
        names = "--allowed-per-km",
        paramLabel = "LENGTH",
        description =
            "Allowed misclosure for a kilometre; it grows with the root of the distance. 12 mm"
                + " (third order) if not given.")
    private String perKilometre;

    @Option(
        names = "--allowed-per-set-up",
        paramLabel = "LENGTH",
        description = "The same for a set-up, where no distances are booked; 5 mm if not given.")
    private String perSetUp;

    LevelNotes read(Path notes) {
      double unitM = unit == null ? Double.NaN : FieldUnits.named(unit).unitM();
      return LevelNotes.read(notes, unitM, tolerance());
    }

    private LevelTolerance tolerance() {
      if (perKilometre != null && perSetUp != null) {
        throw new BadInputException(
            "--allowed-per-set-up", "is given beside --allowed-per-km", "give one of them");
      }
      if (perSetUp != null) {
        return stated("--allowed-per-set-up", perSetUp, LevelTolerance.By.SETUPS);
      }
      return perKilometre == null
          ? LevelTolerance.THIRD_ORDER
          : stated("--allowed-per-km", perKilometre, LevelTolerance.By.DISTANCE);
    }

    private static LevelTolerance stated(String option, String text, LevelTolerance.By by) {
      double metres = FieldUnits.METRES.metres(option, text);
      if (!(metres > 0)) {
        throw new BadInputException(option, "must be above 0", "give a length such as 12 mm");
      }
      return new LevelTolerance(metres, by, "as stated");
    }
  }
}
