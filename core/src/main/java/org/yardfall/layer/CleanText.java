package org.yardfall.layer;

import java.nio.charset.StandardCharsets;

/**
 * Text that came with the data, made fit for every file format. It stays data: nothing in it is
 * dropped but what no format can hold.
 */
public final class CleanText {

  private static final char REPLACEMENT = '\uFFFD';

  private CleanText() {}

  /**
   * The text with control characters and broken surrogate pairs, which XML and UTF-8 cannot hold,
   * replaced by U+FFFD and line breaks by spaces. Null stays null.
   */
  public static String of(String text) {
    if (text == null) {
      return null;
    }
    StringBuilder clean = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            c -> {
              if (c == '\n' || c == '\r' || c == '\t') {
                clean.append(' ');
              } else if (Character.isISOControl(c)
                  || (c >= Character.MIN_SURROGATE && c <= Character.MAX_SURROGATE)
                  || (c & 0xFFFE) == 0xFFFE) {
                clean.append(REPLACEMENT);
              } else {
                clean.appendCodePoint(c);
              }
            });
    return clean.toString();
  }

  /** As {@link #of}, but null where nothing is left to read. */
  public static String orNull(String text) {
    String clean = of(text);
    return clean == null || clean.isBlank() ? null : clean;
  }

  /** The longest beginning of the text that takes no more than the given bytes in UTF-8. */
  public static String cut(String text, int bytes) {
    if (text.getBytes(StandardCharsets.UTF_8).length <= bytes) {
      return text;
    }
    int used = 0;
    int end = 0;
    while (end < text.length()) {
      int c = text.codePointAt(end);
      used += c < 0x80 ? 1 : c < 0x800 ? 2 : c < 0x10000 ? 3 : 4;
      if (used > bytes) {
        break;
      }
      end += Character.charCount(c);
    }
    return text.substring(0, end);
  }

  /**
   * The text for a cell of a table that a spreadsheet may open: a text that a spreadsheet would
   * take for a formula gets an apostrophe in front, by which spreadsheets mark text.
   */
  public static String cell(String text) {
    String clean = of(text);
    String start = clean == null ? "" : clean.stripLeading();
    return !start.isEmpty() && "=+-@".indexOf(start.charAt(0)) >= 0 ? "'" + clean : clean;
  }

  /**
   * The text for a viewer that would take markup in it for its own: angle brackets become single
   * guillemets, so that no tag is left.
   */
  public static String withoutMarkup(String text) {
    return text.replace('<', '\u2039').replace('>', '\u203A');
  }
}
