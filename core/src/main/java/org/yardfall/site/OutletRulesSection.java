package org.yardfall.site;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;

/** Reads the local rules for outlets; what is not given is as often met, and said. */
final class OutletRulesSection {

  private static final String SOURCE =
      "often met in local rules, which differ; common practice, no source";

  private final YamlSection section;
  private final List<Assumption> assumptions;

  private OutletRulesSection(YamlSection section, List<Assumption> assumptions) {
    this.section = section;
    this.assumptions = assumptions;
  }

  static OutletRules read(YamlSection section, List<Assumption> assumptions) {
    return new OutletRulesSection(section, assumptions).read();
  }

  private OutletRules read() {
    double fromHouse = value("from-house", "10 ft", Quantities::lengthM);
    double fromLine = value("from-line", "5 ft", Quantities::lengthM);
    double fromRightOfWay = value("from-right-of-way", "10 ft", Quantities::lengthM);
    double wellFromHouse = value("dry-well-from-house", "10 ft", Quantities::lengthM);
    double conductivity = value("dry-well-conductivity", "0.5 in/h", Quantities::velocityMS);
    double lidHead = value("lid-head", "0 m", Quantities::lengthM);
    boolean pumped = yes("pumped");
    double outage =
        pumped
            ? value("outage", "2 h", Quantities::timeS)
            : section.quantity("outage", Quantities::timeS).orElse(OutletRules.usual().outageS());
    boolean pumpedToStreet = yes("pumped-to-street");
    double splash = value("splash-block-slope", "1.5 %", Quantities::grade);
    double steepest = value("steepest-slope", "14 %", Quantities::grade);
    double freeboard = value("freeboard", "0.15 m", Quantities::lengthM);
    section.refuseUnknownKeys();
    return new OutletRules(
        fromHouse,
        fromLine,
        fromRightOfWay,
        wellFromHouse,
        conductivity,
        lidHead,
        pumped,
        outage,
        pumpedToStreet,
        splash,
        steepest,
        freeboard);
  }

  private double value(String key, String usual, ToDoubleFunction<String> parser) {
    OptionalDouble given = section.quantity(key, parser);
    if (given.isEmpty()) {
      assumptions.add(new Assumption("outlet-rules." + key, usual, SOURCE));
    } else if (given.getAsDouble() < 0) {
      section.problem(key, "it cannot be negative", "");
      return 0;
    }
    return given.orElseGet(() -> parser.applyAsDouble(usual));
  }

  private boolean yes(String key) {
    Optional<String> word = section.text(key).map(w -> w.strip().toLowerCase(Locale.ROOT));
    if (word.isEmpty()) {
      return false;
    }
    if (!word.get().matches("yes|true|no|false")) {
      section.problem(key, "'" + word.get() + "' is neither yes nor no", "write yes or no");
    }
    return word.get().matches("yes|true");
  }

  /** Those of the assumed rules that decide something on a site with the given outlets. */
  static List<Assumption> deciding(List<Assumption> assumed, List<Outlet> outlets, boolean lot) {
    boolean well = outlets.stream().anyMatch(o -> o.kind() == Outlet.Kind.DRY_WELL);
    boolean lid = outlets.stream().anyMatch(o -> o.lidM().isPresent());
    List<Assumption> kept = new ArrayList<>();
    for (Assumption a : assumed) {
      String key = a.about().substring(a.about().indexOf('.') + 1);
      boolean decides =
          switch (key) {
            case "lid-head" -> lid;
            case "dry-well-from-house", "dry-well-conductivity" -> well;
            default -> lot;
          };
      if (decides) {
        kept.add(a);
      }
    }
    return kept;
  }
}
