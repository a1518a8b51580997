package org.yardfall.drain;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.yardfall.drain.DrainCatchment.Place;
import org.yardfall.drain.DrainCatchment.Share;
import org.yardfall.pipe.GroundwaterInflow;
import org.yardfall.pipe.Manning;
import org.yardfall.pipe.Pipe;
import org.yardfall.route.DrainKind;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.RationalMethod;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Site;

/**
 * The flow along a drain, accumulated stretch by stretch: at each the rational method over all
 * ground upstream, with the time of concentration of the longest way there, over the ground and in
 * the pipe. Of what arrives, each stretch takes in what fabric, stone and openings let through; the
 * rest runs over the drain, gets in where it comes to another stretch that has room, and else is
 * not in the pipe. In place of a swale all that arrives gets in, through inlets with grates. Flow
 * never falls downstream. Groundwater is added where the soil is known.
 */
final class DrainFlows {

  /**
   * What a stretch carries.
   *
   * @param flowM3S peak flow in the pipe in m³/s
   * @param arrivingM3S the same if all that arrives got in
   * @param areaM2 ground upstream in m²
   * @param timeS time of concentration in seconds
   * @param upstreamM drain upstream of its lower end in metres, branches included
   * @param meetsM3S peak that meets the stretch itself, in m³/s
   * @param groundwaterM3S groundwater drawn upstream of its lower end, in the flow, in m³/s
   * @param intake what a metre of it can take in
   */
  record Carried(
      double flowM3S,
      double arrivingM3S,
      double areaM2,
      double timeS,
      double upstreamM,
      double meetsM3S,
      double groundwaterM3S,
      StretchIntake intake) {}

  /** What has come together, with how much of each share's water is in it, 0 to 1. */
  @SuppressWarnings("ArrayRecordComponent") // never handed out
  private record Sum(
      double[] present, double timeS, double entersM3S, double seepM3S, double lengthM) {}

  /** What a branch brings, and where. */
  private record Joining(double stationM, Sum sum) {}

  private final Site site;
  private final Storm storm;
  private final Pipe pipe;
  private final List<Share> shares;
  private final double factor;
  private final StretchInflows inflows;

  private DrainFlows(Route route, Site site, Storm storm, Pipe pipe, DrainCatchment catchment) {
    this.site = site;
    this.storm = storm;
    this.pipe = pipe;
    this.shares = catchment.shares();
    this.factor = RationalMethod.frequencyFactor(storm.returnPeriodYears());
    List<DrainLine> lines = DrainCatchmentFinder.lines(route);
    this.inflows =
        StretchInflows.of(
            shares,
            share -> peak(share.areaM2(), share.effectiveM2(), share.timeS()),
            share -> {
              Station up = lines.get(share.line()).stations().get(share.stretch());
              Station down = lines.get(share.line()).stations().get(share.stretch() + 1);
              return route.kind() == DrainKind.SWALE
                  ? Double.POSITIVE_INFINITY
                  : StretchIntake.of(site, pipe, up, down).flowM2S()
                      * (down.stationM() - up.stationM());
            });
  }

  /** By line, the main line first, and by stretch, what it carries. */
  static List<List<Carried>> along(
      Route route, Site site, Storm storm, Pipe pipe, DrainCatchment catchment) {
    DrainFlows flows = new DrainFlows(route, site, storm, pipe, catchment);
    List<DrainLine> lines = DrainCatchmentFinder.lines(route);
    List<List<Carried>> byLine = new ArrayList<>();
    List<List<Joining>> joining = new ArrayList<>();
    lines.forEach(each -> joining.add(new ArrayList<>()));
    for (int i = lines.size() - 1; i >= 0; i--) { // a branch comes after the line that it joins
      List<Carried> carried = new ArrayList<>();
      Sum end = flows.line(i, lines.get(i), joining.get(i), carried);
      byLine.add(0, carried);
      if (i > 0) {
        Route.Branch branch = route.branches().get(i - 1);
        joining.get(branch.joins()).add(0, new Joining(branch.junctionM(), end));
      }
    }
    return byLine;
  }

  /** Flows along a line; returns what leaves its lower end. */
  private Sum line(int line, DrainLine drain, List<Joining> joining, List<Carried> carried) {
    List<Station> stations = drain.stations();
    boolean[] joined = new boolean[joining.size()];
    Sum sum = new Sum(new double[shares.size()], 0, 0, 0, 0);
    double flow = 0;
    double arriving = 0;
    for (int i = 0; i + 1 < stations.size(); i++) {
      Station up = stations.get(i);
      Station down = stations.get(i + 1);
      for (int j = 0; j < joined.length; j++) {
        boolean last = i + 2 == stations.size();
        if (!joined[j] && (joining.get(j).stationM() < down.stationM() - 1e-6 || last)) {
          joined[j] = true;
          sum = plus(sum, joining.get(j).sum());
        }
      }
      double length = down.stationM() - up.stationM();
      StretchIntake intake = StretchIntake.of(site, pipe, up, down);
      double meets = 0;
      int share = inflows.index(new Place(line, i));
      if (share >= 0) {
        meets = inflows.meetsM3S(share);
        sum = plus(sum, met(share));
      }
      double seep =
          up.span() == Station.Span.OPEN
              ? GroundwaterInflow.toDrainM2S(site.soil(), down.groundM(), down.invertM())
                      .orElse(0.0)
                  * length
              : 0;
      sum = plus(sum, new Sum(new double[shares.size()], 0, 0, seep, length));
      double area = total(sum, Share::areaM2);
      double all = peak(area, total(sum, Share::effectiveM2), sum.timeS());
      arriving = Math.max(arriving, all + sum.seepM3S());
      flow = Math.max(flow, Math.min(all, sum.entersM3S()) + sum.seepM3S());
      carried.add(
          new Carried(
              flow, arriving, area, sum.timeS(), sum.lengthM(), meets, sum.seepM3S(), intake));
      double velocity = Manning.fullVelocityMS(pipe, Math.max(1e-4, up.grade()));
      double later = area > 0 ? sum.timeS() + length / velocity : 0;
      sum = new Sum(sum.present(), later, sum.entersM3S(), sum.seepM3S(), sum.lengthM());
    }
    return sum;
  }

  /** What meets a stretch, its own water and what runs on to it. */
  private Sum met(int share) {
    double[] present = new double[shares.size()];
    double time = 0;
    for (int i = 0; i < present.length; i++) {
      present[i] = inflows.arrives(share, i);
      time = present[i] > 0 ? Math.max(time, shares.get(i).timeS()) : time;
    }
    return new Sum(present, time, inflows.entersM3S(share), 0, 0);
  }

  private static Sum plus(Sum a, Sum b) {
    double[] present = new double[a.present().length];
    Arrays.setAll(present, i -> Math.max(a.present()[i], b.present()[i]));
    return new Sum(
        present,
        Math.max(a.timeS(), b.timeS()),
        a.entersM3S() + b.entersM3S(),
        a.seepM3S() + b.seepM3S(),
        a.lengthM() + b.lengthM());
  }

  private double total(Sum sum, ToDoubleFunction<Share> of) {
    double total = 0;
    for (int i = 0; i < shares.size(); i++) {
      total += sum.present()[i] * of.applyAsDouble(shares.get(i));
    }
    return total;
  }

  private double peak(double areaM2, double effectiveM2, double timeS) {
    if (areaM2 <= 0) {
      return 0;
    }
    return RationalMethod.peakM3S(
        RationalMethod.composite(effectiveM2, areaM2, factor), storm.intensityMS(timeS), areaM2);
  }
}
