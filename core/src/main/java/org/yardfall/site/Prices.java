package org.yardfall.site;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * The user's unit prices, in the user's currency per SI unit.
 *
 * @param perUnit price by item, each item's unit fixed by the item's documentation
 * @param stoneSoldBy by what stone is bought, where the user's price or a key of the file says so
 */
public record Prices(Map<Item, Double> perUnit, Optional<StoneUnit> stoneSoldBy) {

  /** By what stone is bought, whole units of it. */
  public enum StoneUnit {
    T("tonnes", false, 1),
    /** The short ton of 2000 lb. */
    TON("short tons", false, 0.90718474),
    M3("cubic metres", true, 1),
    YD3("cubic yards", true, 0.764554857984);

    private final String words;
    private final boolean byVolume;
    private final double size;

    StoneUnit(String words, boolean byVolume, double size) {
      this.words = words;
      this.byVolume = byVolume;
      this.size = size;
    }

    /** What a person calls several of it. */
    public String words() {
      return words;
    }

    /** Whether it is a volume, not a mass. */
    public boolean byVolume() {
      return byVolume;
    }

    /** Its size in t or m³. */
    public double size() {
      return size;
    }

    /** The usual one of a system of units: the tonne, or the short ton. */
    public static StoneUnit usual(UnitSystem system) {
      return system == UnitSystem.US ? TON : T;
    }
  }

  /** Prices that do not say by what stone is bought. */
  public Prices(Map<Item, Double> perUnit) {
    this(perUnit, Optional.empty());
  }

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
    PAVEMENT,
    /** Pump that lifts the drain's water to its outlet (each). */
    PUMP,
    /** Sump that the pump draws from (each). */
    SUMP,
    /** One-way (check) valve on the pump's discharge (each). */
    VALVE;

    /**
     * What the search for a route weighs: all but what a pumped drain takes whatever way it goes.
     */
    public static final Set<Item> WEIGHED =
        Collections.unmodifiableSet(EnumSet.complementOf(EnumSet.of(PUMP, SUMP, VALVE)));
  }

  /** Depth in metres at which {@link Item#TRENCH} is priced; deeper costs in proportion. */
  public static final double REFERENCE_DEPTH_M = 0.6;

  /** Keeps the map to itself, in the items' order. */
  public Prices {
    perUnit = Collections.unmodifiableMap(new TreeMap<>(perUnit));
  }

  /** The same, stone bought by the usual unit of a system where nothing says otherwise. */
  public Prices readIn(UnitSystem system) {
    return new Prices(perUnit, stoneSoldBy.or(() -> Optional.of(StoneUnit.usual(system))));
  }

  /** Whether every item that the search weighs has a price of the user's own. */
  public boolean complete() {
    return perUnit.keySet().containsAll(Item.WEIGHED);
  }
}
