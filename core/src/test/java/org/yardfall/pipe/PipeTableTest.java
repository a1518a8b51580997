package org.yardfall.pipe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.yardfall.pipe.Pipe.Material;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Given;
import org.yardfall.site.Soil;

class PipeTableTest {

  private static Pipe pipe(Material material, boolean perforated, double inches) {
    return PipeTable.find(material, perforated, inches).orElseThrow();
  }

  /** ASTM D3034: outside diameters 4.215, 6.275, 8.400 in; SDR 35, the 4 in wall 0.120 in. */
  @Test
  void sewerPipeHasTheDiametersOfItsStandard() {
    assertEquals(4.215, pipe(Material.PVC_SEWER, false, 4).outsideM() / 0.0254, 1e-9);
    assertEquals(6.275, pipe(Material.PVC_SEWER, false, 6).outsideM() / 0.0254, 1e-9);
    assertEquals(8.400, pipe(Material.PVC_SEWER, false, 8).outsideM() / 0.0254, 1e-9);
    assertEquals(0.120, wallIn(pipe(Material.PVC_SEWER, false, 4)), 0.0005);
  }

  /**
   * ASTM D1785, table of Schedule 40 as reprinted: outside diameter, wall, inside diameter in in.
   */
  @Test
  void schedule40HasTheDiametersOfItsStandard() {
    checkSchedule40(3, 3.500, 0.216, 3.068);
    checkSchedule40(4, 4.500, 0.237, 4.026);
    checkSchedule40(6, 6.625, 0.280, 6.065);
    checkSchedule40(8, 8.625, 0.322, 7.981);
  }

  private static double wallIn(Pipe pipe) {
    return (pipe.outsideM() - pipe.insideM()) / 2 / 0.0254;
  }

  private static void checkSchedule40(double nominal, double outside, double wall, double inside) {
    Pipe pipe = pipe(Material.SCHEDULE_40, false, nominal);
    assertEquals(outside, pipe.outsideM() / 0.0254, 1e-9);
    assertEquals(wall, wallIn(pipe), 1e-9);
    assertEquals(inside, pipe.insideM() / 0.0254, 5e-4);
  }

  /**
   * AASHTO M 252, class 2 perforations, as quoted in two technical notes: no less than 20 cm² per
   * metre, 0.945 in² per foot, for 4 to 10 in.
   */
  @Test
  void slottedPipeHasTheLeastInletAreaOfItsStandard() {
    for (double inches : new double[] {4, 6, 8}) {
      double area = pipe(Material.CORRUGATED, true, inches).perforationM2PerM();
      assertEquals(20, area * 1e4, 1e-9);
      assertEquals(0.945, area * 0.3048 / 0.0254 / 0.0254, 5e-4);
    }
  }

  /** ASTM D2729, dimensions of sockets: a 4 in pipe fits one of 4.210 to 4.235 in, a 6 in 6.270. */
  @Test
  void drainPipeFitsTheSocketsOfItsStandard() {
    checkFits(3, 3.245, 3.271);
    checkFits(4, 4.210, 4.235);
    checkFits(6, 6.270, 6.305);
  }

  private static void checkFits(double inches, double bottomIn, double entranceIn) {
    double outside = pipe(Material.PVC, true, inches).outsideM() / 0.0254;
    assertTrue(outside >= bottomIn && outside <= entranceIn);
  }

  /**
   * A table of equal pipes in a municipal ordinance (No. 80-10 of 1980), which goes with the 2.65th
   * power: a 6 in pipe is worth 2.9 of 4 in, an 8 in 6.3, a 4 in 2.1 of 3 in.
   */
  @Test
  void aSixInchPipeIsWorthThreeOfFourInch() {
    checkWorth(6, 4, 2.9);
    checkWorth(8, 4, 6.3);
    checkWorth(4, 3, 2.1);
    checkWorth(8, 6, 2.1);
  }

  private static void checkWorth(double larger, double smaller, double times) {
    double ratio =
        TwinPipes.capacityRatio(
            1, pipe(Material.CORRUGATED, false, smaller), pipe(Material.CORRUGATED, false, larger));
    assertEquals(times, 1 / ratio, 0.06);
  }

  /**
   * Two 4 in pipes stand in for one 6 in under a walk ({@code common practice, no source}): of the
   * same pipe they carry two thirds of it, of smooth sewer pipe about all of it.
   */
  @Test
  void twoFourInchPipesForOneSixInch() {
    Pipe six = pipe(Material.CORRUGATED, false, 6);
    assertEquals(
        0.678, TwinPipes.capacityRatio(2, pipe(Material.CORRUGATED, false, 4), six), 0.001);
    assertEquals(1.0, TwinPipes.capacityRatio(2, pipe(Material.PVC_SEWER, false, 4), six), 0.02);
    assertEquals(3, TwinPipes.needed(pipe(Material.CORRUGATED, false, 4), six));
  }

  /** 6 in from about 200 ft of upstream run ({@code common practice, no source}). */
  @Test
  void theTradeLaysSixInchFromTwoHundredFeet() {
    assertEquals(4, TradeRule.nominalIn(199 * 0.3048), 0);
    assertEquals(6, TradeRule.nominalIn(200 * 0.3048 + 1e-9), 0);
  }

  @Test
  void theNextPipeIsLargerAndOfTheSameKind() {
    assertEquals(
        6, PipeTable.next(pipe(Material.CORRUGATED, true, 4)).orElseThrow().nominalIn(), 0);
    assertEquals(6, PipeTable.next(pipe(Material.PVC, true, 4)).orElseThrow().nominalIn(), 0);
    assertTrue(PipeTable.next(pipe(Material.CORRUGATED, true, 8)).isEmpty());
  }

  @Test
  void theLimitsNameAPipeOfTheTable() {
    Pipe pipe = PipeTable.of(Given.limits(0.01, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.117, 0.1016));
    assertEquals(Material.CORRUGATED, pipe.material());
    assertEquals("4 in perforated corrugated polyethylene", pipe.words());
    assertEquals(0.117, pipe.outsideM(), 0);
  }

  @Test
  void everyPipeSaysWhereItsRoughnessComesFrom() {
    for (Pipe pipe : PipeTable.all()) {
      assertTrue(pipe.nSource().startsWith(String.format("%.3f", pipe.n())), pipe.words());
      assertTrue(pipe.outsideM() > pipe.insideM());
      assertEquals(pipe.perforated(), pipe.openingM() > 0);
    }
  }

  @Test
  void aPipeThickerInsideThanOutsideIsRefused() {
    Pipe four = pipe(Material.CORRUGATED, true, 4);
    assertThrows(
        BadInputException.class,
        () -> new Pipe(four.material(), false, 4, 0.2, 0.1, 0.015, "", 0, Pipe.Opening.NONE, 0));
  }

  /**
   * NRCS Engineering Field Handbook ch. 14: 0.5 ft/s, 1.4 ft/s where fine sand or silt may enter.
   */
  @Test
  void siltWithoutFabricNeedsFasterWater() {
    Soil silt = Given.soil('B');
    assertEquals(1.4 * 0.3048, VelocityLimits.leastMS(silt, false), 1e-12);
    assertEquals(0.5 * 0.3048, VelocityLimits.leastMS(silt, true), 1e-12);
    assertFalse(VelocityLimits.mostMS(silt) > 5.001 * 0.3048);
  }
}
