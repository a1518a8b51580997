package org.yardfall.site;

import java.util.Map;
import java.util.TreeMap;

/**
 * The user's unit prices, in the user's currency per SI unit.
 *
 * @param perUnit price by item, each item's unit fixed by the item's documentation
 */
public record Prices(Map<Item, Double> perUnit) {

  /** What a price is for; the unit it counts is in brackets. */
  public enum Item {
    /** Trench dug at the depth of {@link #REFERENCE_DEPTH_M} (m). */
    TRENCH,
    /** Stone in place (t). */
    STONE,
    /** Geotextile (m²). */
    FABRIC,
    /** Perforated pipe (m). */
    PIPE,
    /** Solid pipe (m). */
    SOLID_PIPE,
    /** Spoil hauled away, loose (m³). */
    HAUL_OFF,
    /** Sod cut and put back (m²). */
    SOD,
    /** Bored crossing (m). */
    BORE,
    /** Fitting or clean-out (each). */
    FITTING,
    /** Extra for a trench through roots (m). */
    TREE_ZONE,
    /** Pavement cut and made good (m²). */
    PAVEMENT
  }

  /** Depth in metres at which {@link Item#TRENCH} is priced; deeper costs in proportion. */
  public static final double REFERENCE_DEPTH_M = 0.6;

  /** Keeps the map to itself, in the items' order. */
  public Prices {
    perUnit = java.util.Collections.unmodifiableMap(new TreeMap<>(perUnit));
  }

  /** Whether every item has a price of the user's own. */
  public boolean complete() {
    return perUnit.keySet().containsAll(java.util.EnumSet.allOf(Item.class));
  }
}
