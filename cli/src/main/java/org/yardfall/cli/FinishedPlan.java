package org.yardfall.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import org.yardfall.fieldwork.FieldUnits;
import org.yardfall.layer.ResultsReader;
import org.yardfall.route.Route;
import org.yardfall.site.BadInputException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** A route of the plan in a folder, and the papers that later work adds to the folder. */
final class FinishedPlan {

  @Parameters(index = "0", paramLabel = "DIR", description = "The folder of a finished plan.")
  private Path folder;

  @Option(
      names = "--route",
      defaultValue = "R1",
      paramLabel = "ID",
      description = "The route; the best one if not given.")
  private String routeId;

  @Option(
      names = "--units",
      defaultValue = "m",
      paramLabel = "m|ft|ft-in|ftUS|ftUS-in",
      description = "Units of what is written; bare lengths on the command line are in them too.")
  private String units;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec command;

  FieldUnits units() {
    return FieldUnits.named(units);
  }

  ResultsReader.Plan plan() {
    return ResultsReader.read(folder);
  }

  Route route(ResultsReader.Plan plan) {
    return plan.route(routeId);
  }

  /** Writes the texts, named by file, beside the plan: all of them or none. */
  void write(Map<String, String> texts) {
    Map<Path, Path> moves = new LinkedHashMap<>();
    try {
      try {
        for (Map.Entry<String, String> text : texts.entrySet()) {
          Path fresh = Files.createTempFile(folder, ".yardfall-", ".part");
          moves.put(fresh, folder.resolve(text.getKey()));
          Files.writeString(fresh, text.getValue(), StandardCharsets.UTF_8);
        }
        for (Map.Entry<Path, Path> move : moves.entrySet()) {
          Files.move(move.getKey(), move.getValue(), StandardCopyOption.REPLACE_EXISTING);
        }
      } finally {
        for (Path fresh : moves.keySet()) {
          Files.deleteIfExists(fresh);
        }
      }
    } catch (IOException | UncheckedIOException e) {
      throw new BadInputException(
          folder.toString(),
          "cannot be written to (" + e.getMessage() + ")",
          "free the disk or its permissions and run again");
    }
  }

  /** Where the command prints. */
  PrintWriter out() {
    return command.commandLine().getOut();
  }

  /** Says which papers were written. */
  void announce(Set<String> papers) {
    papers.forEach(paper -> out().println("Written: " + folder.resolve(paper)));
    out().flush();
  }
}
