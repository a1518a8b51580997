package org.yardfall.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.yardfall.Screening;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFolder;
import org.yardfall.route.Route;
import org.yardfall.sheet.MapPicture;
import org.yardfall.sheet.ProfileChart;
import org.yardfall.sheet.SummaryText;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** The whole job: water, routes, design, layers. */
@Command(
    name = "plan",
    mixinStandardHelpOptions = true,
    description = "Finds the water and designs the drains of a lot.")
final class PlanCommand implements Callable<Integer> {

  @Mixin private SiteOptions site;
  @Mixin private OutputOptions output;
  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    UnitSystem units = output.units();
    ResultFolder.checkReplaceable(output.out());
    Result result;
    try (TerminalProgress progress = TerminalProgress.of(output.quiet())) {
      progress.stage("site");
      Site read = site.read();
      result = Screening.of(read).onProgress(progress).run();
      progress.stage("layers");
      output.write(result, pages(result, units));
    }
    output.print(SummaryText.ofPlan(result, units), spec.commandLine().getOut());
    return result.routes().isEmpty() ? Yardfall.NO_ANSWER : Yardfall.DONE;
  }

  private static ResultFolder.Part[] pages(Result result, UnitSystem units) {
    List<ResultFolder.Part> pages = new ArrayList<>();
    pages.add(folder -> MapPicture.png(result, units, folder.resolve("map.png")));
    for (Route route : result.routes()) {
      String name = "profile-" + route.id();
      pages.add(
          folder -> ProfileChart.svg(result, route.id(), units, folder.resolve(name + ".svg")));
    }
    return pages.toArray(ResultFolder.Part[]::new);
  }
}
