package org.yardfall.site;

import java.math.BigDecimal;

/** Writes numbers of attribute tables as a person writes an id: 7, not 7.000. */
final class Numerals {

  private Numerals() {}

  static String plain(BigDecimal value) {
    return value.signum() == 0 ? "0" : value.stripTrailingZeros().toPlainString();
  }
}
