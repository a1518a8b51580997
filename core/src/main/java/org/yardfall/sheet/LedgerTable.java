package org.yardfall.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.site.UnitSystem;

/**
 * What crosses the property line in the design storm, now and with the drain; the many slight
 * crossings are taken together.
 */
final class LedgerTable {

  /** Crossings with less than this share of the largest one's volume are slight. */
  private static final double SLIGHT = 0.01;

  private static final int NAME = 40;

  private final UnitSystem units;
  private final Optional<DrainEffect> effect;

  private LedgerTable(Result result, Route route, UnitSystem units) {
    this.units = units;
    this.effect = Optional.ofNullable(route).flatMap(result::effect);
  }

  /** Adds the table; the route may be null. */
  static void add(Result result, Route route, UnitSystem units, SheetFlow flow) {
    LedgerTable table = new LedgerTable(result, route, units);
    double most = result.flows().stream().mapToDouble(BoundaryFlow::volumeM3).max().orElse(0);
    List<List<String>> rows = new ArrayList<>();
    for (boolean enters : new boolean[] {true, false}) {
      List<BoundaryFlow> slight = new ArrayList<>();
      for (BoundaryFlow each : result.flows()) {
        if (each.enters() == enters && each.volumeM3() < SLIGHT * most) {
          slight.add(each);
        } else if (each.enters() == enters) {
          rows.add(table.row(each));
        }
      }
      if (slight.size() == 1) {
        rows.add(table.row(slight.get(0)));
      } else if (!slight.isEmpty()) {
        rows.add(table.together(slight, enters));
      }
    }
    List<String> heads =
        new ArrayList<>(List.of("", "Across the line", "Width", "Area", "Peak", "Volume"));
    double[] weights = {1, 3.4, 1.9, 2.4, 2.4, 2.2};
    if (table.effect.isPresent()) {
      heads.add("with " + route.id());
      weights = new double[] {1, 3.4, 1.9, 2.4, 2.4, 2.2, 2};
    }
    flow.heading("Water across the property line in the design storm");
    flow.table(heads, weights, rows);
  }

  private List<String> row(BoundaryFlow each) {
    String least = each.atLeast() ? "≥ " : "";
    List<String> row =
        new ArrayList<>(
            List.of(
                each.id(),
                (each.enters() ? "in from " : "out to ")
                    + (each.neighbour().isEmpty()
                        ? "ground in no parcel"
                        : SheetFont.drawable(each.neighbour(), NAME))
                    + FlowOrigin.note(each, units, id -> SheetFont.drawable(id, NAME)),
                units.length(each.widthM()),
                least + units.area(each.areaM2()),
                least + units.flow(each.peakM3S()),
                least + units.water(each.volumeM3())));
    effect.map(e -> water(afterM3(e, each))).ifPresent(row::add);
    return row;
  }

  /** Their peaks do not come at once, so that no sum of them means anything. */
  private List<String> together(List<BoundaryFlow> slight, boolean enters) {
    String least = slight.stream().anyMatch(BoundaryFlow::atLeast) ? "≥ " : "";
    List<String> row =
        new ArrayList<>(
            List.of(
                "",
                slight.size() + " slight ones " + (enters ? "in" : "out") + ", all in results.json",
                units.length(slight.stream().mapToDouble(BoundaryFlow::widthM).sum()),
                least + units.area(slight.stream().mapToDouble(BoundaryFlow::areaM2).sum()),
                "–",
                least + units.water(slight.stream().mapToDouble(BoundaryFlow::volumeM3).sum())));
    effect
        .map(e -> slight.stream().mapToDouble(flow -> afterM3(e, flow)).sum())
        .map(this::water)
        .ifPresent(row::add);
    return row;
  }

  private String water(double volumeM3) {
    return Double.isNaN(volumeM3) ? "–" : units.water(volumeM3);
  }

  /** The volume of a flow with the drain built; NaN where it is not known. */
  private static double afterM3(DrainEffect drain, BoundaryFlow flow) {
    return drain.stretches().stream()
        .filter(change -> change.before().id().equals(flow.id()))
        .mapToDouble(DrainEffect.StretchChange::afterM3)
        .findFirst()
        .orElse(Double.NaN);
  }
}
