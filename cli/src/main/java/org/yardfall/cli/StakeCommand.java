package org.yardfall.cli;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.yardfall.fieldwork.CutSheet;
import org.yardfall.fieldwork.FieldUnits;
import org.yardfall.fieldwork.LaserSetup;
import org.yardfall.fieldwork.StakeSettings;
import org.yardfall.layer.ResultsReader;
import org.yardfall.route.Route;
import org.yardfall.site.BadInputException;
import org.yardfall.trench.TrenchSection;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The cut sheet of a route: what a crew needs to dig to grade. */
@Command(
    name = "stake",
    mixinStandardHelpOptions = true,
    description = "Writes the cut sheet for a route of a finished plan.")
final class StakeCommand implements Callable<Integer> {

  @Mixin private FinishedPlan finished;

  @Option(
      names = "--interval",
      paramLabel = "LENGTH",
      description = "Greatest distance between stakes; 3 m if not given.")
  private String interval;

  @Option(
      names = "--offset",
      paramLabel = "LENGTH",
      description = "Distance of offset stakes from the line; none if not given.")
  private String offset;

  @Option(
      names = "--side",
      defaultValue = "both",
      paramLabel = "left|right|both",
      description = "Where offset stakes stand, looking downstream.")
  private String side;

  @Option(
      names = "--benchmark",
      paramLabel = "ELEVATION",
      description = "Elevation of the benchmark the rod is read on.")
  private String benchmark;

  @Option(
      names = "--backsight",
      paramLabel = "READING",
      description = "Rod reading on the benchmark.")
  private String backsight;

  @Option(
      names = "--height-of-instrument",
      paramLabel = "ELEVATION",
      description = "Elevation of the line of sight, in place of benchmark and backsight.")
  private String heightOfInstrument;

  @Override
  public Integer call() {
    FieldUnits shown = finished.units();
    ResultsReader.Plan plan = finished.plan();
    Route route = finished.route(plan);
    CutSheet sheet = CutSheet.of(route, settings(plan, shown), plan.pipes().get(route.id()));
    String name = "cut-sheet-" + route.id();
    Map<String, String> papers = new LinkedHashMap<>();
    papers.put(name + ".csv", sheet.csv(shown));
    papers.put(name + ".html", sheet.page(shown));
    finished.write(papers);
    finished.announce(papers.keySet());
    return Yardfall.DONE;
  }

  private StakeSettings settings(ResultsReader.Plan plan, FieldUnits shown) {
    StakeSettings settings =
        StakeSettings.of(TrenchSection.of(plan.limits())).inUnitsOf(plan.metresPerUnit());
    if (interval != null) {
      settings = settings.every(shown.metres("--interval", interval));
    }
    if (offset != null) {
      settings = settings.offset(shown.metres("--offset", offset), side());
    }
    if (heightOfInstrument != null) {
      if (benchmark != null || backsight != null) {
        throw new BadInputException(
            "--height-of-instrument",
            "is given beside a benchmark or backsight",
            "give either the height of instrument or both of the others");
      }
      double hiM = shown.metres("--height-of-instrument", heightOfInstrument);
      return settings.with(LaserSetup.atHeight(hiM));
    }
    if ((benchmark == null) != (backsight == null)) {
      throw new BadInputException(
          benchmark == null ? "--backsight" : "--benchmark",
          "needs the other of --benchmark and --backsight",
          "give both, or --height-of-instrument");
    }
    return benchmark == null
        ? settings
        : settings.with(
            new LaserSetup(
                shown.metres("--benchmark", benchmark), shown.metres("--backsight", backsight)));
  }

  private StakeSettings.Side side() {
    try {
      return StakeSettings.Side.valueOf(side.toUpperCase(Locale.ROOT));
    } catch (IllegalArgumentException e) {
      throw new BadInputException(
          "--side", "'" + side + "' is unknown", "give left, right or both");
    }
  }
}
