package org.yardfall.drain;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.yardfall.site.Prices;
import org.yardfall.site.UnitSystem;

/**
 * What it takes to build a drain: quantities, and their price by the user's unit prices.
 *
 * <p>{@link Line#needed()} is the net quantity of the design; {@link Line#sold()} what is bought,
 * rounded up by the rule stated. Amounts are sold quantity times unit price; {@link #netTotal()},
 * over the lines that the search weighed and by needed quantity, is the route's own price.
 *
 * @param lines the lines, in the order of the work
 * @param dugByLineM3 soil dug, as it lies, in m³ for the main line, then the branches in order
 * @param largerPipes how much of {@link #netTotal()} comes of pipes larger than the one the route
 *     was planned with: they take the place of stone and ask for a deeper trench. The search weighs
 *     one pipe throughout, so where every item has a price, its price of the route and this are the
 *     net total
 */
public record TakeOff(List<Line> lines, List<Double> dugByLineM3, double largerPipes) {

  /** Keeps the lists to itself. */
  public TakeOff {
    lines = List.copyOf(lines);
    dugByLineM3 = List.copyOf(dugByLineM3);
  }

  /** What is counted. */
  public enum Measure {
    LENGTH("m", "ft", 0.3048),
    AREA("m²", "ft²", 0.3048 * 0.3048),
    VOLUME("m³", "yd³", 0.764554857984),
    MASS("t", "ton", 0.90718474),
    COUNT("each", "each", 1);

    private final String si;
    private final String us;
    private final double usInSi;

    Measure(String si, String us, double usInSi) {
      this.si = si;
      this.us = us;
      this.usInSi = usInSi;
    }

    /** The unit in a system. */
    public String unit(UnitSystem system) {
      return system == UnitSystem.US ? us : si;
    }

    /** A quantity given in the SI unit, in a system's unit. */
    public double quantity(UnitSystem system, double quantity) {
      return system == UnitSystem.US ? quantity / usInSi : quantity;
    }

    /** A price given per SI unit, per a system's unit. */
    public double price(UnitSystem system, double perUnit) {
      return system == UnitSystem.US ? perUnit * usInSi : perUnit;
    }
  }

  /**
   * A line.
   *
   * @param code short code, lower case with hyphens
   * @param item what it is, in words
   * @param measure what is counted; {@code needed} and {@code sold} are in its SI unit
   * @param needed net quantity of the design
   * @param sold quantity bought
   * @param rule how the one becomes the other
   * @param how how the quantity follows from the design, with its numbers
   * @param priceItem the unit price that applies; null where none does
   * @param unitPrice price per SI unit; empty where the user gave none or none applies
   * @param inRoutePrice whether the search weighed it
   */
  public record Line(
      String code,
      String item,
      Measure measure,
      double needed,
      double sold,
      String rule,
      String how,
      Prices.Item priceItem,
      OptionalDouble unitPrice,
      boolean inRoutePrice) {

    /** Price of what is bought, to the hundredth as it is printed; empty without a unit price. */
    public OptionalDouble amount() {
      return unitPrice.isPresent()
          ? OptionalDouble.of(Math.rint(100 * sold * unitPrice.getAsDouble()) / 100)
          : OptionalDouble.empty();
    }

    /** Price of what is needed; empty without a unit price. */
    public OptionalDouble netAmount() {
      return unitPrice.isPresent()
          ? OptionalDouble.of(needed * unitPrice.getAsDouble())
          : OptionalDouble.empty();
    }
  }

  /** Soil dug, as it lies, in m³; bores take none. */
  public double dugM3() {
    return dugByLineM3.stream().mapToDouble(m3 -> m3).sum();
  }

  /** Whether anything has a price. */
  public boolean priced() {
    return lines.stream().anyMatch(l -> l.amount().isPresent());
  }

  /** Sum of the amounts, each rounded as it is printed. */
  public double total() {
    return lines.stream().mapToDouble(l -> l.amount().orElse(0)).sum();
  }

  /** Price by needed quantities of what the search weighed. */
  public double netTotal() {
    return lines.stream()
        .filter(Line::inRoutePrice)
        .mapToDouble(l -> l.netAmount().orElse(0))
        .sum();
  }

  /** Items without a price of the user's own, in their order; their lines bear no amount. */
  public Set<Prices.Item> missing() {
    return lines.stream()
        .filter(l -> l.priceItem() != null && l.unitPrice().isEmpty())
        .map(Line::priceItem)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /** Whether every line that bears a price has one. */
  public boolean complete() {
    return missing().isEmpty();
  }
}
