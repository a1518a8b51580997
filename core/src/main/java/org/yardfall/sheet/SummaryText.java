package org.yardfall.sheet;

import java.util.List;
import org.yardfall.layer.Result;
import org.yardfall.site.Assumption;
import org.yardfall.site.UnitSystem;

/** The few lines that a person reads on the terminal: what the water does, what to build, why. */
public final class SummaryText {

  private final Result result;
  private final Wording wording;
  private final TerminalText out = new TerminalText();

  private SummaryText(Result result, UnitSystem units) {
    this.result = result;
    this.wording = new Wording(result, units);
  }

  /** The summary of a whole job. */
  public static String ofPlan(Result result, UnitSystem units) {
    SummaryText text = new SummaryText(result, units);
    text.heading();
    text.out.paragraph(WaterSummary.of(result, units));
    DrainSummary.add(result, units, text.out);
    text.warnings();
    result.routes().stream()
        .limit(1)
        .forEach(best -> text.cautions(Cautions.of(result, List.of(best), units)));
    text.assumptions();
    return text.out.toString();
  }

  /** The summary of the surface water alone. */
  public static String ofWater(Result result, UnitSystem units) {
    SummaryText text = new SummaryText(result, units);
    text.heading();
    text.out.paragraph(WaterSummary.of(result, units));
    text.warnings();
    text.assumptions();
    return text.out.toString();
  }

  private void heading() {
    String lot =
        result.site().lot().map(parcel -> "lot " + TerminalText.plain(parcel.id())).orElse("");
    String name = TerminalText.plain(result.site().name());
    String heading = name + (name.isEmpty() || lot.isEmpty() ? "" : ", ") + lot;
    if (!heading.isEmpty()) {
      out.paragraph(heading);
    }
  }

  /** Without those that only repeat why a drawn line was rejected, where all rejections stand. */
  private void warnings() {
    for (String warning : result.warnings()) {
      boolean said =
          result.routes().isEmpty()
              && result.plan().rejected().stream().anyMatch(no -> warning.endsWith(no.sentence()));
      if (!said) {
        out.paragraph("Warning: " + wording.of(warning));
      }
    }
  }

  private void cautions(List<String> cautions) {
    cautions.forEach(caution -> out.paragraph("Caution: " + caution));
  }

  private void assumptions() {
    List<Assumption> assumed = result.assumptions();
    if (!assumed.isEmpty()) {
      out.paragraph(
          TerminalText.count(assumed.size(), "assumption", "assumptions")
              + " made; results.json lists them.");
    }
  }
}
