package org.yardfall.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.yardfall.site.Assumption;

/**
 * What was assumed, by what it is about and where it comes from: what rests on one thing is one.
 */
final class AssumedNotes {

  private static final String PRACTICE = "common practice, no source";
  private static final String ASSUMED = "assumed, no source; ";

  private AssumedNotes() {}

  /**
   * Assumptions of one section of the site file, or about one thing, that have one source.
   *
   * @param about what they are about
   * @param values what was assumed, in words
   * @param source where it comes from, without the words for common practice; may be empty
   * @param practice whether it is common practice that no source is known for
   */
  record Note(String about, String values, String source, boolean practice) {

    /** The note as one sentence. */
    String sentence() {
      return about + ": " + values + (source.isEmpty() ? "" : " (" + source + ")");
    }
  }

  private record Key(String about, String source) {}

  /**
   * The notes, in the order in which their first assumption was made.
   *
   * @param words restates a sentence in the reader's units
   */
  static List<Note> of(List<Assumption> assumptions, UnaryOperator<String> words) {
    Map<Key, List<String>> values = new LinkedHashMap<>();
    for (Assumption each : assumptions) {
      int dot = each.about().indexOf('.');
      boolean section = dot > 0 && each.about().substring(0, dot).matches("[a-z-]+");
      String about = section ? each.about().substring(0, dot) : each.about();
      String value = words.apply(each.value());
      values
          .computeIfAbsent(new Key(about, each.source()), key -> new ArrayList<>())
          .add(section ? each.about().substring(dot + 1) + parted(value) : value);
    }
    List<Note> notes = new ArrayList<>();
    values.forEach(
        (key, said) -> {
          String rest = withoutPractice(key.source());
          boolean practice = !rest.equals(key.source());
          notes.add(new Note(key.about(), String.join("; ", said), words.apply(rest), practice));
        });
    return notes;
  }

  /** A quantity follows its key at once, a sentence after a colon. */
  private static String parted(String value) {
    boolean quantity = !value.isEmpty() && Character.isDigit(value.charAt(0));
    return (quantity ? " " : ": ") + value;
  }

  /**
   * A source that ends by owning to be common practice, without those words; others as they are.
   */
  private static String withoutPractice(String source) {
    if (source.equals(PRACTICE)) {
      return "";
    }
    if (source.startsWith(ASSUMED)) {
      return source.substring(ASSUMED.length());
    }
    String end = "; " + PRACTICE;
    return source.endsWith(end) ? source.substring(0, source.length() - end.length()) : source;
  }
}
