package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;

/** The bulk of the water comes first, for the least price. */
class KindOrderTest {

  @Test
  void inflowFromNeighboursAsksForAPerimeterDrain() {
    checkFirst(DrainKind.PERIMETER, 500, 400, 0);
  }

  @Test
  void waterAtTheHouseAsksForACurtainDrain() {
    checkFirst(DrainKind.CURTAIN, 50, 300, 400);
  }

  @Test
  void standingWaterAsksForALowSpotDrain() {
    checkFirst(DrainKind.LOW_SPOT, 0, 20, 400);
  }

  @Test
  void ofTwoThatTakeTheBulkTheCheaperForItsWaterComesFirst() {
    // A short line through the low spot against one five times its price round the lot.
    KindOrder order =
        KindOrder.of(
            List.of(
                collector(DrainKind.PERIMETER, 1500),
                Collector.none(DrainKind.CURTAIN, "not-needed", "dry"),
                collector(DrainKind.LOW_SPOT, 2700)),
            Map.of(DrainKind.PERIMETER, 8800.0, DrainKind.LOW_SPOT, 1800.0),
            Map.of(),
            PriceWord.NET_PRICE);
    assertEquals(List.of(DrainKind.LOW_SPOT, DrainKind.PERIMETER), order.order());
    assertEquals(
        "a low-spot drain comes first: it takes the water of 2700 m² at a net price of 1800"
            + " (0.67 per m²), a perimeter drain takes the water of 1500 m² at 8800 (5.9 per m²)",
        order.why());
  }

  @Test
  void aCheapLowSpotDrainDoesNotLeaveTheHouseWet() {
    KindOrder order =
        KindOrder.of(
            List.of(
                Collector.none(DrainKind.PERIMETER, "not-needed", "dry"),
                collector(DrainKind.CURTAIN, 400),
                collector(DrainKind.LOW_SPOT, 400)),
            Map.of(DrainKind.CURTAIN, 5000.0, DrainKind.LOW_SPOT, 500.0),
            Map.of(),
            PriceWord.RELATIVE_COST);
    assertEquals(DrainKind.CURTAIN, order.order().get(0));
    assertTrue(order.why().endsWith("but leaves the water at the house"), order.why());
  }

  /** A line of which a part cannot be joined is credited with what the rest meets. */
  @Test
  void aDrainIsCreditedWithWhatItTakesAsLaid() {
    List<Collector> wanted =
        List.of(
            collector(DrainKind.PERIMETER, 1500),
            Collector.none(DrainKind.CURTAIN, "not-needed", "dry"),
            collector(DrainKind.LOW_SPOT, 1000));
    Map<DrainKind, Double> prices = Map.of(DrainKind.PERIMETER, 3000.0, DrainKind.LOW_SPOT, 3000.0);
    KindOrder all = KindOrder.of(wanted, prices, Map.of(), PriceWord.NET_PRICE);
    assertEquals(DrainKind.PERIMETER, all.order().get(0));
    KindOrder laid =
        KindOrder.of(
            wanted,
            prices,
            Map.of(DrainKind.PERIMETER, 400.0, DrainKind.LOW_SPOT, 1000.0),
            PriceWord.NET_PRICE);
    assertEquals(
        "a low-spot drain comes first: it takes the water of 1000 m² at a net price of 3000 (3.0"
            + " per m²), a perimeter drain takes the water of 400 m² at 3000 (7.5 per m²)",
        laid.why());
  }

  private static void checkFirst(DrainKind kind, double in, double house, double standing) {
    KindOrder order =
        KindOrder.of(
            List.of(
                collector(DrainKind.PERIMETER, in),
                collector(DrainKind.CURTAIN, house),
                collector(DrainKind.LOW_SPOT, standing)),
            Map.of(DrainKind.PERIMETER, 100.0, DrainKind.CURTAIN, 100.0, DrainKind.LOW_SPOT, 100.0),
            Map.of(),
            PriceWord.NET_PRICE);
    assertEquals(kind, order.order().get(0), order.why());
    assertEquals(3, order.order().size());
  }

  private static Collector collector(DrainKind kind, double servedM2) {
    return new Collector(
        kind, List.of((LineString) Yard.wkt("LINESTRING(0 0, 1 0)")), "", List.of(), servedM2);
  }
}
