package org.yardfall.drain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.drain.DrainFlows.Carried;
import org.yardfall.pipe.Pipe;
import org.yardfall.pipe.PipeTable;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainLine;
import org.yardfall.route.SlabPipes;
import org.yardfall.route.Spans;
import org.yardfall.route.Station;
import org.yardfall.site.Crossing;

/** Which pipe lies where along a line. */
class PipeSizerTest {

  private static final int STRETCHES = 12;

  /** A line of ups and downs in depth and grade, with a bore in it, and the water it carries. */
  private record Line(DrainLine line, List<Bore> bores, List<Carried> carried) {}

  private static Line random(Random random, Yard yard) {
    List<Station> stations = new ArrayList<>();
    int bore = random.nextInt(2 * STRETCHES);
    double invert = 100;
    for (int i = 0; i <= STRETCHES; i++) {
      double grade = 0.005 + 0.03 * random.nextDouble() * random.nextDouble();
      double depth = 0.27 + 0.6 * random.nextDouble() * random.nextDouble();
      stations.add(
          new Station(
              5.0 * i,
              5.0 * i,
              19,
              invert + depth,
              invert,
              depth - yard.limits.pipeOutsideM(),
              depth,
              grade,
              i == bore
                  ? Station.Span.BORED
                  : random.nextInt(5) == 0 ? Station.Span.SOLID : Station.Span.OPEN));
      invert -= 5 * grade;
    }
    if (bore < STRETCHES) {
      double slab = 0.1 + 0.4 * random.nextDouble();
      yard.slabs.add(new Crossing("W", Yard.box(5.0 * bore + 1, 0, 5.0 * bore + 4, 40), slab, 0.1));
    }
    List<Carried> carried = new ArrayList<>();
    double flow = 0;
    for (int i = 0; i < STRETCHES; i++) {
      flow += 0.003 * random.nextDouble() * random.nextDouble();
      carried.add(carried(flow));
    }
    return new Line(
        new DrainLine(List.of(new Coordinate(0, 19), new Coordinate(60, 19)), stations),
        List.of(new Bore(0, 5.0 * bore, 5.0 * bore + 5, SlabPipes.one(yard.limits))),
        carried);
  }

  private static Carried carried(double flowM3S) {
    return new Carried(flowM3S, flowM3S, 100, 300, 50, 0, 0, new StretchIntake(0, null));
  }

  /**
   * No pipe shrinks downstream, is too small, or comes up too near the ground, unless the route is
   * to be planned again; more water, with room or without, never asks for less pipe.
   */
  @Property(tries = 500, seed = "20261125")
  void pipesOnlyGrowDownstreamAndKeepTheirCover(
      @ForAll Random random, @ForAll @Scale(4) @DoubleRange(min = 1, max = 3) double more) {
    Yard yard = new Yard();
    Line line = random(random, yard);
    Pipe planned = PipeTable.of(yard.limits);
    PipeSizer sizer = new PipeSizer(yard.site(), planned);
    List<StretchDesign> laid = sizer.line(line.line(), line.bores(), line.carried(), List.of());
    double least = 0;
    for (int i = 0; i < STRETCHES && sizer.needed().isEmpty(); i++) {
      StretchDesign s = laid.get(i);
      assertTrue(s.pipe().nominalIn() >= least, laid.toString());
      least = s.pipe().nominalIn();
      assertTrue(s.loading() <= 1 || PipeTable.next(s.pipe()).isEmpty(), s.toString());
      for (Station end : line.line().stations().subList(i, i + 2)) {
        double cover = end.depthM() - s.pipe().outsideM();
        boolean bored = s.span() == Station.Span.BORED;
        double asked =
            bored
                ? yard.slabs.get(0).thicknessM() + 0.1
                : Math.min(yard.limits.minCoverM(), end.coverM());
        assertTrue(
            cover >= asked - 1e-9 || (bored && s.pipe().nominalIn() == planned.nominalIn()),
            s + " has " + cover);
      }
    }
    List<Carried> wetter = line.carried().stream().map(c -> carried(more * c.flowM3S())).toList();
    PipeSizer again = new PipeSizer(yard.site(), planned);
    List<StretchDesign> larger = again.line(line.line(), line.bores(), wetter, List.of());
    assertTrue(sizer.needed().isEmpty() || again.needed().isPresent());
    for (int i = 0; i < STRETCHES && again.needed().isEmpty(); i++) {
      assertTrue(larger.get(i).pipe().nominalIn() >= laid.get(i).pipe().nominalIn());
    }
  }

