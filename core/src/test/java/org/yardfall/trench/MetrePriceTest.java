package org.yardfall.trench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Prices;
import org.yardfall.site.Prices.Item;
import org.yardfall.site.Surface;

class MetrePriceTest {

  private static final TrenchSection SECTION = new TrenchSection(0.4572, 0.117, 0.1016, 0.05);
  private static final Prices PRICES = everyPrice();

  private static Prices everyPrice() {
    Map<Item, Double> map = new EnumMap<>(Item.class);
    double price = 10;
    for (Item item : Item.values()) {
      map.put(item, price++);
    }
    return new Prices(map);
  }

  private static MetrePrice with(Prices prices) {
    return new MetrePrice(SECTION, Stone.USUAL, Swell.EARTH, prices);
  }

  @Property(seed = "20261125")
  void deeperIsNeverCheaper(
      @ForAll @DoubleRange(min = 0.2, max = 3) double depthM,
      @ForAll @DoubleRange(min = 0, max = 1) double moreM,
      @ForAll Work work,
      @ForAll Surface.Kind surface) {
    MetrePrice price = with(PRICES);
    assertTrue(
        price.metre(work, depthM + moreM, surface) >= price.metre(work, depthM, surface) - 1e-9);
  }

  @Property(seed = "20261125")
  void thePriceOfAStretchIsThatOfItsMeanDepth(
      @ForAll @DoubleRange(min = 0.25, max = 2) double fromM,
      @ForAll @DoubleRange(min = 0.25, max = 2) double toM,
      @ForAll Surface.Kind surface) {
    MetrePrice price = with(PRICES);
    double ends =
        (price.metre(Work.OPEN, fromM, surface) + price.metre(Work.OPEN, toM, surface)) / 2;
    assertEquals(ends, price.metre(Work.OPEN, (fromM + toM) / 2, surface), 1e-9);
  }

  /** By hand: one metre under lawn, each price 10 plus the item's place in the list. */
  @Test
  void aMetreUnderLawnIsTheSumOfItsItems() {
    double dug = 0.6 + (0.117 - 0.1016) / 2 + 0.05;
    double stone = 0.4572 * (dug - 0.0635) - Math.PI / 4 * 0.117 * 0.117;
    double expected =
        dug / 0.6 * 10
            + stone * 87.2 * 0.0160184634 * 11
            + (2 * (0.4572 + dug - 0.0635) + 0.30) * 12
            + 13
            + 0.4572 * (dug - 0.0635) * 1.25 * 15
            + 0.4572 * 16;
    assertEquals(expected, with(PRICES).metre(Work.OPEN, 0.6, Surface.Kind.LAWN), 1e-9);
  }

  @Test
  void aBoredMetreIsTheBoreAndSolidPipe() {
    assertEquals(17 + 14, with(PRICES).metre(Work.BORED, 5, Surface.Kind.PAVEMENT), 1e-12);
  }

  @Test
  void rootsCostTheExtraOnTopOfSolidPipe() {
    MetrePrice price = with(PRICES);
    assertEquals(
        price.unit(Item.TREE_ZONE),
        price.metre(Work.ROOT_ZONE, 0.7, Surface.Kind.LAWN)
            - price.metre(Work.SOLID, 0.7, Surface.Kind.LAWN),
        1e-12);
  }

  @Test
  void aSlightTurnNeedsNoFitting() {
    assertEquals(0, with(PRICES).turn(9.9), 0);
    assertEquals(18, with(PRICES).turn(-45), 0);
  }

  @Test
  void missingPricesAreNamedAndStillWeighInTheSearch() {
    MetrePrice price = with(new Prices(Map.of(Item.TRENCH, 40.0)));
    assertEquals(Item.WEIGHED.size() - 1, price.missing().size());
    assertEquals(40 * 5, price.unit(Item.BORE), 1e-9);
    assertTrue(price.assumptions().stream().anyMatch(a -> a.value().contains("pavement")));
    assertTrue(with(new Prices(Map.of())).metre(Work.OPEN, 0.6, Surface.Kind.LAWN) > 0);
  }

  @Test
  void aPipeLargerThanTheTrenchIsRefused() {
    BadInputException refused =
        assertThrows(BadInputException.class, () -> new TrenchSection(0.15, 0.17, 0.1524, 0.05));
    assertTrue(refused.getMessage().contains("does not fit a trench"));
  }
}
