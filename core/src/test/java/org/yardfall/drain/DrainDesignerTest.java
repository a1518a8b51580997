package org.yardfall.drain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.pipe.EmptyingTime;
import org.yardfall.pipe.Manning;
import org.yardfall.pipe.Pipe;
import org.yardfall.pipe.PipeTable;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.SlabPipes;
import org.yardfall.route.Spans;
import org.yardfall.route.Station;
import org.yardfall.runoff.RationalMethod;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Crossing;
import org.yardfall.site.Given;
import org.yardfall.site.Soil;
import org.yardfall.site.Surface;
import org.yardfall.site.UnitSystem;

class DrainDesignerTest {

  /** At each stretch the flow is C i A of all ground upstream, recomputed from what is printed. */
  @Test
  void theFlowIsTheRationalMethodOverAllGroundUpstream() {
    Yard yard = new Yard();
    double c = RationalMethod.coefficient(Surface.Kind.LAWN, 'D', 0.025);
    double before = 0;
    for (StretchDesign s : yard.design().main().stretches()) {
      double expected = c * yard.storm().intensityMS(s.timeS()) * s.areaM2();
      assertTrue(s.flowM3S() >= expected - 1e-9);
      assertEquals(expected, s.flowM3S(), 0.02 * expected);
      assertTrue(s.flowM3S() >= before);
      before = s.flowM3S();
    }
    assertEquals(1320, yard.design().main().stretches().get(11).areaM2(), 1e-9);
  }

  @Test
  void aBranchBringsItsWaterToTheMainLineBelowTheJunction() {
    Yard yard = new Yard();
    Route route =
        Yard.route(
            yard.line(9, 1.0, Station.Span.OPEN),
            new Route.Branch(yard.line(19, 0.5, Station.Span.OPEN), 30));
    DrainDesign design = yard.design(route);
    List<StretchDesign> main = design.main().stretches();
    assertEquals(50 * 6, main.get(5).areaM2(), 1e-9);
    assertEquals(50 * 7 + 1320, main.get(6).areaM2(), 1e-9);
    assertEquals(35 + 60, main.get(6).upstreamM(), 1e-9);
    assertEquals(2, design.lines().size());
    assertEquals("branch 1", design.lines().get(1).name());
  }

  @Test
  void thePipeChosenCarriesTheFlow() {
    DrainDesign design = new Yard().design();
    for (StretchDesign s : design.main().stretches()) {
      assertTrue(s.loading() <= 1, s.toString());
      assertEquals(Manning.fullM3S(s.pipe(), s.grade()), s.capacityM3S(), 1e-12);
    }
    assertFalse(design.overloaded());
  }

  @Test
  void aPipeThatHasNoRoomToGrowIsPlannedAgain() {
    Yard yard = new Yard();
    yard.rainM = 0.6;
    // Cover at the limit everywhere: the next pipe's crown would stand too high.
    yard.limits = Given.limits(0.005, 0.2, 0.38, 1.5, 0.3, 0.9, 0.4572, 0.11684, 0.1016);
    yard.grade = 0.0005;
    DrainDesign design = yard.design();
    assertTrue(design.overloaded());
    assertEquals(6, design.tooSmall().orElseThrow().nominalIn(), 0);
    // Planned with the next pipe, 3 cm deeper, it is looked at again.
    yard.limits = PipeTable.with(yard.limits, design.tooSmall().get());
    assertEquals(8, yard.design().tooSmall().orElseThrow().nominalIn(), 0);
  }

  @Test
  void aLargerPipeIsTakenWhereThereIsRoom() {
    Yard yard = new Yard();
    yard.rainM = 0.3;
    DrainDesign design = yard.design();
    List<StretchDesign> main = design.main().stretches();
    assertTrue(design.tooSmall().isEmpty());
    assertEquals(4, main.get(0).pipe().nominalIn(), 0);
    assertTrue(main.get(11).pipe().nominalIn() > 4);
    for (int i = 1; i < main.size(); i++) {
      assertTrue(main.get(i).pipe().insideM() >= main.get(i - 1).pipe().insideM());
    }
    assertTrue(design.takeOff().lines().stream().anyMatch(l -> l.code().equals("reducer")));
  }

