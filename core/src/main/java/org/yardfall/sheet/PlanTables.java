package org.yardfall.sheet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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
import org.yardfall.site.UnitSystem;

/** The tables and notes that follow the plan. */
final class PlanTables {

  private static final double SAME_GRADE = 1e-6;
  private static final int SIDE_BY_SIDE = 4;
  private static final int NAME = 60;

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
      tables.why(route);
      result.designs().stream()
          .filter(d -> d.routeId().equals(route.id()))
          .findFirst()
          .ifPresent(tables::design);
      tables.points(route);
    } else {
      tables.rejected();
    }
    LedgerTable.add(result, route, units, flow);
    tables.notes();
  }

  private void cautions(List<Route> routes) {
    flow.heading("Cautions");
    Cautions.of(result, routes, units).forEach(flow::paragraph);
    if (!result.warnings().isEmpty()) {
      flow.heading("Warnings");
      wording.of(result.warnings()).forEach(flow::paragraph);
    }
  }

  /** Why this drain, and what the others would be. */
  private void why(Route route) {
    flow.heading("Why " + route.id());
    wording.of(route.reasons()).forEach(flow::paragraph);
    List<Route> beside = result.routes().stream().limit(SIDE_BY_SIDE).toList();
    if (beside.size() < 2) {
      return;
    }
    List<Map<String, String>> facts =
        beside.stream().map(each -> RouteFacts.of(result, each, units)).toList();
    List<String> heads = new ArrayList<>(List.of(""));
    beside.forEach(each -> heads.add(each.id()));
    List<List<String>> rows = new ArrayList<>();
    for (String name : facts.get(0).keySet()) {
      List<String> row = new ArrayList<>(List.of(name));
      facts.forEach(each -> row.add(SheetFont.drawable(each.get(name), NAME)));
      rows.add(row);
    }
    double[] weights = new double[heads.size()];
    Arrays.fill(weights, 2);
    flow.heading("Side by side");
    flow.table(heads, weights, rows);
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
    quantities(design);
  }

  /** What is needed and bought, with prices where any were given. */
  private void quantities(DrainDesign design) {
    boolean priced = design.takeOff().lines().stream().anyMatch(line -> line.amount().isPresent());
    List<List<String>> rows = new ArrayList<>();
    for (TakeOff.Line line : design.takeOff().lines()) {
      List<String> row = new ArrayList<>();
      row.add(wording.ofEarth(line.item()));
      row.add(PageRoutes.quantity(line, units));
      if (priced) {
        row.add(money(PageRoutes.unitPrice(line, units)));
        row.add(money(line.amount()));
      }
      row.add(wording.ofEarth(PageRoutes.reckoning(line)));
      rows.add(row);
    }
    flow.heading("Quantities");
    if (priced) {
      List<String> heads = List.of("Item", "Quantity", "Price", "Amount", "How");
      flow.table(heads, new double[] {3.8, 2, 1.4, 1.8, 6}, rows);
    } else {
      flow.table(List.of("Item", "Quantity", "How"), new double[] {3.8, 2, 9.2}, rows);
    }
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

  private void points(Route route) {
    List<List<LinePoints.Point>> lines = LinePoints.of(result, route);
    for (int i = 0; i < lines.size(); i++) {
      List<List<String>> rows = new ArrayList<>();
      for (LinePoints.Point point : lines.get(i)) {
        Station s = point.station();
        rows.add(
            List.of(
                Stationing.station(s.stationM(), units),
                Stationing.bare(s.groundM(), units),
                Stationing.bare(s.invertM(), units),
                Stationing.depth(s.depthM(), units),
                Stationing.depth(s.coverM(), units),
                UnitSystem.grade(s.grade()),
                point.what()));
      }
      flow.heading("Points of " + route.id() + (i == 0 ? " main line" : " branch " + i));
      flow.table(
          List.of("Station", "Ground", "Invert", "Depth", "Cover", "Grade", "What"),
          new double[] {1.8, 1.6, 1.6, 1.7, 1.7, 1.5, 4.6},
          rows);
    }
    flow.paragraph("Every station stands under the profile and in the cut sheet.");
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

  private void notes() {
    flow.heading("Notes");
    flow.paragraph("This sheet is a " + PlanNotes.DRAFT + ".");
    SourceNotes.of(result, units).forEach(flow::paragraph);
    List<AssumedNotes.Note> assumed = AssumedNotes.of(result.assumptions(), wording::of);
    assumed(assumed, true, "Assumed by common practice, for which no source is known");
    assumed(assumed, false, "Assumed, with where it comes from");
  }

  private void assumed(List<AssumedNotes.Note> notes, boolean practice, String heading) {
    List<AssumedNotes.Note> here = notes.stream().filter(n -> n.practice() == practice).toList();
    if (!here.isEmpty()) {
      flow.heading(heading);
      here.forEach(note -> flow.paragraph(note.sentence()));
    }
  }
}
