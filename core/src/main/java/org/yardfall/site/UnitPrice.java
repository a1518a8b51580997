package org.yardfall.site;

import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads a unit price ({@code 40 per m}, {@code 55 per t}, {@code 12 per ft}) into the unit that its
 * item is counted in. The currency is the user's and is not read.
 */
final class UnitPrice {

  /**
   * Mass of a cubic metre of stone in t where a price per volume must become one per mass: No. 57
   * dumped, 87.2 lb/ft³ (published compilation of stone tests, 2012).
   */
  static final double STONE_T_PER_M3 = 87.2 * 0.0160184634;

  private static final double FOOT_M = WorkingCrs.INTERNATIONAL_FOOT_M;
  private static final double YARD_M = 3 * FOOT_M;
  private static final double POUND_T = 0.45359237e-3;

  /** What an item is counted by: its SI unit and the size in it of the units that prices name. */
  private record Measure(String name, String unit, Map<String, Double> sizes) {}

  private static final Measure LENGTH =
      new Measure(
          "length",
          "m",
          Map.of(
              "m", 1.0, "metre", 1.0, "meter", 1.0, "ft", FOOT_M, "foot", FOOT_M, "lf", FOOT_M,
              "yd", YARD_M));

  private static final Measure MASS =
      new Measure(
          "mass",
          "t",
          Map.of("t", 1.0, "tonne", 1.0, "kg", 0.001, "ton", 2000 * POUND_T, "lb", POUND_T));

  private static final Measure AREA = new Measure("area", "m2", powers(2, "sq ", "sf", "sy"));

  private static final Measure VOLUME = new Measure("volume", "m3", powers(3, "cu ", "cf", "cy"));

  private static final Measure PIECE =
      new Measure("number", "each", Map.of("each", 1.0, "piece", 1.0));

  private static Map<String, Double> powers(int power, String prefix, String feet, String yards) {
    double foot = Math.pow(FOOT_M, power);
    double yard = Math.pow(YARD_M, power);
    return Map.of(
        "m" + power,
        1.0,
        "ft" + power,
        foot,
        prefix + "ft",
        foot,
        feet,
        foot,
        "yd" + power,
        yard,
        prefix + "yd",
        yard,
        yards,
        yard);
  }

  private static final Map<Prices.Item, Measure> MEASURES = new EnumMap<>(Prices.Item.class);

  static {
    MEASURES.put(Prices.Item.TRENCH, LENGTH);
    MEASURES.put(Prices.Item.STONE, MASS);
    MEASURES.put(Prices.Item.FABRIC, AREA);
    MEASURES.put(Prices.Item.PIPE, LENGTH);
    MEASURES.put(Prices.Item.SOLID_PIPE, LENGTH);
    MEASURES.put(Prices.Item.HAUL_OFF, VOLUME);
    MEASURES.put(Prices.Item.SOD, AREA);
    MEASURES.put(Prices.Item.BORE, LENGTH);
    MEASURES.put(Prices.Item.FITTING, PIECE);
    MEASURES.put(Prices.Item.PUMP, PIECE);
    MEASURES.put(Prices.Item.SUMP, PIECE);
    MEASURES.put(Prices.Item.VALVE, PIECE);
    MEASURES.put(Prices.Item.TREE_ZONE, LENGTH);
    MEASURES.put(Prices.Item.PAVEMENT, AREA);
  }

  private static final Pattern PRICE =
      Pattern.compile(
          "\\s*(\\d+\\.?\\d*(?:[eE][-+]?\\d+)?|\\.\\d+|-.*?)\\s*(?:(?:per|/)\\s*(.+?))?\\s*");

  private UnitPrice() {}

  /** The unit in which the item is counted, as written in a site file. */
  static String unit(Prices.Item item) {
    return MEASURES.get(item).unit;
  }

  /** Whether the text prices stone by volume, so that its density had to be assumed. */
  static boolean usesStoneDensity(Prices.Item item, String text) {
    Matcher m = PRICE.matcher(text);
    return item == Prices.Item.STONE
        && m.matches()
        && m.group(2) != null
        && VOLUME.sizes().containsKey(plain(m.group(2)));
  }

  /**
   * By what stone is bought where its price is the given text: tonnes, short tons, cubic metres or
   * yards; empty for a bare number.
   */
  static Optional<Prices.StoneUnit> stoneSoldBy(String text) {
    Matcher m = PRICE.matcher(text);
    if (!m.matches() || m.group(2) == null) {
      return Optional.empty();
    }
    String unit = plain(m.group(2));
    boolean volume = VOLUME.sizes().containsKey(unit);
    return Optional.of(
        switch (unit) {
          case "t", "tonne", "kg" -> Prices.StoneUnit.T;
          case "m3" -> Prices.StoneUnit.M3;
          default -> volume ? Prices.StoneUnit.YD3 : Prices.StoneUnit.TON;
        });
  }

  /**
   * The price per counted unit of the item; a bare number is already that.
   *
   * @param trenchWidthM width in force, for a trench priced by volume
   * @throws IllegalArgumentException if the text is no price of such an item, or negative
   */
  static double parse(Prices.Item item, String text, double trenchWidthM) {
    Measure measure = MEASURES.get(item);
    Matcher m = PRICE.matcher(text);
    if (!m.matches()) {
      throw new IllegalArgumentException(
          "'" + text + "' is not a price; write it such as 40 per " + measure.unit);
    }
    double price = Quantities.number(m.group(1));
    if (price < 0) {
      throw new IllegalArgumentException("'" + text + "' is negative");
    }
    if (m.group(2) == null) {
      return price;
    }
    String unit = plain(m.group(2));
    Double size = measure.sizes.get(unit);
    if (size != null) {
      return price / size;
    }
    Double volume = VOLUME.sizes().get(unit);
    if (volume != null && item == Prices.Item.STONE) {
      return price / (volume * STONE_T_PER_M3);
    }
    if (volume != null && item == Prices.Item.TRENCH) {
      return price / volume * trenchWidthM * Prices.REFERENCE_DEPTH_M;
    }
    throw new IllegalArgumentException(
        "'"
            + text
            + "' is not priced by a unit of "
            + measure.name()
            + "; write it such as 40 per "
            + measure.unit);
  }

  private static String plain(String unit) {
    return unit.toLowerCase(Locale.ROOT)
        .replace('²', '2')
        .replace('³', '3')
        .replace(".", "")
        .replaceAll("\\s+", " ")
        .strip();
  }
}
