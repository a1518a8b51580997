package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Which kind of drain comes first, from what it takes as laid and what that costs. A kind that
 * takes the bulk of the water, at least half of the most that any kind takes, comes before one that
 * does not; of those that do, the one whose best drain costs least for the water taken. Water is
 * better taken where it arrives than where it comes to stand, so a low-spot drain must be cheaper
 * by a third to come before a perimeter or curtain drain ({@code common practice, no source}); and
 * where the bulk of the water reaches the house, a drain that only empties low spots, and so leaves
 * the house wet, does not come before one that keeps the water off it.
 *
 * @param order every kind that has something to take, first to last
 * @param why why the first is first, in words with numbers
 */
record KindOrder(List<DrainKind> order, String why) {

  /** Water of less ground than this in m² is not worth a price per m². */
  private static final double LEAST_SAID_M2 = 1;

  private static final double BULK = 0.5;

  /** Taking water where it arrives may cost so much more than letting it cross the yard first. */
  private static final double ARRIVING = 1.5;

  /** Keeps the list to itself. */
  KindOrder {
    order = List.copyOf(order);
  }

  /**
   * The order for the collectors of a lot, one of each kind.
   *
   * @param prices price of the best drain of each kind; a kind without one has no drain
   * @param taken area in m² whose water that drain takes as it is laid
   * @param priced what the prices are called
   */
  static KindOrder of(
      List<Collector> collectors,
      Map<DrainKind, Double> prices,
      Map<DrainKind, Double> taken,
      PriceWord priced) {
    Map<DrainKind, Double> served = new EnumMap<>(DrainKind.class);
    collectors.stream()
        .filter(c -> !c.isEmpty())
        .forEach(c -> served.put(c.kind(), taken.getOrDefault(c.kind(), c.servedM2())));
    double bulk =
        BULK
            * (taken.isEmpty() ? served : taken)
                .values().stream().mapToDouble(m2 -> m2).max().orElse(0);
    boolean houseReached = served.getOrDefault(DrainKind.CURTAIN, 0.0) >= Math.max(bulk, 1e-9);
    List<DrainKind> order = new ArrayList<>(served.keySet());
    Comparator<DrainKind> byTier =
        Comparator.comparingInt(
            k -> {
              if (served.get(k) < bulk) {
                return 2;
              }
              return houseReached && k == DrainKind.LOW_SPOT ? 1 : 0;
            });
    order.sort(
        byTier
            .thenComparingDouble(
                k ->
                    (k == DrainKind.LOW_SPOT ? ARRIVING : 1)
                        * prices.getOrDefault(k, Double.POSITIVE_INFINITY)
                        / Math.max(1, served.get(k)))
            .thenComparingDouble(k -> -served.get(k)));
    List<DrainKind> laid = order.stream().filter(prices::containsKey).toList();
    return new KindOrder(
        order, laid.isEmpty() ? "" : why(laid, served, prices, priced, houseReached));
  }

  private static String why(
      List<DrainKind> laid,
      Map<DrainKind, Double> served,
      Map<DrainKind, Double> prices,
      PriceWord priced,
      boolean houseReached) {
    DrainKind first = laid.get(0);
    StringBuilder why =
        new StringBuilder("a ").append(first.word()).append(" drain comes first: it ");
    why.append(takes(first, served, prices, "a " + priced.words() + " of "));
    for (DrainKind other : laid.subList(1, laid.size())) {
      why.append(", a ").append(other.word()).append(" drain ");
      why.append(takes(other, served, prices, ""));
      if (other == DrainKind.LOW_SPOT && houseReached) {
        why.append(" but leaves the water at the house");
      } else if (other == DrainKind.LOW_SPOT
          && prices.get(other) / served.get(other) < prices.get(first) / served.get(first)) {
        why.append(" but lets it cross the yard first");
      }
    }
    return why.toString();
  }

  private static String takes(
      DrainKind kind, Map<DrainKind, Double> served, Map<DrainKind, Double> prices, String called) {
    double price = prices.get(kind);
    if (served.get(kind) < LEAST_SAID_M2) {
      return String.format(Locale.ROOT, "meets hardly any running water, at %s%.0f", called, price);
    }
    return String.format(
        Locale.ROOT,
        "takes the water of %s at %s%s (%s per m²)",
        Figures.area(served.get(kind)),
        called,
        Figures.price(price),
        Figures.rate(price / Math.max(1, served.get(kind))));
  }
}
