package org.yardfall.trench;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.yardfall.site.Assumption;
import org.yardfall.site.Prices;
import org.yardfall.site.Prices.Item;
import org.yardfall.site.Site;
import org.yardfall.site.Surface;

/**
 * What a metre of drain costs: the one place where quantities meet unit prices, so that the search
 * for a route and the bill for it can not disagree.
 *
 * <p>Per metre the quantity of every item is a non-decreasing, piecewise linear function of the
 * depth, so the price is monotone in depth, the price of a stretch is its length times the price at
 * its mean depth, and a look-up is O(1) without allocation.
 *
 * <p>An item without a price of the user's own weighs in the search with a stand-in, a fixed ratio
 * to the user's other prices; {@link #missing()} names it, {@link #assumptions()} says so, and a
 * bill shows its quantity without an amount.
 */
public final class MetrePrice {

  /**
   * Least turn in degrees that takes a fitting; a smaller one is taken up by the pipe itself
   * ({@code common practice, no source}).
   */
  public static final double FITTING_TURN_DEG = 10;

  /** What items cost in metres of trench at the reference depth: invented, only for the search. */
  private static final Map<Item, Double> STAND_IN =
      Map.ofEntries(
          Map.entry(Item.TRENCH, 1.0),
          Map.entry(Item.STONE, 1.4),
          Map.entry(Item.FABRIC, 0.06),
          Map.entry(Item.PIPE, 0.15),
          Map.entry(Item.SOLID_PIPE, 0.2),
          Map.entry(Item.HAUL_OFF, 0.8),
          Map.entry(Item.SOD, 0.2),
          Map.entry(Item.BORE, 5.0),
          Map.entry(Item.FITTING, 1.0),
          Map.entry(Item.TREE_ZONE, 1.0),
          Map.entry(Item.PAVEMENT, 4.0));

  private final TrenchSection section;
  private final Stone stone;
  private final Swell swell;
  private final Prices prices;
  private final Set<Item> missing;
  private final EnumMap<Item, Double> weight = new EnumMap<>(Item.class);

  /**
   * By the places of the work and of the surface in their enumerations: searches ask all the time.
   */
  private final Map<Work, Map<Surface.Kind, Line>> lines = new EnumMap<>(Work.class);

  /** Depth in metres from which every quantity is linear in depth: no stone or spoil is cut off. */
  private final double linearFromM;

  /** A price that is linear in depth. */
  private record Line(double atZero, double perMetreOfDepth) {
    double at(double depthM) {
      return atZero + perMetreOfDepth * depthM;
    }
  }

  /** Prices for the given section, stone and soil. */
  public MetrePrice(TrenchSection section, Stone stone, Swell swell, Prices prices) {
    this.section = section;
    this.stone = stone;
    this.swell = swell;
    this.prices = prices;
    EnumSet<Item> absent = EnumSet.copyOf(Item.WEIGHED);
    absent.removeAll(prices.perUnit().keySet());
    missing = Collections.unmodifiableSet(absent);
    double scale =
        prices.perUnit().entrySet().stream()
            .filter(e -> Item.WEIGHED.contains(e.getKey()))
            .mapToDouble(e -> e.getValue() / STAND_IN.get(e.getKey()))
            .filter(ratio -> ratio > 0)
            .average()
            .orElse(1);
    for (Item item : Item.WEIGHED) {
      weight.put(item, prices.perUnit().getOrDefault(item, scale * STAND_IN.get(item)));
    }
    linearFromM = Restoration.PAVEMENT.thicknessM() + section.pipeM2() / section.widthM();
    for (Work work : Work.values()) {
      lines.put(work, new EnumMap<>(Surface.Kind.class));
      for (Surface.Kind cover : Surface.Kind.values()) {
        double from = sum(work, linearFromM, cover);
        double slope = sum(work, linearFromM + 1, cover) - from;
        lines.get(work).put(cover, new Line(from - slope * linearFromM, slope));
      }
    }
  }

  /** Prices for a site's trench section and soil, with the usual stone. */
  public static MetrePrice of(Site site) {
    return new MetrePrice(
        TrenchSection.of(site.drain()), Stone.USUAL, Swell.of(site.soil()), site.prices());
  }

  /** The section that is priced. */
  public TrenchSection section() {
    return section;
  }

  /** The stone that is priced. */
  public Stone stone() {
    return stone;
  }

