package org.yardfall.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.yardfall.site.BadInputException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.ParameterException;

/** The command line: arguments in, exit code out; everything else is the library's. */
@Command(
    name = "yardfall",
    description = "Designs yard drainage from the lay of the land.",
    mixinStandardHelpOptions = true,
    versionProvider = Yardfall.Version.class,
    synopsisSubcommandLabel = "COMMAND",
    subcommands = {
      CheckCommand.class,
      WaterCommand.class,
      PlanCommand.class,
      StakeCommand.class,
      LevelCommand.class,
      ProveCommand.class
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:done, but the job has no answer: the results say why",
      "2:bad input or arguments",
      "3:a fault of Yardfall's own"
    })
public final class Yardfall implements Runnable {

  /** Done. */
  static final int DONE = 0;

  /** Done, but the job has no answer. */
  static final int NO_ANSWER = 1;

  /** Bad input or arguments. */
  static final int BAD_INPUT = 2;

  /** A fault of our own. */
  static final int OUR_FAULT = 3;

  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  /** Runs the command and ends the process with its exit code. */
  public static void main(String[] args) {
    HeadStart.begin(args);
    System.exit(run(args));
  }

  /** Runs the command with the given arguments and returns its exit code. */
  static int run(String... args) {
    return new CommandLine(new Yardfall())
        .setCaseInsensitiveEnumValuesAllowed(true)
        .setParameterExceptionHandler(Yardfall::badArguments)
        .setExecutionExceptionHandler((fault, line, parsed) -> failed(fault, line))
        .execute(args);
  }

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "no command given");
  }

  private static int badArguments(ParameterException fault, String[] args) {
    PrintWriter err = fault.getCommandLine().getErr();
    err.println("yardfall: " + firstLine(fault.getMessage()) + "; see yardfall --help");
    return BAD_INPUT;
  }

  private static int failed(Exception fault, CommandLine line) {
    PrintWriter err = line.getErr();
    if (fault instanceof BadInputException bad) {
      bad.problems().forEach(problem -> err.println("yardfall: " + problem.line()));
      return BAD_INPUT;
    }
    err.println(
        "yardfall: a fault of its own ("
            + fault.getClass().getSimpleName()
            + "); please report it with the log "
            + log(fault));
    return OUR_FAULT;
  }

  /**
   * Writes the fault where a report can pick it up; the message must not depend on that working.
   */
  private static String log(Exception fault) {
    try {
      Path log = Files.createTempFile("yardfall-", ".log");
      try (PrintWriter out =
          new PrintWriter(Files.newBufferedWriter(log, StandardCharsets.UTF_8))) {
        fault.printStackTrace(out);
      }
      return log.toString();
    } catch (IOException noLog) {
      return "(none could be written: " + noLog.getMessage() + ")";
    }
  }

  private static String firstLine(String message) {
    return message.lines().findFirst().orElse("");
  }

  /** The version that the build wrote into the jar. */
  static final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
      String version = Yardfall.class.getPackage().getImplementationVersion();
      return new String[] {"yardfall " + (version == null ? "(not packaged)" : version)};
    }
  }
}
