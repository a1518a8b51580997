package org.yardfall.trench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.yardfall.site.Given;
import org.yardfall.site.Soil;
import org.yardfall.site.Surface;

/** The trench's section, what comes out of it and what goes in. */
class TrenchTest {

  private static final double FOOT = 0.3048;
  private static final double INCH = 0.0254;
  private static final double YARD3 = Math.pow(3 * FOOT, 3);

  /** 100 ft of 12 by 24 in trench, 4.6 in pipe: recomputed, not published. */
  @Test
  void aHundredFeetOfTrenchIsSevenYardsOfStone() {
    TrenchSection section = new TrenchSection(12 * INCH, 4.6 * INCH, 4.6 * INCH, 0);
    double depth = 24 * INCH;
    assertEquals(7.407, section.dugM2(depth) * 100 * FOOT / YARD3, 0.001);
    assertEquals(6.980, section.stoneM2(depth, Restoration.NONE) * 100 * FOOT / YARD3, 0.001);
    checkSpoil(Swell.SAND, 8.30);
    checkSpoil(Swell.EARTH, 9.26);
    checkSpoil(Swell.CLAY, 10.37);
  }

  /** Three lines of 200 ft in a trench of 12 by 12 in round 4 in pipe: 22.2 and 20.3 yd³. */
  @Test
  void sixHundredFeetOfNarrowTrenchIsTwentyYardsOfStone() {
    TrenchSection section = new TrenchSection(12 * INCH, 4 * INCH, 4 * INCH, 0);
    assertEquals(22.2, section.dugM2(12 * INCH) * 600 * FOOT / YARD3, 0.05);
    assertEquals(20.3, section.stoneM2(12 * INCH, Restoration.NONE) * 600 * FOOT / YARD3, 0.05);
  }

  private static void checkSpoil(Swell swell, double expectedYards) {
    assertEquals(expectedYards, swell.looseM3(7.407), 0.006);
  }

  /** A published swell example: 200 × 20 × 2 m of 40 % swell is 11 200 m³ loose. */
  @Test
  void clayGrowsByTwoFifthsOnceDug() {
    assertEquals(11_200, Swell.CLAY.looseM3(200.0 * 20 * 2), 1e-9);
  }

  @Test
  void swellFollowsFromTheSoil() {
    assertEquals(Swell.SAND, Swell.of(Given.soil('A')));
    assertEquals(Swell.EARTH, Swell.of(Given.soil('B')));
    assertEquals(Swell.CLAY, Swell.of(Given.soil('D')));
    assertEquals(
        Swell.CLAY,
        Swell.of(Given.graded('A', 7e-6, new Soil.GrainSizes(0.001, 0.01, 0.07, 9, 0.9))));
  }

  /**
   * A trench 18 in wide by 24 in deep, sod cut with 2.5 in of root ({@code common practice, no
   * source}): what is dug is sod, hauled soil, and nothing that goes back.
   */
  @Test
  void nothingDugGoesBackButTheSod() {
    TrenchSection section = new TrenchSection(18 * INCH, 4.6 * INCH, 4 * INCH, 2 * INCH);
    double invert = 24 * INCH - 2 * INCH - 0.3 * INCH;
    assertEquals(24 * INCH, section.dugDepthM(invert), 1e-12);
    double sod = 18 * INCH * 2.5 * INCH;
    assertEquals(section.dugM2(invert), section.spoilM2(invert, Restoration.SOD) + sod, 1e-12);
    assertEquals(2.5 * INCH, Restoration.SOD.thicknessM(), 1e-12);
  }

  /**
   * The pipe lies at the bottom of the trench ({@code common practice, no source}): in a trench of
   * 24 in the stone under it is the bed alone, 2 in, and all the rest lies over it.
   */
  @Test
  void thePipeLiesAtTheBottom() {
    TrenchSection section = new TrenchSection(18 * INCH, 4.6 * INCH, 4 * INCH, TrenchSection.BED_M);
    double invert = 1.0;
    double under = section.dugDepthM(invert) - invert - 0.3 * INCH;
    assertEquals(2 * INCH, under, 1e-12);
    assertTrue(under < 0.1 * section.dugDepthM(invert));
  }

  @Property(seed = "20261125")
  void whatGoesInFillsWhatWasDug(
      @ForAll @Scale(4) @DoubleRange(min = 0.3, max = 2) double depthM,
      @ForAll Restoration restoration) {
    TrenchSection section = new TrenchSection(0.45, 0.117, 0.1016, 0.05);
    double filled =
        section.stoneM2(depthM, restoration)
            + section.pipeM2()
            + section.widthM() * restoration.thicknessM();
    assertEquals(section.dugM2(depthM), filled, 1e-12);
  }

  /** Stone and pipe are wrapped as one ({@code common practice, no source}), with 12 in of lap. */
  @Test
  void fabricGoesRoundStoneAndPipe() {
    TrenchSection section = new TrenchSection(0.45, 0.117, 0.117, 0);
    assertEquals(2 * (0.45 + 0.60) + 0.30, section.fabricM(0.60, Restoration.NONE), 1e-12);
    assertEquals(
        2 * (0.20 + 0.60) + 0.20,
        new TrenchSection(0.20, 0.117, 0.117, 0).fabricM(0.60, Restoration.NONE),
        1e-12);
  }

  @Test
  void rollsAreBoughtWhole() {
    // 6 ft goes round 1.75 m; the second roll laps the first by 0.3 m.
    FabricRoll.Order order = FabricRoll.cover(1.75, 60.9);
    assertEquals(6 * FOOT, order.roll().widthM(), 1e-12);
    assertEquals(3, order.rolls());
    assertEquals(1, FabricRoll.cover(1.75, 100 * FOOT).rolls());
    assertEquals(2, FabricRoll.cover(1.75, 100 * FOOT + 0.01).rolls());
    assertEquals(2, FabricRoll.cover(5.0, 10).strips());
  }

  @Test
  void pavementAndLawnArePutBackStoneIsNot() {
    assertEquals(Restoration.SOD, Restoration.of(Surface.Kind.LAWN));
    assertEquals(Restoration.PAVEMENT, Restoration.of(Surface.Kind.PAVEMENT));
    assertEquals(Restoration.NONE, Restoration.of(Surface.Kind.WOODS));
  }

  /** 29 CFR 1926.651(c)(2) 4 ft, 1926.652(a)(1) 5 ft, 1926.651(j)(2) 2 ft. */
  @Test
  void depthBringsDuties() {
    checkDuties(0.6, "spoil-back");
    checkDuties(4 * FOOT - 0.001, "spoil-back");
    checkDuties(4 * FOOT, "spoil-back", "trench-egress");
    checkDuties(5 * FOOT, "spoil-back", "trench-egress", "trench-protection");
    assertTrue(TrenchSafety.at(1.6).get(2).words().contains("1926.652(a)(1)"));
    assertTrue(
        TrenchSafety.at(7).stream().allMatch(d -> d.words().contains("your local rule elsewhere")));
  }

  private static void checkDuties(double depthM, String... codes) {
    assertEquals(
        List.of(codes), TrenchSafety.at(depthM).stream().map(TrenchSafety.Duty::code).toList());
  }
}