  /** A 6 in branch joins just above a slab that leaves room for 4 in alone. */
  @Test
  void aBoreNarrowerThanThePipeThatLeadsToItIsPlannedAgain() {
    Yard yard = new Yard();
    Random random = new Random(1);
    Line line = random(random, yard);
    List<Station> stations = new ArrayList<>();
    for (Station s : line.line().stations()) {
      Station.Span span = s.stationM() == 40 ? Station.Span.BORED : Station.Span.OPEN;
      stations.add(
          new Station(
              s.stationM(), s.x(), s.y(), s.invertM() + 0.6, s.invertM(), 0.48, 0.6, 0.02, span));
    }
    DrainLine level = new DrainLine(line.line().vertices(), stations);
    List<Carried> little = line.carried().stream().map(c -> carried(1e-4)).toList();
    Pipe six = PipeTable.find(Pipe.Material.CORRUGATED, true, 6).orElseThrow();
    yard.slabs.clear();
    yard.slabs.add(new Crossing("W", Yard.box(41, 0, 44, 40), 0.1, 0.1));
    List<Bore> bore = List.of(new Bore(0, 40, 45, SlabPipes.one(yard.limits)));
    List<PipeSizer.Joint> joints = List.of(new PipeSizer.Joint(37, six));

    PipeSizer roomy = new PipeSizer(yard.site(), PipeTable.of(yard.limits));
    List<StretchDesign> laid = roomy.line(level, bore, little, joints);
    assertEquals(4, laid.get(6).pipe().nominalIn(), 0);
    assertEquals(6, laid.get(7).pipe().nominalIn(), 0);
    assertEquals(6, laid.get(8).pipe().nominalIn(), 0);
    assertTrue(roomy.needed().isEmpty());

    yard.slabs.set(0, new Crossing("W", Yard.box(41, 0, 44, 40), 0.35, 0.1));
    PipeSizer tight = new PipeSizer(yard.site(), PipeTable.of(yard.limits));
    assertEquals(4, tight.line(level, bore, little, joints).get(8).pipe().nominalIn(), 0);
    assertEquals(6, tight.needed().orElseThrow().nominalIn(), 0);
  }

  /** At 1 % a 4 in pipe of n 0.010 carries 7.1 l/s full: 8 l/s ask for the next size. */
  @Test
  void aBoreTooSmallForItsWaterIsPlannedAgainHoweverMuchRoomTheSlabLeaves() {
    Yard yard = new Yard();
    yard.slabs.add(new Crossing("W", Yard.box(51, 0, 54, 40), 0.1, 0.1));
    DrainLine line =
        Spans.of(
            yard.line(19, 0.6, Station.Span.OPEN),
            s -> s.stationM() == 50 ? Station.Span.BORED : Station.Span.OPEN);
    List<Bore> bore = List.of(new Bore(0, 50, 55, SlabPipes.one(yard.limits)));
    for (double flow : new double[] {7.0e-3, 8.0e-3}) {
      List<Carried> carried = new ArrayList<>();
      for (int i = 0; i < STRETCHES; i++) {
        carried.add(carried(i == 10 ? flow : 1e-4));
      }
      PipeSizer sizer = new PipeSizer(yard.site(), PipeTable.of(yard.limits));
      sizer.line(line, bore, carried, List.of());
      assertEquals(flow > 7.1e-3, sizer.needed().isPresent(), flow + " m³/s");
    }
  }
}
