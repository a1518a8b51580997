package org.yardfall.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainFindings;
import org.yardfall.drain.LineDesign;
import org.yardfall.drain.StretchDesign;
import org.yardfall.drain.TakeOff;
import org.yardfall.layer.Result;
import org.yardfall.route.Rejection;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.site.Assumption;
import org.yardfall.site.UnitSystem;

/** The tables and notes that follow the plan. */
final class PlanTables {

  private static final double SAME_GRADE = 1e-6;

  private final Result result;
  private final UnitSystem units;
  private final SheetFlow flow;
  private final Wording wording;

  private PlanTables(Result result, UnitSystem units, SheetFlow flow) {
    this.result = result;
    this.units = units;
    this.flow = flow;
    this.wording = new Wording(result, units);
  }

  /** Adds everything; the route may be null. */
  static void add(Result result, Route route, UnitSystem units, SheetFlow flow) {
    PlanTables tables = new PlanTables(result, units, flow);
    tables.cautions(route == null ? List.of() : List.of(route));
    if (route != null) {
      result.designs().stream()
          .filter(d -> d.routeId().equals(route.id()))
          .findFirst()
          .ifPresent(tables::design);
      tables.stations(route);
    } else {
      tables.rejected();
    }
    tables.ledger(route);
    tables.notes();
  }

  private void cautions(List<Route> routes) {
    flow.heading("Cautions");
    Cautions.of(result, routes, units).forEach(flow::paragraph);
  }

  private void design(DrainDesign design) {
    List<List<String>> rows = new ArrayList<>();
    for (LineDesign line : design.lines()) {
      for (List<StretchDesign> run : runs(line.stretches())) {
        StretchDesign first = run.get(0);
        StretchDesign last = run.get(run.size() - 1);
        rows.add(
            List.of(
                line.name(),
                Stationing.station(first.fromM(), units)
                    + " – "
                    + Stationing.station(last.toM(), units),
                first.pipeWords(),
                units.length(last.toM() - first.fromM()),
                UnitSystem.grade(first.grade()),
                units.flow(run.stream().mapToDouble(StretchDesign::flowM3S).max().orElseThrow()),
                units.flow(first.capacityM3S())));
      }
    }
    flow.heading("Pipe");
    flow.table(
        List.of("Line", "Stations", "Pipe", "Length", "Grade", "Peak", "Takes full"),
        new double[] {2, 3.3, 4.5, 2, 1.7, 2.2, 2.2},
        rows);
    wording.of(DrainFindings.pipes(design, result.site(), units)).forEach(flow::paragraph);
    List<List<String>> quantities = new ArrayList<>();
    for (TakeOff.Line line : design.takeOff().lines()) {
      quantities.add(
          List.of(
              wording.ofEarth(line.item()),
              PageRoutes.quantity(line, units),
              money(PageRoutes.unitPrice(line, units)),
              money(line.amount()),
              wording.ofEarth(PageRoutes.reckoning(line))));
    }
    flow.heading("Quantities");
    flow.table(
        List.of("Item", "Quantity", "Price", "Amount", "How"),
        new double[] {3.8, 2, 1.4, 1.8, 6},
        quantities);
    flow.paragraph("Price: " + PageRoutes.price(design) + ".");
  }

  /** Stretches of one pipe, one grade and one way of building, taken together. */
  private static List<List<StretchDesign>> runs(List<StretchDesign> stretches) {
    List<List<StretchDesign>> runs = new ArrayList<>();
    StretchDesign before = null;
    for (StretchDesign each : stretches) {
      boolean alike =
          before != null
              && each.pipe().equals(before.pipe())
              && each.span() == before.span()
              && Math.abs(each.grade() - before.grade()) < SAME_GRADE;
      if (!alike) {
        runs.add(new ArrayList<>());
      }
      runs.get(runs.size() - 1).add(each);
      before = each;
    }
    return runs;
  }

  private void stations(Route route) {
    List<ProfileLine> lines = ProfileLine.of(result, route);
    for (ProfileLine line : lines) {
      List<List<String>> rows = new ArrayList<>();
      for (Station s : line.line().stations()) {
        rows.add(
            List.of(
                Stationing.station(s.stationM(), units),
                Stationing.bare(s.groundM(), units),
                Stationing.bare(s.invertM(), units),
                Stationing.depth(s.depthM(), units),
                Stationing.depth(s.coverM(), units),
                UnitSystem.grade(s.grade()),
                s.span().name().toLowerCase(Locale.ROOT)));
      }
      flow.heading("Stations, " + line.name());
      flow.table(
          List.of("Station", "Ground", "Invert", "Depth", "Cover", "Grade", "Built"),
          new double[] {2, 2, 2, 2.2, 2.2, 1.8, 1.6},
          rows);
    }
  }

  private void rejected() {
    flow.heading("Drain");
    flow.paragraph("No drain can be proposed.");
    for (Rejection each : result.plan().rejected()) {
      flow.paragraph(
          each.id() + ", " + PageRoutes.words(each.kind()) + ": " + wording.of(each.sentence()));
    }
  }

  private static String money(OptionalDouble amount) {
    return amount.isPresent() ? String.format(Locale.ROOT, "%,.2f", amount.getAsDouble()) : "–";
  }

  private void ledger(Route route) {
    Optional<DrainEffect> effect = Optional.ofNullable(route).flatMap(result::effect);
    List<List<String>> rows = new ArrayList<>();
    for (BoundaryFlow each : result.flows()) {
      String least = each.atLeast() ? "≥ " : "";
      rows.add(
          List.of(
              each.id(),
              (each.enters() ? "in from " : "out to ")
                  + (each.neighbour().isEmpty()
                      ? "ground in no parcel"
                      : SheetFont.drawable(each.neighbour(), 40))
                  + FlowOrigin.note(each, units, id -> SheetFont.drawable(id, 40)),
              units.length(each.widthM()),
              least + units.area(each.areaM2()),
              least + units.flow(each.peakM3S()),
              least + units.water(each.volumeM3()),
              effect.map(e -> after(e, each)).orElse("–")));
    }
    flow.heading("Water across the property line in the design storm");
    flow.table(
        List.of(
            "",
            "Across the line",
            "Width",
            "Area",
            "Peak",
            "Volume",
            route == null ? "" : "with " + route.id()),
        new double[] {1, 3.4, 1.9, 2.4, 2.4, 2.2, 2},
        rows);
  }

  /** The volume of a flow with the drain built. */
  private String after(DrainEffect effect, BoundaryFlow flow) {
    return effect.stretches().stream()
        .filter(change -> change.before().id().equals(flow.id()))
        .findFirst()
        .map(change -> units.water(change.afterM3()))
        .orElse("–");
  }

  private void notes() {
    flow.heading("Notes");
    flow.paragraph("This sheet is a " + PlanNotes.DRAFT + ".");
    SourceNotes.of(result, units).forEach(flow::paragraph);
    if (!result.warnings().isEmpty()) {
      flow.heading("Warnings");
      wording.of(result.warnings()).forEach(flow::paragraph);
    }
    List<List<String>> assumed = new ArrayList<>();
    for (Assumption each : result.assumptions()) {
      assumed.add(List.of(each.about(), wording.of(each.value()), wording.of(each.source())));
    }
    flow.heading("Assumed");
    flow.table(List.of("About", "Value", "Source"), new double[] {2.6, 4.4, 4}, assumed);
  }
}
