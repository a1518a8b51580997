package org.yardfall.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import org.yardfall.SiteCheck;
import org.yardfall.site.Assumption;
import org.yardfall.site.UnitSystem;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Reads everything and says what it holds; every problem at once. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    description = "Reads every input and says what it holds, and what is wrong with it.")
final class CheckCommand implements Callable<Integer> {

  @Mixin private SiteOptions site;

  @Option(
      names = "--units",
      defaultValue = "metric",
      paramLabel = "metric|us",
      description = "Units in what people read.")
  private String units;

  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    SiteCheck check = SiteCheck.of(site.read(), UnitSystem.named(units));
    PrintWriter out = spec.commandLine().getOut();
    check.lines().forEach(out::println);
    check.warnings().forEach(warning -> out.println("Warning: " + warning));
    for (Assumption assumption : check.assumptions()) {
      out.println(
          "Assumed: "
              + assumption.about()
              + " = "
              + assumption.value()
              + " ("
              + assumption.source()
              + ")");
    }
    out.flush();
    return Yardfall.DONE;
  }
}
