package org.yardfall.route;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;

/** Figures as a reader wants them: no more digits than mean something. */
final class Figures {

  private Figures() {}

  /** An area in m², to ten square metres from a hundred on. */
  static String area(double m2) {
    return m2 < 100
        ? String.format(Locale.ROOT, "%.0f m²", m2)
        : String.format(Locale.ROOT, "%d m²", 10 * Math.round(m2 / 10));
  }

  /** A price, to ten from a thousand on; from where the currency is not said, without one. */
  static String price(double price) {
    return price < 1000
        ? String.format(Locale.ROOT, "%.0f", price)
        : String.format(Locale.ROOT, "%d", 10 * Math.round(price / 10));
  }

  /** A price per unit, to two figures. */
  static String rate(double price) {
    return new BigDecimal(price)
        .round(new MathContext(2))
        .setScale(
            Math.max(0, 1 - (int) Math.floor(Math.log10(Math.max(price, 1e-6)))),
            RoundingMode.HALF_UP)
        .toPlainString();
  }
}
