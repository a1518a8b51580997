package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Building;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/**
 * A common hollow whose pipe is blocked: its water leaves by the emergency overflow, which must lie
 * a foot or more below the lots round it (a rule of many municipal codes; the ground is invented).
 */
class FreeboardTest {

  private static final double FOOT_M = 0.3048;

  /**
   * A hollow from x = 10 to 30 between lots to the west, which rise from it, and to the east, which
   * lie 0.2 m above the overflow in the south.
   */
  private static final ElevationGrid GROUND =
      Grids.surface(
          40,
          20,
          1,
          (x, y) -> {
            if (x < 10) {
              return 100 + 0.1 * (10 - x);
            }
            if (x > 30) {
              return 100.2 + 0.02 * (x - 30);
            }
            boolean overflow = y < 1 && x > 19 && x < 21;
            boolean rim = x < 11 || x > 29 || y < 1 || y > 19;
            return overflow ? 99.5 : rim ? 100 : 98.5;
          });

  private static Site site(List<Building> buildings, Parcel... parcels) {
    return MadeUpSite.site().parcels(List.of(parcels)).buildings(buildings).make();
  }

  @Test
  void everyLotRoundTheHollowIsListedWithItsFreeboard() {
    Polygon west = Grids.box(0, 0, 10, 20);
    Polygon east = Grids.box(30, 0, 40, 20);
    Building house = Grids.house(2, 8, 6, 12);
    Site site = site(List.of(house), new Parcel("W", west), new Parcel("E", east));
    SurfaceWater water = Grids.water(GROUND);
    LowSpot hollow =
        water.lowSpots().stream().filter(s -> s.parentId().isEmpty()).findFirst().orElseThrow();
    // Blocked, the water goes over the overflow and nowhere else.
    assertEquals(99.5, hollow.spillM(), 1e-6);
    assertTrue(hollow.spillPoint().distance(new Coordinate(20, 0.5)) < 1.6);

    List<Freeboard> lots = Freeboard.round(hollow, site, GROUND);
    assertEquals(List.of("W", "E"), lots.stream().map(Freeboard::parcelId).toList());
    // West by its house, whose east wall at x = 6 stands at 100.40; east by its lowest ground.
    assertTrue(lots.get(0).atBuilding());
    assertEquals(100.4 - 99.5, lots.get(0).freeboardM(), 1e-4);
    assertEquals(100.21 - 99.5, lots.get(1).freeboardM(), 1e-4);
    lots.forEach(lot -> assertTrue(lot.freeboardM() >= FOOT_M, lot.toString()));
  }

  @Test
  void aLotThatTheHollowReachesIntoHasNone() {
    Site site = site(List.of(), new Parcel("In", Grids.box(12, 5, 20, 15)));
    LowSpot hollow = Grids.water(GROUND).lowSpots().get(0);
    assertEquals(98.5 - 99.5, Freeboard.round(hollow, site, GROUND).get(0).freeboardM(), 1e-5);
  }

  @Test
  void lotsFarOffAreNotListed() {
    Site site = site(List.of(), new Parcel("Far", Grids.box(60, 0, 70, 20)));
    LowSpot hollow = Grids.water(GROUND).lowSpots().get(0);
    assertEquals(List.of(), Freeboard.round(hollow, site, GROUND));
  }
}
