package org.yardfall.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.elevation.ShotFile;
import org.yardfall.elevation.ShotUnits;
import org.yardfall.elevation.Shots;
import org.yardfall.fieldwork.AsBuiltProof;
import org.yardfall.fieldwork.FieldUnits;
import org.yardfall.fieldwork.ProofLimits;
import org.yardfall.layer.ResultsReader;
import org.yardfall.route.Route;
import org.yardfall.site.BadInputException;
import picocli.CommandLine;
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
      required = true,
      paramLabel = "FILE",
      description = "The shots: delimited text in any usual order, or LandXML.")
  private Path file;

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

  @Option(
      names = "--units",
      defaultValue = "m",
      paramLabel = "m|ft|ft-in|ftUS|ftUS-in",
      description = "Units of the proof; bare lengths on the command line are in them too.")
  private String units;

  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    FieldUnits shown = FieldUnits.named(units);
    ResultsReader.Plan plan = finished.plan();
    Route route = finished.route(plan);
    Shots shots = shots(plan, route);
    AsBuiltProof proof = AsBuiltProof.of(route, shots.shots(), limits(plan, shown));
    String name = "as-built-" + route.id();
    Map<String, String> papers = new LinkedHashMap<>();
    papers.put(name + ".csv", proof.csv(shown));
    papers.put(name + ".html", proof.page(shown));
    papers.put(name + ".svg", proof.profile(shown));
    finished.write(papers);
    PrintWriter out = spec.commandLine().getOut();
    shots.description().forEach(out::println);
    shots.warnings().forEach(warning -> out.println("Warning: " + warning));
    out.println(
        "Route " + route.id() + (proof.passed() ? ": laid to grade" : ": NOT laid as planned"));
    papers.keySet().forEach(paper -> out.println("Written: " + finished.place(paper)));
    out.flush();
    return proof.passed() ? Yardfall.DONE : Yardfall.NO_ANSWER;
  }

  private Shots shots(ResultsReader.Plan plan, Route route) {
    ShotUnits stated =
        ShotUnits.stated(
            shotUnit == null
                ? plan.metresPerUnit()
                : FieldUnits.named(shotUnit).metres("--shot-unit", "1"));
    return ShotFile.read(
        file,
        columns,
        stated,
        new GeometryFactory()
            .createLineString(route.main().vertices().toArray(Coordinate[]::new))
            .buffer(ROUND_THE_LINE_M));
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
