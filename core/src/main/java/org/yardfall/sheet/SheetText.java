package org.yardfall.sheet;

import java.awt.Color;
import java.awt.Graphics2D;
import java.util.ArrayList;
import java.util.List;

/** Text broken into lines of a width. */
final class SheetText {

  private static final int MOST = 600;
  private static final double SPACING = 1.2;

  private SheetText() {}

  /** The lines of a text; a word longer than a line is broken. */
  static List<String> wrap(String text, double size, double width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : SheetFont.drawable(text, MOST).split(" ", -1)) {
      String rest = word;
      if (line.length() > 0 && SheetFont.width(line + " " + rest, size) > width) {
        lines.add(line.toString());
        line.setLength(0);
      }
      while (SheetFont.width(rest, size) > width && rest.codePointCount(0, rest.length()) > 1) {
        int fits = rest.offsetByCodePoints(0, 1);
        while (fits < rest.length()
            && SheetFont.width(rest.substring(0, rest.offsetByCodePoints(fits, 1)), size)
                <= width) {
          fits = rest.offsetByCodePoints(fits, 1);
        }
        lines.add(rest.substring(0, fits));
        rest = rest.substring(fits);
      }
      line.append(line.length() > 0 ? " " : "").append(rest);
    }
    lines.add(line.toString());
    return lines;
  }

  static double height(int lines, double size) {
    return lines * size * SPACING;
  }

  /** Draws lines with the top of the first at y. */
  static void draw(
      Graphics2D g, List<String> lines, double size, Color colour, double x, double y) {
    g.setColor(colour);
    for (int i = 0; i < lines.size(); i++) {
      SheetFont.draw(g, lines.get(i), size, x, y + size * (0.95 + i * SPACING));
    }
  }
}