  /** How the soil swells once dug. */
  public Swell swell() {
    return swell;
  }

  /**
   * Price of a metre.
   *
   * @param work how it is built
   * @param depthM ground to invert in metres; of no account where bored
   * @param surface the cover of the ground; of no account where bored
   */
  public double metre(Work work, double depthM, Surface.Kind surface) {
    return depthM >= linearFromM
        ? lines.get(work).get(surface).at(depthM)
        : sum(work, depthM, surface);
  }

  private double sum(Work work, double depthM, Surface.Kind surface) {
    double sum = 0;
    for (Item item : ITEMS) {
      sum += quantity(item, work, depthM, surface) * weight.get(item);
    }
    return sum;
  }

  /** Price of a turn of a line by the given angle in degrees, 0 being straight on. */
  public double turn(double turnDeg) {
    return takesFitting(turnDeg) ? fitting() : 0;
  }

  /** Price of a fitting or clean-out. */
  public double fitting() {
    return weight.get(Item.FITTING);
  }

  /** Whether a turn of a line by the given angle in degrees takes a fitting. */
  public static boolean takesFitting(double turnDeg) {
    return Math.abs(turnDeg) >= FITTING_TURN_DEG;
  }

  /**
   * Quantity of an item in a metre, in the item's unit; 0 where it takes none.
   *
   * @param item the item
   * @param work how the metre is built
   * @param depthM ground to invert in metres
   * @param surface the cover of the ground
   */
  public double quantity(Item item, Work work, double depthM, Surface.Kind surface) {
    if (work == Work.BORED) {
      return item == Item.BORE || item == Item.SOLID_PIPE ? 1 : 0;
    }
    Restoration top = Restoration.of(surface);
    return switch (item) {
      case TRENCH -> Math.max(0, section.dugDepthM(depthM)) / Prices.REFERENCE_DEPTH_M;
      case STONE -> stone.massT(section.stoneM2(depthM, top));
      case FABRIC -> section.fabricM(depthM, top);
      case PIPE -> work == Work.OPEN ? 1 : 0;
      case SOLID_PIPE -> work == Work.OPEN ? 0 : 1;
      case HAUL_OFF -> swell.looseM3(section.spoilM2(depthM, top));
      case SOD -> top == Restoration.SOD ? section.widthM() : 0;
      case PAVEMENT -> top == Restoration.PAVEMENT ? section.widthM() : 0;
      case TREE_ZONE -> work == Work.ROOT_ZONE ? 1 : 0;
      case BORE, FITTING, PUMP, SUMP, VALVE -> 0;
    };
  }

  /** Price of one unit of an item, the stand-in where the user gave none. */
  public double unit(Item item) {
    return weight.get(item);
  }

  /** Items without a price of the user's own. */
  public Set<Item> missing() {
    return missing;
  }

  /** What is assumed in the prices and quantities, with sources. */
  public List<Assumption> assumptions() {
    List<Assumption> all = new ArrayList<>();
    all.add(
        new Assumption(
            "drain bed",
            text("%.0f mm of stone under the pipe", section.bedM() * 1000),
            "International Residential Code, R405.1: at least 2 in"));
    all.add(
        new Assumption(
            "stone",
            text(
                "size %s, bulk density %.2f t/m³, voids %.0f %%",
                stone.size(), stone.bulkDensityTM3(), 100 * stone.porosity()),
            stone.source()));
    all.add(
        new Assumption(
            "soil swell",
            text("%.0f %% from the ground to the truck", 100 * swell.share()),
            "common earthwork tables: sand 12 %, earth 25 %, clay 40 %"));
    if (prices.perUnit().isEmpty()) {
      all.add(
          new Assumption(
              "prices",
              "none given: routes are weighed by stand-in ratios, no amounts are shown",
              "common practice, no source"));
    } else if (!missing.isEmpty()) {
      all.add(
          new Assumption(
              "prices",
              "none given for "
                  + String.join(
                      ", ",
                      missing.stream()
                          .map(i -> i.name().toLowerCase(Locale.ROOT).replace('_', '-'))
                          .toList())
                  + ": weighed by stand-in ratios in the search, no amounts are shown",
              "common practice, no source"));
    }
    return List.copyOf(all);
  }

  private static final Item[] ITEMS = Item.WEIGHED.toArray(Item[]::new);

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