  @Property(tries = 15, seed = "20261125")
  void moreRainIsNeverLessPipe(
      @ForAll @Scale(4) @DoubleRange(min = 0.02, max = 0.3) double rainM,
      @ForAll @Scale(4) @DoubleRange(min = 1, max = 2) double times) {
    Yard yard = new Yard();
    yard.rainM = rainM;
    DrainDesign less = yard.design();
    yard.rainM = rainM * times;
    DrainDesign more = yard.design();
    for (int i = 0; i < 12; i++) {
      StretchDesign a = less.main().stretches().get(i);
      StretchDesign b = more.main().stretches().get(i);
      assertTrue(b.pipe().insideM() >= a.pipe().insideM());
      assertTrue(b.flowM3S() >= a.flowM3S() - 1e-12);
    }
    assertTrue(more.catchment().volumeM3() >= less.catchment().volumeM3());
  }

  /** A gully: all water of the slope meets the drain at one place, more than can get in there. */
  @Test
  void whatCannotGetInRunsOverAndIsNotInThePipe() {
    Yard yard = new Yard();
    yard.rainM = 0.4;
    // Above the drain the water runs to column 30, then down.
    gully(yard);
    DrainDesign design = yard.design();
    List<StretchDesign> main = design.main().stretches();
    StretchDesign gully = main.stream().filter(StretchDesign::overtopped).findFirst().orElseThrow();
    assertTrue(gully.fromM() == 25 || gully.fromM() == 30);
    StretchDesign last = main.get(main.size() - 1);
    assertTrue(last.flowM3S() < last.arrivingM3S());
    double enters =
        main.stream().mapToDouble(s -> s.lengthM() * Math.min(s.meetsM2S(), s.intakeM2S())).sum();
    assertEquals(enters, last.flowM3S(), 1e-9);
    assertTrue(
        DrainFindings.of(design, yard.site(), UnitSystem.METRIC).stream()
            .anyMatch(f -> f.contains("the rest runs over it")));
  }

  @Test
  void groundwaterIsAddedWhereTheSoilIsKnown() {
    Yard yard = new Yard();
    double dry = yard.design().outletM3S();
    yard.soil = Given.soil('D', OptionalDouble.of(1e-5), OptionalDouble.of(100.2));
    double wet = yard.design().outletM3S();
    assertTrue(wet > dry);
    assertTrue(
        DrainFindings.of(new Yard().design(), new Yard().site(), UnitSystem.METRIC).stream()
            .anyMatch(f -> f.contains("surface water only")));
    assertFalse(
        DrainFindings.of(yard.design(), yard.site(), UnitSystem.METRIC).stream()
            .anyMatch(f -> f.contains("surface water only")));
  }

  /** A bored pipe grows with the drain where slab and base leave room, else stays as planned. */
  @Test
  void aBoredPipeGrowsOnlyWhereTheSlabLeavesItRoom() {
    Yard yard = new Yard();
    yard.rainM = 0.3;
    Route route = bored(yard).withBores(List.of(new Bore(0, 50, 55, SlabPipes.one(yard.limits))));
    yard.slabs.add(new Crossing("W1", Yard.box(51, 0, 54, 40), 0.1, 0.1));
    DrainDesign roomy = yard.design(route);
    StretchDesign grown = roomy.main().stretches().get(10);
    assertTrue(grown.pipe().nominalIn() > 4, grown.toString());
    assertEquals(Pipe.Material.SCHEDULE_40, grown.pipe().material());
    assertEquals(grown.pipe(), roomy.bores(route).get(0).pipes().pipe());
    Route said = route.withBores(roomy.bores(route));
    assertEquals(roomy.bores(route), said.bores());
    // The pipe lies a metre deep there; a slab and base of 0.9 m leave room for 4 in alone.
    yard.slabs.set(0, new Crossing("W1", Yard.box(51, 0, 54, 40), 0.4, 0.48));
    DrainDesign tight = yard.design(route);
    assertEquals(4, tight.main().stretches().get(10).pipe().nominalIn(), 0);
    assertTrue(said(yard, route, "only 4 in solid Schedule 40 PVC has room"));
    // A pipe may not shrink downstream: the route is to be planned with a larger one.
    assertEquals(6, tight.tooSmall().orElseThrow().nominalIn(), 0);
  }

