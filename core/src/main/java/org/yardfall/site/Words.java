package org.yardfall.site;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The words that stand for enum constants in files: lower case with hyphens. */
final class Words {

  private Words() {}

  static String of(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The constant of the given word; blanks and underscores stand for hyphens. */
  static <E extends Enum<E>> Optional<E> find(Class<E> type, String word) {
    String plain = word.strip().toLowerCase(Locale.ROOT).replaceAll("[ _]+", "-");
    return Arrays.stream(type.getEnumConstants()).filter(c -> of(c).equals(plain)).findFirst();
  }

  /** What to say of a word that stands for none of the constants. */
  static String mend(Class<? extends Enum<?>> type, String word) {
    List<String> known = Arrays.stream(type.getEnumConstants()).map(Words::of).toList();
    return Nearest.to(word, known).map(k -> "did you mean '" + k + "'? ").orElse("")
        + "known are "
        + String.join(", ", known);
  }
}
