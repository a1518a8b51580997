package org.yardfall.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.elevation.Shot;
import org.yardfall.elevation.ShotFile;
import org.yardfall.elevation.ShotUnits;
import org.yardfall.elevation.Shots;
import org.yardfall.fieldwork.AsBuiltProof;
import org.yardfall.fieldwork.FieldUnits;
import org.yardfall.fieldwork.LevelNotes;
import org.yardfall.fieldwork.ProofLimits;
import org.yardfall.fieldwork.StakedShots;
import org.yardfall.fieldwork.Winter;
import org.yardfall.layer.ResultsReader;
import org.yardfall.route.Route;
import org.yardfall.site.BadInputException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The as-built check: shots on the laid pipe against the plan. */
@Command(
    name = "prove",
    mixinStandardHelpOptions = true,
    description = "Checks shots on the laid pipe against a route of a finished plan.")
final class ProveCommand implements Callable<Integer> {

  /** How far round the plan's line shots are looked for, to recognise the columns' order. */
  private static final double ROUND_THE_LINE_M = 30;

  @Mixin private FinishedPlan finished;

  @Option(
      names = "--shots",
      paramLabel = "FILE",
      description = "The shots: delimited text in any usual order, or LandXML.")
  private Path file;

  @Option(
      names = "--levels",
      paramLabel = "NOTES.csv",
      description =
          "In place of shots: level notes whose points are named by station as in the cut sheet,"
              + " such as 12.5 or branch 1 3.0.")
  private Path notes;

  @Mixin private LevelCommand.LevelOptions levels;

  @Option(
      names = "--columns",
      paramLabel = "ORDER",
      description = "The order of the columns, for example PNEZD; recognised if not given.")
  private String columns;

  @Option(
      names = "--shot-unit",
      paramLabel = "m|ft|ftUS",
      description = "The unit of the shots; the working CRS's if not given.")
  private String shotUnit;

  @Option(
      names = "--held",
      defaultValue = "invert",
      paramLabel = "invert|top",
      description = "Where on the pipe the rod was held.")
  private String held;

  @Option(
      names = "--tolerance",
      paramLabel = "LENGTH",
      description = "Greatest difference of level; 20 mm if not given.")
  private String tolerance;

  @Override
  public Integer call() {
    FieldUnits shown = finished.units();
    ResultsReader.Plan plan = finished.plan();
    Route route = finished.route(plan);
    List<String> said = new ArrayList<>();
    List<Shot> shots = shots(plan, route, shown, said);
    AsBuiltProof proof = AsBuiltProof.of(route, shots, limits(plan, shown), winter(plan, route));
    String name = "as-built-" + route.id();
    Map<String, String> papers = new LinkedHashMap<>();
    papers.put(name + ".csv", proof.csv(shown));
    papers.put(name + ".html", proof.page(shown));
    papers.put(name + ".svg", proof.profile(shown));
    finished.write(papers);
    PrintWriter out = finished.out();
    said.forEach(out::println);
    out.println(
        "Route " + route.id() + (proof.passed() ? ": laid to grade" : ": NOT laid as planned"));
    proof.winterSentences(shown).forEach(out::println);
    finished.announce(papers.keySet());
    return proof.passed() ? Yardfall.DONE : Yardfall.NO_ANSWER;
  }

  private List<Shot> shots(
      ResultsReader.Plan plan, Route route, FieldUnits shown, List<String> said) {
    if ((file == null) == (notes == null)) {
      throw new BadInputException(
          "command line",
          file == null ? "nothing is given to prove with" : "--shots and --levels are given",
          "give --shots FILE, or --levels NOTES.csv");
    }
    return notes == null ? shotsOf(plan, route, said) : levelled(route, shown, said);
  }

  private List<Shot> shotsOf(ResultsReader.Plan plan, Route route, List<String> said) {
    ShotUnits stated =
        ShotUnits.stated(
            shotUnit == null
                ? plan.metresPerUnit()
                : FieldUnits.named(shotUnit).metres("--shot-unit", "1"));
    Shots shots =
        ShotFile.read(
            file,
            columns,
            stated,
            new GeometryFactory()
                .createLineString(route.main().vertices().toArray(Coordinate[]::new))
                .buffer(ROUND_THE_LINE_M));
    said.addAll(shots.description());
    shots.warnings().forEach(warning -> said.add("Warning: " + warning));
    return shots.shots();
  }

  private List<Shot> levelled(Route route, FieldUnits shown, List<String> said) {
    LevelNotes reduced = levels.read(notes);
    StakedShots staked = StakedShots.of(reduced, route, shown);
    said.addAll(reduced.sentences());
    if (!reduced.passed()) {
      throw new BadInputException(
          notes.toString(),
          "its levels do not check: " + String.join(" ", reduced.sentences()),
          "level again");
    }
    if (!staked.others().isEmpty()) {
      said.add("No stakes, and not used: " + String.join(", ", staked.others()));
    }
    return staked.shots();
  }

  private static Winter winter(ResultsReader.Plan plan, Route route) {
    return new Winter(
        plan.frostDepthM(),
        plan.outlets().stream().filter(o -> o.id().equals(route.outletId())).findFirst());
  }

  private ProofLimits limits(ResultsReader.Plan plan, FieldUnits shown) {
    ProofLimits limits = ProofLimits.of(plan.limits()).on(held());
    return tolerance == null
        ? limits
        : limits.within(shown.metres("--tolerance", tolerance), limits.offsetM());
  }

  private ProofLimits.Held held() {
    for (ProofLimits.Held each : List.of(ProofLimits.Held.values())) {
      if (each.name().toLowerCase(Locale.ROOT).equals(held.toLowerCase(Locale.ROOT))) {
        return each;
      }
    }
    throw new BadInputException("--held", "'" + held + "' is unknown", "give invert or top");
  }
}
