package org.yardfall.site;

import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;

/** Reads from the site file's {@code elevation} section what concerns survey shots. */
final class ElevationSection {

  private ElevationSection() {}

  static ShotInput shots(YamlSection section) {
    OptionalDouble unit = section.quantity("unit", Quantities::lengthUnitM);
    String surface = section.text("surface").orElse(null);
    OptionalDouble cell = positive(section, "cell");
    OptionalDouble edge = positive(section, "longest-edge");
    return new ShotInput(
        unit, codes(section.section("codes")), surface, cell, edge, correct(section));
  }

  private static Map<String, ShotRole> codes(YamlSection section) {
    Map<String, ShotRole> roles = new TreeMap<>();
    for (String code : section.names()) {
      String word = section.text(code).orElse("");
      Optional<ShotRole> role = Words.find(ShotRole.class, word);
      if (role.isEmpty()) {
        section.problem(
            code,
            "'" + word + "' is nothing that a shot can stand for",
            Words.mend(ShotRole.class, word));
      } else {
        roles.put(code, role.get());
      }
    }
    return roles;
  }

  private static boolean correct(YamlSection section) {
    Optional<String> word = section.text("correct");
    if (word.isEmpty()) {
      return false;
    }
    switch (word.get()) {
      case "true", "yes" -> {
        return true;
      }
      case "false", "no" -> {
        return false;
      }
      default -> {
        section.problem("correct", "'" + word.get() + "' is neither true nor false", "");
        return false;
      }
    }
  }

  private static OptionalDouble positive(YamlSection section, String key) {
    OptionalDouble length = section.quantity(key, Quantities::lengthM);
    if (length.isPresent() && !(length.getAsDouble() > 0)) {
      section.problem(key, "the length must be above 0", "");
      return OptionalDouble.empty();
    }
    return length;
  }
}
