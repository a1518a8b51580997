package org.yardfall.sheet;

import java.awt.BasicStroke;
import java.awt.Color;
import org.yardfall.layer.LayerStyle;
import org.yardfall.layer.Symbol;
import org.yardfall.route.DrainKind;

/**
 * The colours and pens of the drawings: those of the layers' styles, so that a drain has one colour
 * on the page, on the sheet and in a desktop GIS. Greys and browns of the ground come beside them.
 */
final class Ink {

  static final Color BLACK = Color.BLACK;
  static final Color PAPER = Color.WHITE;
  static final Color DIM = new Color(0x555555);
  static final Color FAINT = new Color(0xB8B8B8);
  static final Color GROUND = new Color(0x6B4E2E);
  static final Color CONTOUR = new Color(0x9A8466);

  private Ink() {}

  /** The colour of a layer's only or first rule. */
  static Color of(String layer) {
    return colour(LayerStyle.of(layer).rules().get(0).symbol());
  }

  /** The colour of a kind of drain. */
  static Color of(DrainKind kind) {
    return of("drains", kind.word());
  }

  /** The colour of the rule of a layer that asks for a value. */
  static Color of(String layer, String value) {
    return LayerStyle.of(layer).rules().stream()
        .filter(rule -> rule.test().map(test -> test.value().equals(value)).orElse(true))
        .findFirst()
        .map(rule -> colour(rule.symbol()))
        .orElse(BLACK);
  }

  static Color faded(Color colour, double opacity) {
    return new Color(
        colour.getRed(), colour.getGreen(), colour.getBlue(), (int) Math.round(255 * opacity));
  }

  static BasicStroke pen(double points) {
    return new BasicStroke((float) points, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND);
  }

  static BasicStroke dashes(double points, double... pattern) {
    float[] dash = new float[pattern.length];
    for (int i = 0; i < dash.length; i++) {
      dash[i] = (float) pattern[i];
    }
    return new BasicStroke(
        (float) points, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 4, dash, 0);
  }

  private static Color colour(Symbol symbol) {
    return Color.decode(symbol.stroke());
  }
}
