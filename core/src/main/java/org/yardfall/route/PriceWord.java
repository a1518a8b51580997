package org.yardfall.route;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.yardfall.site.Prices;
import org.yardfall.site.Prices.Item;

/**
 * What the figure by which drains are weighed is called, so that nobody takes it for a bill: it
 * counts net quantities of one pipe, and is money only where the user gave prices.
 */
enum PriceWord {
  /** The user's own unit prices, at least in part. */
  NET_PRICE("net price"),
  /** No unit price was given: usual ratios of the items to each other weigh the drains. */
  RELATIVE_COST("relative cost");

  private final String words;

  PriceWord(String words) {
    this.words = words;
  }

  static PriceWord of(Prices prices) {
    return prices.perUnit().isEmpty() ? RELATIVE_COST : NET_PRICE;
  }

  String words() {
    return words;
  }

  /** What must be said of the figure where not every item has a price; empty where each has. */
  static Optional<String> note(Prices prices) {
    if (prices.perUnit().isEmpty()) {
      return Optional.of(
          "no unit prices were given: relative cost weighs drains against each other by usual"
              + " ratios and is no money");
    }
    Set<Item> missing = EnumSet.copyOf(Item.WEIGHED);
    missing.removeAll(prices.perUnit().keySet());
    List<String> names = new ArrayList<>();
    missing.forEach(item -> names.add(item.name().toLowerCase(Locale.ROOT).replace('_', '-')));
    return names.isEmpty()
        ? Optional.empty()
        : Optional.of(
            "the net price weighs "
                + String.join(", ", names)
                + " by a usual ratio to the prices given, since none was given for "
                + (names.size() == 1 ? "it" : "them"));
  }
}