  private static boolean said(Yard yard, Route route, String words) {
    return DrainFindings.of(yard.design(route), yard.site(), UnitSystem.METRIC).stream()
        .anyMatch(f -> f.contains(words));
  }

  private static Route bored(Yard yard) {
    DrainLine open = yard.line(19, 0.5, Station.Span.OPEN);
    return Yard.route(
        Spans.of(open, s -> s.stationM() == 50 ? Station.Span.BORED : Station.Span.OPEN));
  }

  /** The gully again, with a second line below: it takes what ran over the first, once. */
  @Test
  void whatRunsOverTheUpperLineGetsIntoTheLower() {
    Yard yard = new Yard();
    yard.rainM = 0.4;
    gully(yard);
    DrainLine upper = yard.line(19, 0.5, Station.Span.OPEN);
    DrainLine lower = yard.line(9, 1.0, Station.Span.OPEN);
    DrainDesign design = yard.design(Yard.route(lower, new Route.Branch(upper, 60)));
    StretchDesign over =
        design.lines().get(1).stretches().stream()
            .filter(StretchDesign::overtopped)
            .findFirst()
            .orElseThrow();
    StretchDesign below =
        design.main().stretches().stream()
            .filter(s -> s.fromM() == over.fromM())
            .findFirst()
            .orElseThrow();
    StretchDesign beside =
        design.main().stretches().stream().filter(s -> s.fromM() == 5).findFirst().orElseThrow();
    double excess = (over.meetsM2S() - over.intakeM2S()) * 5;
    assertEquals(excess, (below.meetsM2S() - beside.meetsM2S()) * 5, 0.02 * excess);
    // All that gets in anywhere, and nothing else, is what leaves.
    double enters =
        design.lines().stream()
            .flatMap(l -> l.stretches().stream())
            .mapToDouble(s -> s.lengthM() * Math.min(s.meetsM2S(), s.intakeM2S()))
            .sum();
    StretchDesign last = design.main().stretches().get(11);
    assertEquals(Math.min(enters, last.arrivingM3S()), last.flowM3S(), 1e-9);
    assertEquals(60 * 22 + 60 * 10, last.areaM2(), 1e-9);
    Yard alone = new Yard();
    alone.rainM = 0.4;
    gully(alone);
    assertTrue(last.flowM3S() > alone.design().main().stretches().get(11).flowM3S());
  }

  private static void gully(Yard yard) {
    for (int i = 0; i < yard.toward.length; i++) {
      int col = i % Yard.FRAME.cols();
      if (i / Yard.FRAME.cols() < 19 && col != 30) {
        yard.toward[i] = (byte) (col < 30 ? 0 : 4);
      }
    }
  }

