package org.yardfall.runoff;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.yardfall.site.Surface.Kind;

class SurfaceCoverTest {

  private static SurfaceCover cover(Yard yard) {
    return SurfaceCover.of(yard.site(), yard.water());
  }

  @Test
  void whatIsNotGivenIsLawnAndSaidToBe() {
    SurfaceCover cover = cover(Yard.slope(4, 4, 1, 0.02));
    assertTrue(Arrays.stream(cover.kind()).allMatch(k -> k == Kind.LAWN));
    assertTrue(cover.assumptions().get(0).value().contains("lawn"));
  }

  @Test
  void laterSurfacesLieOverEarlierAndBuildingsOverAll() {
    SurfaceCover cover =
        cover(
            Yard.slope(6, 1, 1, 0.02)
                .building("POLYGON ((4 0, 5 0, 5 1, 4 1, 4 0))")
                .surface(Kind.WOODS, "POLYGON ((0 0, 5 0, 5 1, 0 1, 0 0))")
                .surface(Kind.GRAVEL, "POLYGON ((1 0, 2 0, 2 1, 1 1, 1 0))"));
    assertEquals("[WOODS, GRAVEL, WOODS, WOODS, ROOF, LAWN]", Arrays.toString(cover.kind()));
  }

  /**
   * One roof cell of 1 m² amid lawn on soil D: 100 mm bring 93.9 mm off the roof, 50.5 off lawn.
   */
  @Test
  void aRoofDripsEvenlyOnTheCellsRoundIt() {
    SurfaceCover cover =
        cover(Yard.slope(3, 3, 1, 0.02).building("POLYGON ((1 1, 2 1, 2 2, 1 2, 1 1))"));
    double[] depth = cover.runoffDepthM(0.1);
    double lawn = CurveNumber.runoffDepthM(0.1, 80);
    double roof = CurveNumber.runoffDepthM(0.1, 98);
    assertEquals(0, depth[4], 0);
    for (int c : new int[] {0, 1, 2, 3, 5, 6, 7, 8}) {
      assertEquals(lawn + roof / 8, depth[c], 1e-15);
    }
  }

  @Test
  void aRoofDoesNotDripWhereTheGroundIsUnknown() {
    Yard yard =
        Yard.drawn(1, 0.02, "???", "?↓?", "...").building("POLYGON ((1 1, 2 1, 2 2, 1 2, 1 1))");
    double[] roof = cover(yard).roofM2();
    assertEquals(0, roof[0], 0);
    assertEquals(1.0 / 3, roof[7], 1e-15);
  }

  @Test
  void aRoofWithNoGroundRoundItKeepsItsWater() {
    Yard yard = Yard.slope(2, 2, 1, 0.02).building("POLYGON ((0 0, 2 0, 2 2, 0 2, 0 0))");
    assertEquals(1, cover(yard).roofM2()[0], 1e-15);
  }

  @Property(tries = 50, seed = "20261125")
  void noWaterIsLostOnItsWayOffTheRoof(@ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    SurfaceCover cover = cover(InflowLedgerFinderTest.random(seed));
    double area = 0;
    double volume = 0;
    double direct = 0;
    double[] depth = cover.runoffDepthM(0.07);
    for (int c = 0; c < depth.length; c++) {
      area += cover.areaM2(c);
      volume += depth[c] * cover.frame().cellAreaM2();
      direct +=
          CurveNumber.runoffDepthM(0.07, CurveNumber.of(cover.at(c), 'D'))
              * cover.frame().cellAreaM2();
    }
    assertEquals(cover.frame().size() * cover.frame().cellAreaM2(), area, 1e-9);
    assertEquals(direct, volume, 1e-9);
  }
}
