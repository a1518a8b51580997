package org.yardfall.drain;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.drain.DrainFlows.Carried;
import org.yardfall.pipe.Manning;
import org.yardfall.pipe.Pipe;
import org.yardfall.pipe.PipeTable;
import org.yardfall.pipe.TradeRule;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainLine;
import org.yardfall.route.SlabPipes;
import org.yardfall.route.Station;
import org.yardfall.site.Crossing;
import org.yardfall.site.Site;
import org.yardfall.trench.GroundCover;

/**
 * Chooses the pipe of every stretch: the smallest, from the one planned upward, that carries the
 * peak flowing full, never smaller than the one upstream, since what a wider pipe carries along
 * sticks in a narrower. A larger pipe than planned is taken only where the line's depth leaves it
 * its cover and the trench its width; otherwise the line keeps the pipe it has. Wherever a pipe is
 * too small, or would shrink under a slab, or lies with less cover than asked because one upstream
 * is large, the next pipe to plan the route with is told.
 */
final class PipeSizer {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final Site site;
  private final GroundCover ground;
  private final Pipe planned;
  private Optional<Pipe> needed = Optional.empty();

  /**
   * A branch that joins.
   *
   * @param stationM station of the junction in metres
   * @param pipe the branch's last pipe, as perforated as the planned one
   */
  record Joint(double stationM, Pipe pipe) {}

  PipeSizer(Site site, Pipe planned) {
    this.site = site;
    this.ground = GroundCover.of(site);
    this.planned = planned;
  }

  /** The next pipe to plan the route with; empty where the pipes chosen stand. */
  Optional<Pipe> needed() {
    return needed;
  }

  /**
   * The stretches of a line with their pipes.
   *
   * @param bores the line's bored stretches, each with its pipes
   * @param joints branches that join the line; below each the pipe is no smaller than theirs
   */
  List<StretchDesign> line(
      DrainLine line, List<Bore> bores, List<Carried> carried, List<Joint> joints) {
    List<StretchDesign> stretches = new ArrayList<>();
    Pipe pipe = planned;
    List<Station> stations = line.stations();
    for (int i = 0; i + 1 < stations.size(); i++) {
      Station up = stations.get(i);
      Station down = stations.get(i + 1);
      double run = down.stationM() - up.stationM();
      double grade = run > 0 ? (up.invertM() - down.invertM()) / run : up.grade();
      for (Joint joint : joints) {
        boolean above = joint.stationM() < down.stationM() - 1e-6 || i + 2 == stations.size();
        if (above && joint.pipe().insideM() > pipe.insideM()) {
          pipe = joint.pipe();
        }
      }
      if (up.span() != Station.Span.BORED) {
        pipe = grow(pipe, grade, carried.get(i).flowM3S(), up, down);
        if (pipe.insideM() > planned.insideM() && !(fits(pipe, up) && fits(pipe, down))) {
          needsNext();
        }
      }
      SlabPipes laid =
          switch (up.span()) {
            case OPEN -> new SlabPipes(1, pipe);
            case SOLID -> new SlabPipes(1, PipeTable.solid(pipe));
            case BORED -> underSlab(bores, up, down, pipe, grade, carried.get(i).flowM3S());
          };
      stretches.add(design(up, down, grade, laid, carried.get(i)));
    }
    return stretches;
  }

