package org.yardfall.pipe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.yardfall.pipe.HydraulicGradeLine.Node;
import org.yardfall.pipe.HydraulicGradeLine.Stretch;

class HydraulicGradeLineTest {

  private static final Pipe PIPE = PipeTable.find(Pipe.Material.CORRUGATED, true, 4).orElseThrow();
  private static final OptionalDouble NONE = OptionalDouble.empty();

  /** 40 m of pipe with its outlet at invert 100 m, 0.6 m under level ground at the outlet. */
  private static HydraulicGradeLine drain(
      double grade, double flowM3S, OptionalDouble water, OptionalDouble lid) {
    return HydraulicGradeLine.along(
        List.of(new Node(0, 100.6 + 40 * grade, 100 + 40 * grade), new Node(40, 100.6, 100)),
        List.of(new Stretch(PIPE, 1, flowM3S)),
        water,
        lid);
  }

  @Test
  void farFromTheOutletTheFlowIsUniform() {
    for (double grade : new double[] {0.002, 0.005, 0.01, 0.05}) {
      double flow = 0.6 * Manning.fullM3S(PIPE, grade);
      HydraulicGradeLine line = drain(grade, flow, NONE, NONE);
      double normal = Manning.normalDepthM(PIPE, grade, flow);
      assertEquals(100 + 40 * grade + normal, line.points().get(0).levelM(), 0.001);
      assertEquals(0, line.fullM(), 0);
      assertEquals(0, line.backwaterM(), 0);
    }
  }

  /**
   * A drowned pipe rises by its friction slope, (Q n / (A R^(2/3)))² per metre; in Texas's
   * hydraulic design manual, eq. 6-26 (read), (Q n / (0.3116 D^(8/3)))².
   */
  @Test
  void aDrownedPipeRisesByItsFriction() {
    double flow = 0.8 * Manning.fullM3S(PIPE, 0.005);
    HydraulicGradeLine line = drain(0.0, flow, OptionalDouble.of(100.4), NONE);
    assertEquals(100.4 + 40 * 0.8 * 0.8 * 0.005, line.points().get(0).levelM(), 1e-9);
    double slope = flow * PIPE.n() / (0.3116 * Math.pow(PIPE.insideM(), 8 / 3.0));
    assertEquals(slope * slope, (line.points().get(0).levelM() - 100.4) / 40, 1e-3 * slope * slope);
    assertEquals(40, line.fullM(), 1e-9);
    assertFalse(line.surcharges());
  }

  /**
   * FHWA HEC-22 (3rd ed., 2009), example 7-3 in feet, its energy grade line sheet (read): full
   * pipes of n 0.013 lose 0.05 ft (2 ft, 6.75 ft³/s, 55.8 ft long), 0.01 ft (14.1 ft long) and 0.78
   * ft (1.5 ft, 5.1 ft³/s, 328 ft long) to friction. Its 0.78 takes 0.46 for 0.4644: 0.773.
   */
  @Test
  void fullPipesLoseWhatTheHighwayManualSays() {
    checkFriction(2, 6.75, 55.8, 0.05, 0.005);
    checkFriction(2, 6.75, 14.1, 0.01, 0.005);
    checkFriction(1.5, 5.1, 328, 0.78, 0.01);
  }

  private static void checkFriction(
      double feet, double cfs, double lengthFt, double lossFt, double toleranceFt) {
    double foot = 0.3048;
    Pipe pipe =
        new Pipe(
            Pipe.Material.PVC_SEWER,
            false,
            12 * feet,
            feet * foot,
            1.1 * feet * foot,
            0.013,
            "",
            0,
            Pipe.Opening.NONE,
            0);
    HydraulicGradeLine line =
        HydraulicGradeLine.along(
            List.of(new Node(0, 110, 100), new Node(lengthFt * foot, 110, 100)),
            List.of(new Stretch(pipe, 1, cfs * foot * foot * foot)),
            OptionalDouble.of(102),
            NONE);
    assertEquals(lengthFt * foot, line.fullM(), 1e-9);
    assertEquals(lossFt, (line.levelM(0) - 102) / foot, toleranceFt);
  }

  /**
   * Where the line starts (read in Texas's hydraulic design manual, ch. 6, section 3, and in FHWA
   * HEC-22, 7.1.5): the water outside, or, where that stands lower, critical depth; half way
   * between critical depth and the crown where the pipe runs full.
   */
  @Test
  void theLineStartsAtTheWaterOutsideOrAtCriticalDepth() {
    double flow = 0.6 * Manning.fullM3S(PIPE, 0.002);
    double critical = Manning.criticalDepthM(PIPE.insideM(), flow);
    assertTrue(critical < Manning.normalDepthM(PIPE, 0.002, flow));
    assertEquals(100 + critical, drain(0.002, flow, NONE, NONE).outletLevelM(), 1e-9);
    assertEquals(
        100 + critical, drain(0.002, flow, OptionalDouble.of(100.01), NONE).outletLevelM(), 1e-9);
    assertEquals(100.09, drain(0.002, flow, OptionalDouble.of(100.09), NONE).outletLevelM(), 1e-12);
    double more = 1.2 * Manning.fullM3S(PIPE, 0.002);
    assertEquals(
        100 + (Manning.criticalDepthM(PIPE.insideM(), more) + PIPE.insideM()) / 2,
        drain(0.002, more, NONE, NONE).outletLevelM(),
        1e-9);
  }

