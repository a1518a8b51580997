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
  /** Takes the place of a swale that is levelled. */
  SWALE,
  /** Passes uphill of a wet patch and takes the water that feeds it from below. */
  INTERCEPTOR,
  /** Follows the line that the user drew. */
  PINNED;

  /** The word used in files: lower case with hyphens. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** A drain of the kind, with its article. */
  public String words() {
    return (this == INTERCEPTOR ? "an " : "a ") + word() + " drain";
  }
}
