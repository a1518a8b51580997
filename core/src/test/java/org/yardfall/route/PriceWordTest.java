package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.yardfall.site.Prices;
import org.yardfall.site.Prices.Item;

/** A figure is called a price only where it rests on prices. */
class PriceWordTest {

  @Test
  void withoutPricesTheFigureIsNoMoney() {
    Prices none = new Prices(Map.of());
    assertEquals("relative cost", PriceWord.of(none).words());
    assertTrue(PriceWord.note(none).orElseThrow().contains("is no money"));
  }

  @Test
  void whatIsNotPricedIsNamedAndWhatIsPricedIsNot() {
    Map<Item, Double> all = new EnumMap<>(Item.class);
    for (Item item : Item.values()) {
      all.put(item, 1.0);
    }
    assertEquals(Optional.empty(), PriceWord.note(new Prices(all)));
    all.remove(Item.HAUL_OFF);
    Prices most = new Prices(all);
    assertEquals("net price", PriceWord.of(most).words());
    assertEquals(
        "the net price weighs haul-off by a usual ratio to the prices given, since none was given"
            + " for it",
        PriceWord.note(most).orElseThrow());
  }
}