  /** Standing water is level: without flow the line is the water outside until the invert rises. */
  @Test
  void withoutFlowTheLineIsLevel() {
    HydraulicGradeLine line = drain(0.01, 0, OptionalDouble.of(100.2), NONE);
    assertEquals(100.2, line.levelM(30), 1e-9);
    assertEquals(100.4, line.levelM(0), 1e-9);
    assertEquals(20, line.backwaterM(), 0.5);
  }

  @Test
  void aFullPipeAtItsOwnGradeRunsParallelToIt() {
    double flow = Manning.fullM3S(PIPE, 0.01);
    HydraulicGradeLine line =
        drain(0.01, flow, OptionalDouble.of(100 + PIPE.insideM() + 0.02), NONE);
    assertEquals(100 + PIPE.insideM() + 0.42, line.points().get(0).levelM(), 1e-9);
  }

  @Test
  void moreThanFullSurchargesTheYard() {
    double flow = 1.8 * Manning.fullM3S(PIPE, 0.01);
    HydraulicGradeLine line = drain(0.01, flow, NONE, NONE);
    assertTrue(line.surcharges());
    assertEquals(0, line.worst().node().stationM(), 1e-9);
    // Friction takes 3.24 % of 40 m from about the crown at the outlet.
    assertEquals(100 + PIPE.insideM() + 40 * 0.01 * 3.24, line.points().get(0).levelM(), 0.02);
  }

  /** A lid 0.9 m over the outlet's invert stands higher than the ground 30 m up at 1 %. */
  @Test
  void aLidHigherThanTheYardDrownsTheYard() {
    double flow = 0.3 * Manning.fullM3S(PIPE, 0.01);
    assertTrue(drain(0.01, flow, NONE, OptionalDouble.of(101.2)).surcharges());
    assertFalse(drain(0.01, flow, NONE, OptionalDouble.of(100.5)).surcharges());
  }

  /** Against the differential equation dy/dx = (S − Sf) / (1 − F²), integrated in fine steps. */
  @Test
  void theBackwaterCurveSolvesTheEquationOfGraduallyVariedFlow() {
    double grade = 0.004;
    double flow = 0.5 * Manning.fullM3S(PIPE, grade);
    double y = 0.095;
    double run = 0;
    double step = 0.001;
    while (run < 10) {
      CircularSection s = CircularSection.at(PIPE.insideM(), y);
      double froude2 = flow * flow * s.surfaceM() / (Manning.GRAVITY * Math.pow(s.areaM2(), 3));
      y -= step * (grade - Manning.frictionSlope(PIPE, flow, y)) / (1 - froude2);
      run += step;
    }
    HydraulicGradeLine line = drain(grade, flow, OptionalDouble.of(100.095), NONE);
    assertEquals(100 + 10 * grade + y, line.levelM(30), 0.0005);
    assertTrue(line.backwaterM() > 10 && line.backwaterM() < 40);
  }

  @Property(tries = 60, seed = "20261125")
  void moreWaterOutsideNeverLowersTheLine(
      @ForAll @Scale(6) @DoubleRange(min = 99.9, max = 100.8) double water,
      @ForAll @Scale(6) @DoubleRange(min = 0, max = 0.3) double more,
      @ForAll @Scale(6) @DoubleRange(min = 0.002, max = 0.05) double grade,
      @ForAll @Scale(6) @DoubleRange(min = 0.05, max = 1.3) double share) {
    double flow = share * Manning.fullM3S(PIPE, grade);
    HydraulicGradeLine low = drain(grade, flow, OptionalDouble.of(water), NONE);
    HydraulicGradeLine high = drain(grade, flow, OptionalDouble.of(water + more), NONE);
    for (int i = 0; i < low.points().size(); i++) {
      assertTrue(high.points().get(i).levelM() >= low.points().get(i).levelM() - 1e-6);
    }
  }

  @Test
  void twoPipesShareTheFlow() {
    List<Node> nodes = List.of(new Node(0, 101, 100.1), new Node(10, 101, 100));
    double flow = 1.6 * Manning.fullM3S(PIPE, 0.01);
    HydraulicGradeLine one =
        HydraulicGradeLine.along(nodes, List.of(new Stretch(PIPE, 1, flow)), NONE, NONE);
    HydraulicGradeLine two =
        HydraulicGradeLine.along(nodes, List.of(new Stretch(PIPE, 2, flow)), NONE, NONE);
    assertTrue(one.fullM() > 9);
    assertEquals(0, two.fullM(), 0);
  }
}
