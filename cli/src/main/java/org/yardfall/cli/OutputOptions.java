package org.yardfall.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFolder;
import org.yardfall.site.UnitSystem;
import picocli.CommandLine.Option;

/** Where results go and how they are shown. */
final class OutputOptions {

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

  @Option(names = "--quiet", description = "Print no summary and no progress.")
  private boolean quiet;

  @Option(names = "--json", description = "Print results.json in place of the summary.")
  private boolean json;

  Path out() {
    return out;
  }

  UnitSystem units() {
    return UnitSystem.named(units);
  }

  boolean quiet() {
    return quiet;
  }

  /** Writes the result's folder, with the given parts besides. */
  void write(Result result, ResultFolder.Part... more) {
    ResultFolder.write(result, units(), out, List.of(more));
  }

  /** Prints what was asked for: the summary, results.json, or nothing. */
  void print(String summary, PrintWriter stdout) {
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
