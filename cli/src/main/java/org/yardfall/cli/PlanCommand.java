package org.yardfall.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.yardfall.Screening;
import org.yardfall.fieldwork.FieldUnits;
import org.yardfall.fieldwork.PlanRecheck;
import org.yardfall.fieldwork.ShotList;
import org.yardfall.layer.RasterLayers;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFolder;
import org.yardfall.layer.ResultsReader;
import org.yardfall.layer.ShotListWriter;
import org.yardfall.route.Route;
import org.yardfall.sheet.EvidencePage;
import org.yardfall.sheet.MapPicture;
import org.yardfall.sheet.PlanSheet;
import org.yardfall.sheet.ProfileChart;
import org.yardfall.sheet.ReviewPage;
import org.yardfall.sheet.SheetSize;
import org.yardfall.sheet.SummaryText;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;
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

  @Option(
      names = "--rasters",
      description =
          "Also write the lowest invert that falls to an outlet and the room above it as GeoTIFFs.")
  private boolean rasters;

  @Option(
      names = "--against",
      paramLabel = "DIR",
      description = "The folder of an earlier plan: say whether its decision holds.")
  private Path against;

  @Override
  public Integer call() {
    UnitSystem units = output.units();
    SheetSize size = SheetSize.named(sheet);
    output.check();
    Optional<ResultsReader.Plan> earlier = Optional.ofNullable(against).map(ResultsReader::read);
    List<String> recheck = new ArrayList<>();
    List<ResultFolder.Part> parts = new ArrayList<>();
    Result result;
    try (TerminalProgress progress = TerminalProgress.of(output.quiet())) {
      progress.stage("site");
      Site read = site.read().readIn(units);
      result =
          Screening.of(read)
              .onProgress(progress)
              .onWater(water -> parts.add(evidence(water, units)))
              .run();
      earlier.ifPresent(plan -> recheck.addAll(recheck(plan, result, units)));
      progress.stage("layers");
      parts.addAll(0, pages(result, units, size));
      parts.add(
          folder -> ShotListWriter.write(shotList(result), fieldUnits(result, units), folder));
      parts.add(folder -> writeRecheck(recheck, folder));
      if (rasters) {
        parts.add(folder -> RasterLayers.writeReach(result, folder));
      }
      output.write(result, parts.toArray(ResultFolder.Part[]::new));
    }
    String summary = SummaryText.ofPlan(result, units);
    output.print(recheck.isEmpty() ? summary : summary + String.join("\n", recheck) + "\n");
    return result.routes().isEmpty() ? Yardfall.NO_ANSWER : Yardfall.DONE;
  }

  private static FieldUnits fieldUnits(Result result, UnitSystem units) {
    return FieldUnits.of(units, result.site().crs());
  }

  private static ShotList shotList(Result result) {
    return ShotList.of(
        result.site().crs(),
        result.site().drain(),
        result.terrain().accuracyM(),
        result.site().outlets(),
        result.water().lowSpots(),
        result.routes());
  }

  /** What became of the earlier plan's best route on the ground as it is known now. */
  private static List<String> recheck(ResultsReader.Plan earlier, Result now, UnitSystem units) {
    if (!earlier.crsName().equals(now.site().crs().name())) {
      throw new BadInputException(
          "--against",
          "the earlier plan is in "
              + earlier.crsName()
              + ", this one in "
              + now.site().crs().name(),
          "plan both in one CRS (site.crs)");
    }
    List<String> lines = new ArrayList<>(List.of("Against the earlier plan:"));
    if (earlier.routes().isEmpty()) {
      lines.add(
          now.routes().isEmpty()
              ? "It had no drain either: the decision holds."
              : "It had no drain; there is one now: decide anew.");
      return lines;
    }
    lines.addAll(
        PlanRecheck.of(
                earlier.routes().get(0),
                earlier.outlets(),
                now.site(),
                now.terrain().ground(),
                now.routes())
            .sentences(fieldUnits(now, units)));
    return lines;
  }

  private static void writeRecheck(List<String> lines, Path folder) throws IOException {
    if (!lines.isEmpty()) {
      Files.write(folder.resolve("recheck.txt"), lines);
    }
  }

  /** The page on the water alone, made while the routes are sought. */
  private static ResultFolder.Part evidence(Result water, UnitSystem units) {
    EarlyPage page = EarlyPage.begin(() -> EvidencePage.of(water, units));
    return folder -> page.write(folder.resolve("evidence.html"));
  }

  /** The pages of the drains, those that take longest first. */
  private static List<ResultFolder.Part> pages(Result result, UnitSystem units, SheetSize size) {
    List<ResultFolder.Part> pages = new ArrayList<>();
    pages.add(folder -> PlanSheet.write(result, units, size, folder.resolve("plan.pdf")));
    pages.add(folder -> ReviewPage.write(result, units, folder.resolve("review.html")));
    pages.add(folder -> MapPicture.png(result, units, folder.resolve("map.png")));
    for (Route route : result.routes()) {
      String id = route.id();
      String name = "profile-" + id;
      pages.add(folder -> ProfileChart.svg(result, id, units, folder.resolve(name + ".svg")));
      pages.add(folder -> ProfileChart.png(result, id, units, folder.resolve(name + ".png")));
    }
    return pages;
  }
}
