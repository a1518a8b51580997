package org.yardfall.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.yardfall.fieldwork.FieldUnits;
import org.yardfall.layer.ContourWriter;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFolder;
import org.yardfall.site.BadInputException;
import org.yardfall.site.UnitSystem;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Where results go and how they are shown. */
final class OutputOptions {

  /** Finer contours than this show noise alone. */
  private static final double LEAST_INTERVAL_M = 0.01;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "The folder for the results; made, or replaced whole.")
  private Path out;

  @Option(
      names = "--units",
      defaultValue = "metric",
      paramLabel = "metric|us",
      description = "Units in what people read; computation and data stay metric.")
  private String units;

  @Option(
      names = "--contours",
      paramLabel = "INTERVAL",
      description = "Also write the ground's contours as a layer, such as every 0.5 ft.")
  private String contours;

  @Option(names = "--quiet", description = "Print no summary and no progress.")
  private boolean quiet;

  @Option(names = "--json", description = "Print results.json in place of the summary.")
  private boolean json;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec command;

  UnitSystem units() {
    return UnitSystem.named(units);
  }

  boolean quiet() {
    return quiet;
  }

  /** Writes the result's folder, with the given parts besides. */
  void write(Result result, ResultFolder.Part... more) {
    List<ResultFolder.Part> parts = new ArrayList<>(List.of(more));
    if (contours != null) {
      FieldUnits shown = FieldUnits.of(units(), result.site().crs());
      double step = intervalM(shown);
      parts.add(folder -> ContourWriter.write(result, step, shown, folder));
    }
    ResultFolder.write(result, units(), out, parts);
  }

  /**
   * Refuses, before any work, a folder that cannot be replaced or an interval that is none.
   *
   * @throws BadInputException if there is either
   */
  void check() {
    ResultFolder.checkReplaceable(out);
    if (contours != null) {
      intervalM(FieldUnits.METRES);
    }
  }

  /** The contours' interval in metres; a bare number is in the reader's unit. */
  private double intervalM(FieldUnits shown) {
    double metres = shown.metres("--contours", contours);
    if (!(metres >= LEAST_INTERVAL_M)) {
      throw new BadInputException(
          "--contours",
          "'" + contours + "' is too small",
          "give a length such as 0.5 ft or 0.25 m");
    }
    return metres;
  }

  /** Prints what was asked for: the summary, results.json, or nothing. */
  void print(String summary) {
    PrintWriter stdout = command.commandLine().getOut();
    if (json) {
      try {
        stdout.print(Files.readString(out.resolve("results.json")));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    } else if (!quiet) {
      stdout.print(summary);
      stdout.println("Written to " + out + ".");
    }
    stdout.flush();
  }
}
