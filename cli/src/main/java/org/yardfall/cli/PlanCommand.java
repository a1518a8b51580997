package org.yardfall.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.yardfall.Screening;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFolder;
import org.yardfall.route.Route;
import org.yardfall.sheet.MapPicture;
import org.yardfall.sheet.PlanSheet;
import org.yardfall.sheet.ProfileChart;
import org.yardfall.sheet.ReviewPage;
import org.yardfall.sheet.SheetSize;
import org.yardfall.sheet.SummaryText;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The whole job: water, routes, design, layers. */
@Command(
    name = "plan",
    mixinStandardHelpOptions = true,
    description = "Finds the water and designs the drains of a lot.")
final class PlanCommand implements Callable<Integer> {

  @Mixin private SiteOptions site;
  @Mixin private OutputOptions output;

  @Option(
      names = "--sheet",
      defaultValue = "tabloid",
      paramLabel = "letter|tabloid|a4|a3",
      description = "Size of the plan sheet; tabloid if not given.")
  private String sheet;

  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    UnitSystem units = output.units();
    SheetSize size = SheetSize.named(sheet);
    ResultFolder.checkReplaceable(output.out());
    Result result;
    try (TerminalProgress progress = TerminalProgress.of(output.quiet())) {
      progress.stage("site");
      Site read = site.read();
      result = Screening.of(read).onProgress(progress).run();
      progress.stage("layers");
      output.write(result, pages(result, units, size));
    }
    output.print(SummaryText.ofPlan(result, units), spec.commandLine().getOut());
    return result.routes().isEmpty() ? Yardfall.NO_ANSWER : Yardfall.DONE;
  }

  /** The pages, drawn side by side: each is a file of its own. */
  private static ResultFolder.Part pages(Result result, UnitSystem units, SheetSize size) {
    List<ResultFolder.Part> pages = new ArrayList<>();
    pages.add(folder -> PlanSheet.write(result, units, size, folder.resolve("plan.pdf")));
    pages.add(folder -> MapPicture.png(result, units, folder.resolve("map.png")));
    pages.add(folder -> ReviewPage.write(result, units, folder.resolve("review.html")));
    for (Route route : result.routes()) {
      String id = route.id();
      String name = "profile-" + id;
      pages.add(folder -> ProfileChart.svg(result, id, units, folder.resolve(name + ".svg")));
      pages.add(folder -> ProfileChart.png(result, id, units, folder.resolve(name + ".png")));
    }
    return folder -> pages.parallelStream().forEach(page -> write(page, folder));
  }

  private static void write(ResultFolder.Part page, Path folder) {
    try {
      page.writeInto(folder);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