  /** Whatever runs on to what: no more gets in than there is room for, and none gets in twice. */
  @Property(tries = 200, seed = "20261125")
  void waterThatRunsOnIsNeverMadeOrCountedTwice(@ForAll Random random) {
    int n = 2 + random.nextInt(8);
    List<DrainCatchment.Share> shares = new ArrayList<>();
    double[] room = new double[n];
    for (int i = 0; i < n; i++) {
      List<DrainCatchment.Place> over = new ArrayList<>();
      for (int k = random.nextInt(3); k > 0; k--) {
        over.add(new DrainCatchment.Place(0, random.nextInt(n)));
      }
      shares.add(new DrainCatchment.Share(0, i, random.nextDouble(), 0, 0, 0, over));
      room[i] = random.nextDouble();
    }
    StretchInflows inflows =
        StretchInflows.of(shares, DrainCatchment.Share::areaM2, s -> room[s.stretch()]);
    double enters = 0;
    double own = 0;
    for (int i = 0; i < n; i++) {
      assertTrue(inflows.entersM3S(i) <= room[i] + 1e-12);
      assertTrue(inflows.meetsM3S(i) >= shares.get(i).areaM2() - 1e-12);
      enters += inflows.entersM3S(i);
      own += shares.get(i).areaM2();
    }
    assertTrue(enters <= own + 1e-9);
  }

  /** Ten millimetres a day through soil of 20 mm/h, held half a metre down. */
  @Test
  void reliefDrainsAreSpacedWhereTheyAreAskedFor() {
    Yard yard = new Yard();
    assertTrue(yard.design().relief().isEmpty());
    yard.soil = relieved(0.5, OptionalDouble.empty());
    ReliefDrains relief = yard.design().relief().orElseThrow();
    // The invert lies 0.5 to 1.1 m deep, 0.8 m on the mean; without a base the ellipse holds.
    assertEquals(0.8, relief.drainDepthM(), 1e-9);
    assertEquals(0.3, relief.headM(), 1e-9);
    assertEquals(Math.sqrt(4 * 20 * 24 * 0.3 * 0.3 / 10), relief.spacingM(), 1e-6);
    assertTrue(said(yard, "if they lie no further than 4.16 m apart"));
    yard.soil = relieved(0.5, OptionalDouble.of(3));
    assertTrue(yard.design().relief().orElseThrow().spacingM() > relief.spacingM());
    yard.soil = relieved(0.9, OptionalDouble.empty());
    assertTrue(yard.design().relief().isEmpty());
    assertTrue(said(yard, "cannot hold the water table 0.90 m down"));
  }

  private static boolean said(Yard yard, String words) {
    return DrainFindings.of(yard.design(), yard.site(), UnitSystem.METRIC).stream()
        .anyMatch(f -> f.contains(words));
  }

  private static Soil relieved(double tableDepthM, OptionalDouble impermeableDepthM) {
    return new Soil(
        'B',
        OptionalDouble.of(0.020 / 3600),
        null,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.of(0.4),
        impermeableDepthM,
        Soil.FilterClass.LESS_CRITICAL,
        new Soil.Relief(tableDepthM, 0.010 / 86_400),
        Map.of());
  }

  /** Stretch by stretch: what it draws adds up, and all of it is in the flow. */
  @Test
  void groundwaterAddsUpAlongTheDrain() {
    Yard yard = new Yard();
    DrainDesign dry = yard.design();
    yard.soil = relieved(0.5, OptionalDouble.empty());
    DrainDesign wet = yard.design();
    double sum = 0;
    for (int i = 0; i < 12; i++) {
      StretchDesign s = wet.main().stretches().get(i);
      double invertDepth = 0.5 + 0.05 * (i + 1);
      double head = invertDepth - 0.4;
      double reach = Math.max(1, 3000 * head * Math.sqrt(0.020 / 3600));
      sum += 5 * 0.020 / 3600 * head * head / reach;
      assertEquals(sum, s.groundwaterM3S(), 1e-12);
    }
    assertEquals(sum, wet.groundwaterM3S(), 1e-12);
    assertEquals(0, dry.groundwaterM3S(), 0);
    assertTrue(said(yard, "of groundwater where the water table stands over its invert"));
  }

