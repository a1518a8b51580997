package org.yardfall.sheet;

import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainFindings;
import org.yardfall.layer.Result;
import org.yardfall.route.DrainKind;
import org.yardfall.route.Rejection;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.site.Outlet;
import org.yardfall.site.UnitSystem;

/** The summary's paragraphs on what to build and why, or why nothing can be proposed. */
final class DrainSummary {

  private static final int LISTED = 6;
  private static final int ALTERNATIVES = 3;

  private final Result result;
  private final UnitSystem units;
  private final Wording wording;
  private final TerminalText out;

  private DrainSummary(Result result, UnitSystem units, TerminalText out) {
    this.result = result;
    this.units = units;
    this.wording = new Wording(result, units);
    this.out = out;
  }

  /** Adds the paragraphs. */
  static void add(Result result, UnitSystem units, TerminalText out) {
    DrainSummary summary = new DrainSummary(result, units, out);
    if (result.routes().isEmpty()) {
      summary.none();
    } else {
      summary.best(result.routes().get(0));
      result.routes().stream().skip(1).limit(ALTERNATIVES).forEach(summary::alternative);
      summary.rejectedBeside();
    }
  }

  private void none() {
    out.paragraph("Drain: none can be proposed.");
    result.plan().rejected().stream()
        .sorted(Comparator.comparingDouble(r -> r.shortfallM().orElse(Double.MAX_VALUE)))
        .limit(LISTED)
        .forEach(
            no ->
                out.paragraph(
                    no.id() + " (" + no.kind().word() + "): " + wording.of(no.sentence()) + "."));
  }

  private void best(Route best) {
    out.paragraph(
        "Drain: "
            + measures(best)
            + ". "
            + (best.crosses().isEmpty()
                ? "It crosses nothing. "
                : "It passes " + String.join("; ", wording.of(best.crosses())) + ". ")
            + "Audit: "
            + (best.audit().passed() ? "passed" : "FAILED")
            + " ("
            + TerminalText.count(best.audit().checks().size(), "check", "checks")
            + "). "
            + sentences(wording.of(best.reasons())));
    result
        .design(best)
        .ifPresent(
            design ->
                out.paragraph(
                    String.join(" ", DrainFindings.pipes(design, result.site(), units))
                        + bill(design)));
    result.effect(best).ifPresent(this::effect);
    result
        .design(best)
        .flatMap(DrainDesign::overland)
        .ifPresent(way -> out.paragraph(sentences(List.of(wording.of(way.sentence())))));
  }

  private String measures(Route route) {
    // Where a pipe comes to daylight in a bank its end lies above the ground before it.
    double shallowest =
        Math.max(
            0, route.main().stations().stream().mapToDouble(Station::depthM).min().orElseThrow());
    return String.join(
        ", ",
        route.id(),
        route.kind().words()
            + " of "
            + units.length(route.lengthM())
            + " that falls "
            + units.elevation(route.fallM())
            + " to "
            + outlet(route.outletId())
            + "; least grade "
            + UnitSystem.grade(route.minGrade()),
        TerminalText.count(route.gradeBreaks(), "grade break", "grade breaks"),
        "depth to invert " + units.length(shallowest) + " to " + units.length(route.maxDepthM()),
        "least cover " + units.length(route.minCoverM()));
  }

  /** What is bought, and why that is not the price by which the drains were weighed. */
  private static String bill(DrainDesign design) {
    if (!(design.takeOff().total() > 0)) {
      return "";
    }
    return " What is bought comes to "
        + PageRoutes.price(design)
        + " (take-off.csv)"
        + (design.takeOff().complete()
            ? "; the net price that weighs the drains counts one pipe throughout, no fittings or"
                + " clean-outs, and nothing rounded up to rolls, lengths and loads."
            : ".");
  }

  /** What the drain changes for whom, as the ground tells it; says nothing of who is answerable. */
  private void effect(DrainEffect effect) {
    double before = effect.before().balance().outflowM3();
    double after = effect.after().balance().outflowM3();
    String rises =
        effect.anyRises()
            ? "some neighbour receives more, faster or more concentrated water than before:"
                + " results.json says who"
            : "no neighbour receives more, faster or more concentrated water than before";
    out.paragraph(
        "With the drain "
            + units.water(after)
            + " leaves the lot over the ground in the design storm, without it "
            + units.water(before)
            + "; "
            + rises
            + ".");
  }

  private void alternative(Route route) {
    out.paragraph(
        "Also "
            + route.id()
            + ": "
            + route.kind().word()
            + ", "
            + units.length(route.lengthM())
            + " to "
            + outlet(route.outletId())
            + ", deepest "
            + units.length(route.maxDepthM())
            + ".");
  }

  /**
   * Beside a drain: which kinds are not needed; a warning tells of drawn lines that do not work.
   */
  private void rejectedBeside() {
    int others = 0;
    for (Rejection each : result.plan().rejected()) {
      if (each.kind() == DrainKind.PINNED) {
        continue;
      }
      if (each.outletId().isEmpty()) {
        out.paragraph("No " + each.kind().word() + " drain: " + wording.of(each.sentence()) + ".");
      } else {
        others++;
      }
    }
    if (others > 0) {
      out.paragraph(
          TerminalText.count(others, "other was", "others were")
              + " rejected; results.json says why.");
    }
  }

  private String outlet(String id) {
    return result.outlets().stream()
            .filter(outlet -> outlet.id().equals(id))
            .map(Outlet::kind)
            .map(Outlet.Kind::word)
            .map(word -> word.replace('-', ' ') + " ")
            .findFirst()
            .orElse("")
        + TerminalText.plain(id);
  }

  private static String sentences(List<String> reasons) {
    return reasons.stream()
        .filter(reason -> !reason.isEmpty())
        .map(reason -> Character.toUpperCase(reason.charAt(0)) + reason.substring(1) + ".")
        .collect(Collectors.joining(" "));
  }
}
