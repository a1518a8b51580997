package org.yardfall.site;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/** Keys and values of a section of a site file, in their order, to be written. */
final class YamlKeys {

  private final Map<String, String> values = new LinkedHashMap<>();

  /** Keys and values in turn; null values are left out. */
  static YamlKeys of(String... keysAndValues) {
    YamlKeys keys = new YamlKeys();
    for (int i = 0; i < keysAndValues.length; i += 2) {
      keys.put(keysAndValues[i], keysAndValues[i + 1]);
    }
    return keys;
  }

  /** Adds a key; nothing where its value is null. */
  void put(String key, String value) {
    if (value != null) {
      values.put(key, value);
    }
  }

  /** Adds a key as a comment, with the value that was assumed and where that comes from. */
  void putAssumed(String key, Assumption assumed) {
    values.put("# " + key, assumed.value() + "   (" + assumed.source() + ")");
  }

  /** The section as a block; empty without keys, a comment where every key is one. */
  String block(String name) {
    if (values.isEmpty()) {
      return "";
    }
    boolean given = values.keySet().stream().anyMatch(key -> !key.startsWith("#"));
    StringBuilder block = new StringBuilder((given ? "" : "# ") + name + ":\n");
    values.forEach(
        (key, value) -> block.append("  ").append(key).append(": ").append(value).append('\n'));
    return block.toString();
  }

  /** The keys on one line. */
  String line() {
    return values.entrySet().stream()
        .map(e -> e.getKey() + ": " + e.getValue())
        .collect(Collectors.joining(", ", "{ ", " }"));
  }

  /** A double-quoted scalar: text from outside stays text, whatever it holds. Null stays null. */
  static String text(String value) {
    if (value == null) {
      return null;
    }
    StringBuilder quoted = new StringBuilder("\"");
    for (int i = 0; i < value.length(); i++) {
      char c = value.charAt(i);
      switch (c) {
        case '"' -> quoted.append("\\\"");
        case '\\' -> quoted.append("\\\\");
        case '\n' -> quoted.append("\\n");
        case '\t' -> quoted.append("\\t");
        default -> {
          boolean plain =
              c >= ' ' && c != 0x7f && !(c >= 0x80 && c < 0xa0) && c != 0xfeff && c < 0xfffe;
          quoted.append(plain ? String.valueOf(c) : String.format(Locale.ROOT, "\\u%04X", (int) c));
        }
      }
    }
    return quoted.append('"').toString();
  }
}
