package org.yardfall.route;

import java.util.Locale;

/** The kinds of drain that are proposed. */
public enum DrainKind {
  /** Follows the property line, against inflow from neighbours. */
  PERIMETER,
  /** Goes round the building, close to it. */
  CURTAIN,
  /** Follows the swale through the low spots. */
  LOW_SPOT,
  /** Follows the line that the user drew. */
  PINNED;

  /** The word used in files: lower case with hyphens. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
