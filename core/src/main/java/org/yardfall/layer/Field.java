package org.yardfall.layer;

/**
 * A field of a map layer, named alike in every format.
 *
 * @param name 1 to 10 characters a–z, 0–9 and underscore, beginning with a letter; a unit at its
 *     end
 * @param type what it holds
 * @param decimals decimals kept, for {@link Type#REAL}; 0 otherwise
 */
public record Field(String name, Type type, int decimals) {

  /** What a field holds; any value may be missing. */
  public enum Type {
    /** Text ({@link String}). */
    TEXT,
    /** A whole number ({@link Integer}). */
    INTEGER,
    /** A number with decimals ({@link Double}). */
    REAL
  }

  /** Checks the name, so that no format has to change it. */
  public Field {
    if (!name.matches("[a-z][a-z0-9_]{0,9}")) {
      throw new IllegalArgumentException("field name " + name);
    }
  }
}
