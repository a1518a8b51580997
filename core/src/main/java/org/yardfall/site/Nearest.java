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
        .filter(k -> Math.abs(k.length() - sought.length()) <= Math.max(1, k.length() / 2))
        .filter(k -> distance(sought, k.toLowerCase(Locale.ROOT)) <= Math.max(1, k.length() / 2))
        .min(
            Comparator.comparingInt((String k) -> distance(sought, k.toLowerCase(Locale.ROOT)))
                .thenComparing(Comparator.naturalOrder()));
  }

  /** {@code did you mean 'x'?}, or the given words if none is near. */
  static String suggestion(String word, Collection<String> known, String otherwise) {
    return to(word, known).map(k -> "did you mean '" + k + "'?").orElse(otherwise);
  }

  /**
   * Edit distance: the least number of letters to insert, delete or replace, or of neighbours to
   * swap (optimal string alignment).
   */
  static int distance(String a, String b) {
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        if (i == 0 || j == 0) {
          d[i][j] = i + j;
          continue;
        }
        boolean same = a.charAt(i - 1) == b.charAt(j - 1);
        d[i][j] =
            Math.min(d[i - 1][j - 1] + (same ? 0 : 1), 1 + Math.min(d[i - 1][j], d[i][j - 1]));
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
        }
      }
    }
    return d[a.length()][b.length()];
  }
}
