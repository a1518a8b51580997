package org.yardfall.sheet;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.UnitSystem;

/**
 * Whose ground the water of a crossing fell on: the parcel across the line is often only the last
 * that it ran over.
 */
final class FlowOrigin {

  /** Less than this share of the ground is not worth a word. */
  private static final double SLIGHT = 0.02;

  private final BoundaryFlow flow;
  private final UnitSystem units;
  private final UnaryOperator<String> names;

  private FlowOrigin(BoundaryFlow flow, UnitSystem units, UnaryOperator<String> names) {
    this.flow = flow;
    this.units = units;
    this.names = names;
  }

  /**
   * A sentence on ground beyond the parcel across the line, blank at its end; empty where there is
   * next to none or the water leaves.
   *
   * @param names makes text from the data fit to be shown
   */
  static String sentence(BoundaryFlow flow, UnitSystem units, UnaryOperator<String> names) {
    FlowOrigin origin = new FlowOrigin(flow, units, names);
    List<String> farther = origin.farther();
    return farther.isEmpty()
        ? ""
        : "Of the "
            + units.area(flow.areaM2())
            + " that drain there "
            + units.area(flow.ownM2())
            + " are "
            + origin.name(flow.neighbour())
            + " itself; through it comes the water of "
            + String.join(", ", farther)
            + ". ";
  }

  /** The same in brackets, for a table. */
  static String note(BoundaryFlow flow, UnitSystem units, UnaryOperator<String> names) {
    List<String> farther = new FlowOrigin(flow, units, names).farther();
    return farther.isEmpty() ? "" : " (through it " + String.join(", ", farther) + ")";
  }

  /** Ground beyond the parcel across the line, largest first. */
  private List<String> farther() {
    return flow.enters()
        ? flow.areaByParcelM2().entrySet().stream()
            .filter(e -> !e.getKey().equals(flow.neighbour()))
            .filter(e -> e.getValue() > SLIGHT * flow.areaM2())
            .sorted(Comparator.comparing(Map.Entry<String, Double>::getValue).reversed())
            .map(e -> name(e.getKey()) + " " + units.area(e.getValue()))
            .collect(Collectors.toList())
        : List.of();
  }

  private String name(String parcel) {
    return parcel.isEmpty() ? "ground in no parcel" : "parcel " + names.apply(parcel);
  }
}
