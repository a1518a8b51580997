package org.yardfall.layer;

import java.util.Locale;

/** The words by which files name the kinds that the program knows. */
final class Words {

  private Words() {}

  /** A constant's word: lower case with hyphens. */
  static String of(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The constant of the given word. */
  static <E extends Enum<E>> E parse(Class<E> type, String word) {
    return Enum.valueOf(type, word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
