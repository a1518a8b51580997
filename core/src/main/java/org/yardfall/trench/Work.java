package org.yardfall.trench;

/** How a stretch of drain is built, as far as its price goes. */
public enum Work {
  /** Open trench, perforated pipe in stone. */
  OPEN,
  /** Open trench, solid pipe in stone. */
  SOLID,
  /** Open trench through roots, solid pipe in stone. */
  ROOT_ZONE,
  /** Bored, solid pipe, nothing dug. */
  BORED
}