  @Test
  void highWaterAtTheOutletBacksUpAndIsSaid() {
    Yard yard = new Yard();
    double invert = Yard.groundM(19) - 1.1;
    yard.waterLevelM = OptionalDouble.of(invert + 0.3);
    DrainDesign design = yard.design();
    assertTrue(design.main().hydraulic().backwaterM() > 15);
    assertTrue(
        DrainFindings.of(design, yard.site(), UnitSystem.METRIC).stream()
            .anyMatch(f -> f.startsWith("The water outside stands 0.30 m over")));
    yard.waterLevelM = OptionalDouble.of(Yard.groundM(19) + 0.05);
    assertTrue(yard.design().main().hydraulic().surcharges());
  }

  @Test
  void aLidAboveTheYardNeverOpens() {
    Yard yard = new Yard();
    yard.lidM = OptionalDouble.of(Yard.groundM(19) + 0.1);
    assertTrue(
        DrainFindings.of(yard.design(), yard.site(), UnitSystem.US).stream()
            .anyMatch(f -> f.contains("the yard floods before it opens")));
    yard.lidM = OptionalDouble.of(Yard.groundM(19) - 0.3);
    assertTrue(
        DrainFindings.of(yard.design(), yard.site(), UnitSystem.METRIC).stream()
            .anyMatch(f -> f.contains("lies 0.30 m below the lowest ground")));
  }

  @Test
  void waterLowerThanTheDrainWaitsForTheSoil() {
    Yard yard = new Yard();
    assertEquals(EmptyingTime.Limit.PIPE, yard.design().emptying().slowest());
    double stoneM3 =
        yard.design().takeOff().lines().stream()
            .filter(l -> l.code().equals("stone-volume"))
            .mapToDouble(TakeOff.Line::needed)
            .sum();
    assertEquals(
        0.4 * stoneM3 / yard.design().main().stretches().get(0).capacityM3S(),
        yard.design().emptying().seconds(),
        1);
  }

  /** Roof water never into perforated pipe ({@code common practice, no source}). */
  @Test
  void roofWaterIntoPerforatedPipeIsRefused() {
    Yard yard = new Yard();
    DrainDesigner designer =
        DrainDesigner.of(yard.site(), yard.terrain(), yard.water(), yard.storm());
    RoofInlet downspout = new RoofInlet("S1", new Coordinate(20, 18));
    BadInputException refused =
        assertThrows(
            BadInputException.class, () -> designer.design(yard.route(), List.of(downspout)));
    assertTrue(refused.getMessage().contains("perforated pipe of R1 at main station 20.0 m"));
    Route solid = Yard.route(yard.line(19, 0.5, Station.Span.SOLID));
    assertEquals("R1", designer.design(solid, List.of(downspout)).routeId());
  }

  @Test
  void aPipeLargerThanTheTrenchIsRefused() {
    Yard yard = new Yard();
    yard.limits = Given.limits(0.005, 0.2, 0.15, 1.5, 0.3, 0.9, 0.10, 0.11684, 0.1016);
    assertThrows(BadInputException.class, yard::design);
  }

  @Test
  void fabricAndStoneAreCheckedWhereTheSoilIsKnown() {
    Yard yard = new Yard();
    assertEquals(1, yard.design().filters().size());
    yard.soil = Given.graded('B', 7e-6, new Soil.GrainSizes(0.03, 0.12, 0.5, 6, 0.35));
    assertTrue(yard.design().filters().size() > 8);
  }

  @Test
  void theSameDrainGivesTheSameDesign() {
    assertEquals(new Yard().design(), new Yard().design());
  }

  @Test
  void theDesignReadsInSentences() {
    Yard yard = new Yard();
    List<String> metric = DrainFindings.of(yard.design(), yard.site(), UnitSystem.METRIC);
    List<String> us = DrainFindings.of(yard.design(), yard.site(), UnitSystem.US);
    assertEquals(metric.size(), us.size());
    assertTrue(metric.get(0).startsWith("The water of 1320 m² of ground runs to it"));
    assertTrue(us.get(0).startsWith("The water of 14208 ft² of ground runs to it"));
  }
}