  /**
   * The pipes of a bore: two side by side as planned; one alone as large as the drain's there where
   * slab and base leave it room, else as planned, and if that is too small or narrower than the
   * drain's the route is planned again with a larger pipe.
   */
  private SlabPipes underSlab(
      List<Bore> bores, Station up, Station down, Pipe pipe, double grade, double flowM3S) {
    double middle = (up.stationM() + down.stationM()) / 2;
    SlabPipes bored =
        bores.stream()
            .filter(b -> b.fromM() <= middle && middle <= b.toM())
            .map(Bore::pipes)
            .findFirst()
            .orElseGet(() -> SlabPipes.one(planned));
    if (bored.count() == 1) {
      SlabPipes one = SlabPipes.one(pipe);
      double top = slabM(up, down);
      if (Math.min(up.depthM(), down.depthM()) - one.pipe().outsideM() >= top - 1e-9) {
        bored = one;
      }
    }
    boolean shrinks = bored.count() == 1 && bored.pipe().nominalIn() < pipe.nominalIn();
    if (shrinks || bored.count() * Manning.fullM3S(bored.pipe(), grade) < flowM3S) {
      needsNext();
    }
    return bored;
  }

  /** Depth in metres under which the pipe's top lies for the slabs over a stretch. */
  private double slabM(Station up, Station down) {
    LineString path =
        FACTORY.createLineString(
            new Coordinate[] {new Coordinate(up.x(), up.y()), new Coordinate(down.x(), down.y())});
    return site.crossings().stream()
        .filter(slab -> slab.outline().intersects(path))
        .mapToDouble(Crossing::pipeTopM)
        .max()
        .orElse(site.drain().minCoverM());
  }

  /** Only one size up is asked for: the route is planned again with it, and looked at again. */
  private void needsNext() {
    needed = PipeTable.next(planned);
  }

  /** The largest pipe of some stretches, as perforated as the planned one. */
  Pipe largest(List<StretchDesign> stretches) {
    Pipe largest = planned;
    for (StretchDesign stretch : stretches) {
      while (stretch.span() != Station.Span.BORED && largest.insideM() < stretch.pipe().insideM()) {
        largest = PipeTable.next(largest).orElseThrow();
      }
    }
    return largest;
  }

  private Pipe grow(Pipe from, double grade, double flowM3S, Station up, Station down) {
    Pipe pipe = from;
    while (Manning.fullM3S(pipe, grade) < flowM3S) {
      Optional<Pipe> next = PipeTable.next(pipe);
      if (next.isEmpty()) {
        return pipe;
      }
      if (!fits(next.get(), up) || !fits(next.get(), down)) {
        needsNext();
        return pipe;
      }
      pipe = next.get();
    }
    return pipe;
  }

  private boolean fits(Pipe pipe, Station station) {
    double room = station.depthM() - pipe.outsideM();
    // Where the route itself has less cover than asked (at an open end), it may not lose more.
    double least = Math.min(site.drain().minCoverM(), station.coverM());
    return room >= least - 1e-9 && pipe.outsideM() < site.drain().trenchWidthM();
  }

  private StretchDesign design(
      Station up, Station down, double grade, SlabPipes laid, Carried carried) {
    Pipe pipe = laid.pipe();
    double run = down.stationM() - up.stationM();
    double x = (up.x() + down.x()) / 2;
    double y = (up.y() + down.y()) / 2;
    double depth = Manning.normalDepthM(pipe, grade, carried.flowM3S() / laid.count());
    boolean full = depth >= pipe.insideM();
    double velocity =
        carried.flowM3S() <= 0
            ? 0
            : Manning.velocityMS(pipe.insideM(), pipe.n(), grade, full ? pipe.insideM() : depth);
    return new StretchDesign(
        up.stationM(),
        down.stationM(),
        up.span(),
        ground.at(x, y),
        ground.inRootZone(x, y),
        grade,
        pipe,
        laid.count(),
        carried.flowM3S(),
        carried.arrivingM3S(),
        laid.count() * Manning.fullM3S(pipe, grade),
        depth,
        velocity,
        Manning.fullVelocityMS(pipe, grade),
        carried.areaM2(),
        carried.timeS(),
        carried.upstreamM(),
        TradeRule.nominalIn(carried.upstreamM()),
        carried.groundwaterM3S(),
        run > 0 ? carried.meetsM3S() / run : 0,
        carried.intake().flowM2S(),
        carried.intake().limit());
  }
}
