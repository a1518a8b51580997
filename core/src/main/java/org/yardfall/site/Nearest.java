package org.yardfall.site;

import java.util.Collection;
import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;

/** Finds the word that was probably meant: the one with the least edit distance. */
final class Nearest {

  private Nearest() {}

  /** The known word nearest to the given one, ignoring case; empty if none is near. */
  static Optional<String> to(String word, Collection<String> known) {
    String sought = word.toLowerCase(Locale.ROOT);
    return known.stream()
        .filter(k -> distance(sought, k.toLowerCase(Locale.ROOT)) <= Math.max(1, k.length() / 2))
        .min(
            Comparator.comparingInt((String k) -> distance(sought, k.toLowerCase(Locale.ROOT)))
                .thenComparing(Comparator.naturalOrder()));
  }

  /** {@code did you mean 'x'?}, or the given words if none is near. */
  static String suggestion(String word, Collection<String> known, String otherwise) {
    return to(word, known).map(k -> "did you mean '" + k + "'?").orElse(otherwise);
  }

  /** Levenshtein distance: the least number of letters to insert, delete or replace. */
  static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int replaced = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(replaced, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[b.length()];
  }
}
