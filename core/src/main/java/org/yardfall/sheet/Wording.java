package org.yardfall.sheet;

import java.text.Bidi;
import java.util.List;
import java.util.Objects;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.yardfall.layer.CleanText;
import org.yardfall.layer.Result;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.FlowOpening;
import org.yardfall.site.LevelledSwale;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Seep;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;

/**
 * The stages' sentences in the reader's units. Names and notes that came with the data stay as they
 * were given, also where they look like a quantity.
 */
final class Wording {

  /** First of the private characters that stand for a name while a sentence is restated. */
  private static final char STAND_IN = '\uE000';

  private static final String ISOLATE = "\u2068";
  private static final String ISOLATE_END = "\u2069";

  private final UnitSystem units;
  private final List<String> given;

  Wording(Result result, UnitSystem units) {
    this.units = units;
    Site site = result.site();
    given =
        Stream.of(
                Stream.of(site.name()),
                site.parcels().stream().map(Parcel::id),
                site.buildings().stream().map(Building::id),
                site.crossings().stream().map(Crossing::id),
                site.obstacles().stream().map(Obstacle::id),
                site.openings().stream().map(FlowOpening::id),
                site.seeps().stream().map(Seep::id),
                site.levelled().stream().map(LevelledSwale::id),
                result.outlets().stream().map(Outlet::id),
                result.outlets().stream().map(Outlet::permitNote))
            .flatMap(words -> words)
            .filter(Objects::nonNull)
            .filter(word -> !units.restate(word).equals(word) || runsFromTheRight(word))
            .distinct()
            .sorted((a, b) -> Integer.compare(b.length(), a.length()))
            .toList();
  }

  private static boolean runsFromTheRight(String word) {
    return !word.isEmpty() && Bidi.requiresBidi(word.toCharArray(), 0, word.length());
  }

  /**
   * A sentence for a page, in which a name that runs from right to left does not turn the words and
   * figures after it (Unicode Standard Annex 9, isolates).
   */
  String onPage(String sentence) {
    return CleanText.of(
        restated(
            sentence,
            units::restate,
            name -> runsFromTheRight(name) ? ISOLATE + name + ISOLATE_END : name));
  }

  List<String> onPage(List<String> sentences) {
    return sentences.stream().map(this::onPage).toList();
  }

  /** A sentence. */
  String of(String sentence) {
    return restated(sentence, units::restate, name -> name);
  }

  /** A sentence whose volumes are of earth or stone. */
  String ofEarth(String sentence) {
    return restated(sentence, units::restateEarth, name -> name);
  }

  List<String> of(List<String> sentences) {
    return sentences.stream().map(this::of).toList();
  }

  private String restated(
      String sentence, UnaryOperator<String> restate, UnaryOperator<String> name) {
    String held = sentence;
    for (int i = 0; i < given.size(); i++) {
      held = held.replace(given.get(i), String.valueOf((char) (STAND_IN + i)));
    }
    String said = restate.apply(held);
    for (int i = 0; i < given.size(); i++) {
      said = said.replace(String.valueOf((char) (STAND_IN + i)), name.apply(given.get(i)));
    }
    return said;
  }
}
