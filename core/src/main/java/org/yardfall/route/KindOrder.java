package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Which kind of drain is looked at first, from what the lot's water does. Water is best taken where
 * it arrives: what crosses the property line by a perimeter drain, before it reaches the house or a
 * low spot; what reaches the house by a curtain drain; what stands by a low-spot drain. So a kind
 * comes first if it takes at least half of the most that any kind would take, in that order.
 *
 * @param order every kind, first to last
 * @param why why the first is first, in words with numbers
 */
record KindOrder(List<DrainKind> order, String why) {

  private static final double ENOUGH = 0.5;

  /** Keeps the list to itself. */
  KindOrder {
    order = List.copyOf(order);
  }

  /** The order for the collectors of a lot, one of each kind. */
  static KindOrder of(List<Collector> collectors) {
    Map<DrainKind, Double> served = new EnumMap<>(DrainKind.class);
    collectors.forEach(c -> served.put(c.kind(), c.isEmpty() ? 0 : c.servedM2()));
    double most = served.values().stream().mapToDouble(m2 -> m2).max().orElse(0);
    List<DrainKind> order = new ArrayList<>(List.of(DrainKind.values()));
    // The sort keeps the order of the kinds where the keys are equal.
    order.sort(
        Comparator.comparingDouble(
            k -> served.get(k) >= ENOUGH * most ? Double.NEGATIVE_INFINITY : -served.get(k)));
    return new KindOrder(order, why(order.get(0), served));
  }

  private static String why(DrainKind first, Map<DrainKind, Double> served) {
    String numbers =
        String.format(
            Locale.ROOT,
            "%.0f m2 arrive over the property line, %.0f m2 reach the house, %.0f m2 drain to low"
                + " spots",
            served.get(DrainKind.PERIMETER),
            served.get(DrainKind.CURTAIN),
            served.get(DrainKind.LOW_SPOT));
    return switch (first) {
          case PERIMETER -> "a perimeter drain comes first, taking the water where it arrives: ";
          case CURTAIN -> "a curtain drain comes first, keeping the water off the house: ";
          case LOW_SPOT -> "a low-spot drain comes first, emptying what stands: ";
        }
        + numbers;
  }
}
