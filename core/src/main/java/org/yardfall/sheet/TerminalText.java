package org.yardfall.sheet;

import java.util.regex.Pattern;

/** Paragraphs wrapped for a terminal, which nothing from the data can steer or flood. */
final class TerminalText {

  private static final int WRAP = 96;
  private static final Pattern SPACES = Pattern.compile(" +");

  private final StringBuilder out = new StringBuilder();

  /** Lines of words; names from outside stand in the stages' sentences too. */
  void paragraph(String text) {
    int column = 0;
    for (String given : SPACES.split(text.strip(), -1)) {
      String word = plain(given);
      if (column > 0 && column + 1 + word.length() > WRAP) {
        out.append("\n  ");
        column = 2;
      } else if (column > 0) {
        out.append(' ');
        column++;
      }
      out.append(word);
      column += word.length();
    }
    out.append('\n');
  }

  @Override
  public String toString() {
    return out.toString();
  }

  /** Text from outside, without anything that could steer a terminal. */
  static String plain(String text) {
    String clean = text.replaceAll("[\\p{Cc}\\p{Cf}\\p{Zl}\\p{Zp}]", "?");
    return clean.length() <= 60 ? clean : clean.substring(0, 57) + "...";
  }

  static String count(int n, String one, String many) {
    return n + " " + (n == 1 ? one : many);
  }
}
