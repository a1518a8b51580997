package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;

/** Water is taken where it arrives, the greater part first. */
class KindOrderTest {

  @Test
  void inflowFromNeighboursAsksForAPerimeterDrain() {
    checkFirst(DrainKind.PERIMETER, 300, 500, 0);
  }

  @Test
  void waterAtTheHouseAsksForACurtainDrain() {
    checkFirst(DrainKind.CURTAIN, 50, 300, 400);
  }

  @Test
  void standingWaterAsksForALowSpotDrain() {
    checkFirst(DrainKind.LOW_SPOT, 0, 20, 400);
  }

  private static void checkFirst(DrainKind kind, double in, double house, double standing) {
    KindOrder order =
        KindOrder.of(
            List.of(
                collector(DrainKind.PERIMETER, in),
                collector(DrainKind.CURTAIN, house),
                collector(DrainKind.LOW_SPOT, standing)));
    assertEquals(kind, order.order().get(0), order.why());
    assertEquals(3, order.order().size());
  }

  private static Collector collector(DrainKind kind, double servedM2) {
    return new Collector(
        kind, List.of((LineString) Yard.wkt("LINESTRING(0 0, 1 0)")), "", List.of(), servedM2);
  }
}
