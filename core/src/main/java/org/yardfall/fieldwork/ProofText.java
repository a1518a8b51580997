package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.yardfall.elevation.Shot;
import org.yardfall.site.Assumption;

/** A proof as a table and as a page. */
final class ProofText {

  private ProofText() {}

  static String csv(AsBuiltProof proof, FieldUnits units) {
    String unit = "_" + units.unit();
    CsvText csv =
        new CsvText(
            "line",
            "shot",
            "station" + unit,
            "offset_right" + unit,
            "planned_invert" + unit,
            "built_invert" + unit,
            "difference" + unit,
            "cover" + unit,
            "grade_to_next_percent",
            "verdict");
    for (ProofShot shot : proof.shots()) {
      csv.row(
          shot.line(),
          shot.shot().id(),
          units.station(shot.stationM()),
          units.length(shot.offsetM()),
          units.length(shot.plannedM()),
          units.length(shot.builtM()),
          units.length(shot.differenceM()),
          units.length(shot.coverM()),
          grade(shot),
          verdict(shot, proof.limits()));
    }
    for (Blunder blunder : proof.blunders()) {
      csv.row(
          blunder.line(),
          blunder.shot().id(),
          units.station(blunder.stationM()),
          "",
          "",
          units.length(blunder.shot().z() - proof.limits().rodToInvertM()),
          units.length(blunder.offM()),
          "",
          "",
          "blunder: shoot again");
    }
    for (Shot stray : proof.strays()) {
      csv.row("", stray.id(), "", "", "", "", "", "", "", "not on the line");
    }
    return csv.toString();
  }

  static String page(AsBuiltProof proof, FieldUnits units) {
    PrintPage page = PrintPage.dense("As built: route " + proof.route().id());
    page.verdict(proof.passed() ? "PASSED" : "NOT PASSED");
    page.list(sentences(proof, units));
    page.side().heading("Checks, in " + units.unit());
    page.table(List.of("<Check", "<Result", "Worst", "Limit", "<Where"));
    for (ProofCheck check : proof.checks()) {
      page.row(
          List.of(
              "<" + check.name(),
              "<" + (check.passed() ? "passed" : "FAILED"),
              "!" + (Double.isFinite(check.worstM()) ? units.length(check.worstM()) : ""),
              units.length(check.limitM()),
              "<" + check.where(units)));
    }
    page.endTable();
    page.beside().heading("Profile as built over planned");
    page.drawing(ProfileDrawing.svg(proof, units)).under();
    page.heading("Shots, in " + units.unit()).side();
    int half = (proof.shots().size() + 1) / 2;
    shots(page, proof, proof.shots().subList(0, half), units);
    page.beside();
    shots(page, proof, proof.shots().subList(half, proof.shots().size()), units);
    page.under();
    page.paragraph(
        "Inverts "
            + (proof.limits().held() == ProofLimits.Held.INVERT
                ? "as shot"
                : "from shots on top of the pipe, less "
                    + units.words(proof.limits().rodToInvertM()))
            + "; cover against the planned ground.");
    List<String> sources = new ArrayList<>();
    for (Assumption source : ProofLimits.sources()) {
      sources.add(
          source.about().replace("proof.", "") + ": " + source.value() + " – " + source.source());
    }
    return page.paragraph("The usual limits: " + String.join("; ", sources) + ".").toString();
  }

  private static void shots(
      PrintPage page, AsBuiltProof proof, List<ProofShot> shots, FieldUnits units) {
    page.table(
        List.of(
            "<Line",
            "<Shot",
            "Station",
            "Offset (right +)",
            "Planned",
            "Built",
            "Difference",
            "Cover",
            "Grade to next %",
            "<Verdict"));
    for (ProofShot shot : shots) {
      page.row(
          List.of(
              "<" + shot.line(),
              "<" + shot.shot().id(),
              units.station(shot.stationM()),
              units.length(shot.offsetM()),
              units.length(shot.plannedM()),
              units.length(shot.builtM()),
              "!" + units.length(shot.differenceM()),
              units.length(shot.coverM()),
              grade(shot),
              "<" + verdict(shot, proof.limits())));
    }
    page.endTable();
  }

  /** What was found, in sentences. */
  static List<String> sentences(AsBuiltProof proof, FieldUnits units) {
    List<String> sentences = new ArrayList<>();
    for (Blunder blunder : proof.blunders()) {
      sentences.add(
          "Shot %s at station %s of %s lies %s %s its neighbours%s: shoot it again."
              .formatted(
                  blunder.shot().id(),
                  units.station(blunder.stationM()),
                  Prover.spoken(blunder.line()),
                  units.words(Math.abs(blunder.offM())),
                  blunder.offM() > 0 ? "above" : "below",
                  blunder.hint().isEmpty() ? "" : " (" + blunder.hint() + "?)"));
    }
    for (Belly belly : proof.bellies()) {
      if (belly.depthM() > proof.limits().noiseM()) {
        sentences.add(
            "Belly in %s from station %s to %s: %s long, %s deep, holds %s of water."
                .formatted(
                    Prover.spoken(belly.line()),
                    units.station(belly.fromM()),
                    units.station(belly.toM()),
                    units.words(belly.lengthM()),
                    units.words(belly.depthM()),
                    units.volume(belly.volumeM3())));
      }
    }
    sentences.addAll(proof.winterSentences(units));
    for (Gap gap : proof.gaps()) {
      sentences.add(
          "No shot shows %s from station %s to %s (%s)."
              .formatted(
                  Prover.spoken(gap.line()),
                  units.station(gap.fromM()),
                  units.station(gap.toM()),
                  units.words(gap.lengthM())));
    }
    if (!proof.strays().isEmpty()) {
      sentences.add("Not on the line and left out: " + ShotSense.ids(proof.strays()) + ".");
    }
    sentences.addAll(proof.notes());
    return sentences;
  }

  private static String verdict(ProofShot shot, ProofLimits limits) {
    List<String> faults = new ArrayList<>();
    if (Math.abs(shot.differenceM()) > limits.levelM()) {
      faults.add(shot.differenceM() > 0 ? "high" : "low");
    }
    if (Math.abs(shot.offsetM()) > limits.offsetM()) {
      faults.add("off line");
    }
    if (shot.gradeToNext() < 0) {
      faults.add("adverse grade");
    }
    return faults.isEmpty() ? "ok" : String.join(", ", faults);
  }

  private static String grade(ProofShot shot) {
    return Double.isNaN(shot.gradeToNext())
        ? ""
        : String.format(Locale.ROOT, "%.2f", shot.gradeToNext() * 100);
  }
}
