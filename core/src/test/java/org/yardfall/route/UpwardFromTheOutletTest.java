package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.site.Building;
import org.yardfall.site.Given;
import org.yardfall.site.Outlet;

/**
 * A lot among built ones is designed from its final drain point upward: a swale of 1.5 % or more,
 * whose bed stays 15 cm below the lowest opening of every building beside it ({@code common
 * practice, no source}; local grading rules ask for both).
 */
class UpwardFromTheOutletTest {

  private static final double BED_X = 10.25;
  private static final double OUTLET_Y = 4.25;
  private static final double OUTLET_M = 20;
  private static final double GRADE = 0.015;

  /** Bed of a swale that rises from the outlet at 1.5 %. */
  private static double bedM(double y) {
    return OUTLET_M + GRADE * (y - OUTLET_Y);
  }

  private static Yard yard() {
    return Yard.of(24, 50, 0.5, (x, y) -> bedM(y) + 0.1 * Math.abs(x - BED_X))
        .lot("POLYGON((2 3, 22 3, 22 48, 2 48, 2 3))")
        .outlet("D1", Outlet.Kind.DITCH, BED_X, OUTLET_Y, OUTLET_M);
  }

  /**
   * From the outlet straight up the lot the lowest invert is that of the outlet plus 1.5 % of the
   * way, to the last millimetre: here the grid measures true lengths.
   */
  @Test
  void theLowestInvertRisesFromTheOutletAtTheLeastGrade() {
    Yard yard = yard().limits(Given.limits(GRADE, 0.2, 0.1, 1.2, 0.6, 0.9, 0.45, 0.116, 0.102));
    yard.outlets.clear();
    yard.outlet("D1", Outlet.Kind.DITCH, BED_X, OUTLET_Y, OUTLET_M - 0.5);
    RouteGround ground =
        RouteGround.of(yard.site(), yard.ground, RouteSettings.defaults(yard.limits));
    GravityReach reach =
        GravityReachFinder.find(
            ground,
            List.of(OutletTarget.of(yard.outlets.get(0), ground)),
            Bounds.of(yard.limits, ground.settings()));
    int seen = 0;
    for (double y = OUTLET_Y + 3; y < 44; y += 0.5) {
      int cell = ground.frame().index(BED_X, y);
      if (ground.open(cell)) {
        double expected = OUTLET_M - 0.5 + GRADE * (y - OUTLET_Y);
        assertEquals(expected, reach.invertM()[cell], 1e-5);
        seen++;
      }
    }
    assertTrue(seen > 60, "" + seen);
  }

  /**
   * Every opening has a row against the bed where that is highest within 10 ft of its building, by
   * the closed form, and fails below 15 cm.
   */
  @Test
  void everyOpeningHasItsFreeboardOverTheBedBesideIt() {
    // 10 ft reach along the bed, 2 m from the walls, this far beyond their north ends
    double beyond = Math.sqrt(3.048 * 3.048 - 4);
    double east = bedM(22 + beyond);
    double west = bedM(38 + beyond);
    for (double freeboard = 0.09; freeboard < 0.22; freeboard += 0.04) {
      Yard yard = yard();
      yard.buildings.add(house("door", 12.25, 14, 22, east + freeboard));
      yard.buildings.add(house("well", 4.25, 30, 38, west + 0.30));
      List<OpeningFreeboard> rows =
          OpeningFreeboard.table(yard.site(), yard.ground, yard.water()).stream()
              .filter(row -> row.against().startsWith("the bed"))
              .toList();
      OpeningFreeboard door = row("door", rows);
      OpeningFreeboard well = row("well", rows);
      assertEquals(0.15, door.neededM(), 0);
      // the bed is asked every 0.5 m, which is 7.5 mm of its fall
      assertEquals(east, door.levelM(), GRADE * 0.5 + 0.001);
      assertEquals(freeboard, door.freeboardM(), GRADE * 0.5 + 0.001);
      assertEquals(0.30, well.freeboardM(), GRADE * 0.5 + 0.001);
      assertEquals(freeboard > 0.15, door.passes());
      assertTrue(well.passes());
      List<String> warnings = yard.plan().warnings();
      assertEquals(freeboard < 0.15, warnings.contains(door.sentence()), warnings.toString());
      assertTrue(warnings.stream().noneMatch(w -> w.contains("opening of building well")));
    }
  }

  private static OpeningFreeboard row(String building, List<OpeningFreeboard> rows) {
    return rows.stream()
        .filter(row -> row.buildingId().equals(building))
        .findFirst()
        .orElseThrow(() -> new AssertionError(rows.toString()));
  }

  /** A house 4 m wide, 2 m from the bed. */
  private static Building house(
      String id, double west, double south, double north, double openingM) {
    String box =
        String.format(
            java.util.Locale.ROOT,
            "POLYGON((%1$f %2$f, %3$f %2$f, %3$f %4$f, %1$f %4$f, %1$f %2$f))",
            west,
            south,
            west + 4,
            north);
    return new Building(
        id, (Polygon) Yard.wkt(box), OptionalDouble.empty(), OptionalDouble.of(openingM));
  }
}
