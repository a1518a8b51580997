package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Says what a line passes under or through, and how. */
final class CrossingWords {

  private CrossingWords() {}

  /** By station, each with the way it is built. */
  static List<String> of(RouteGround ground, String which, DrainLine line, Bounds b) {
    List<String> words = new ArrayList<>();
    for (RouteGround.Crossed c : ground.crossed(line.vertices())) {
      String how =
          switch (c.span()) {
            case BORED ->
                b.crossingOutsideM() < b.outsideM()
                    ? text(
                        "bored, two pipes of %.0f mm outside side by side in place of one of %.0f"
                            + " mm, which would leave a belly",
                        1000 * b.crossingOutsideM(), 1000 * b.outsideM())
                    : "bored";
            case SOLID -> "solid pipe";
            case OPEN -> "dug under";
          };
      words.add(
          text("%s, station %.1f to %.1f m: %s, %s", which, c.fromM(), c.toM(), c.what(), how));
    }
    return words;
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
