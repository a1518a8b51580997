package org.yardfall.fieldwork;

import java.util.Locale;

/** The words of enumerated values in tables and pages. */
final class Words {

  private Words() {}

  /** The value's name in lower case, words apart. */
  static String of(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
