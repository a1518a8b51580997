package org.yardfall.drain;

import java.util.ArrayList;
import java.util.List;
import org.yardfall.drain.DrainCatchment.Share;
import org.yardfall.pipe.GroundwaterInflow;
import org.yardfall.pipe.Manning;
import org.yardfall.pipe.Pipe;
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
 * rest runs over the drain and is not in the pipe. Flow never falls downstream. Groundwater is
 * added where the soil is known.
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

  private record Sum(
      double areaM2,
      double effectiveM2,
      double timeS,
      double entersM3S,
      double seepM3S,
      double lengthM) {}

  private final Site site;
  private final Storm storm;
  private final Pipe pipe;
  private final DrainCatchment catchment;
  private final double factor;

  private DrainFlows(Site site, Storm storm, Pipe pipe, DrainCatchment catchment) {
    this.site = site;
    this.storm = storm;
    this.pipe = pipe;
    this.catchment = catchment;
    this.factor = RationalMethod.frequencyFactor(storm.returnPeriodYears());
  }

  /** By line, the main line first, and by stretch, what it carries. */
  static List<List<Carried>> along(
      Route route, Site site, Storm storm, Pipe pipe, DrainCatchment catchment) {
    DrainFlows flows = new DrainFlows(site, storm, pipe, catchment);
    List<List<Carried>> byLine = new ArrayList<>();
    List<Sum> ends = new ArrayList<>();
    for (int i = 0; i < route.branches().size(); i++) {
      byLine.add(flows.line(i + 1, route.branches().get(i).line(), List.of(), List.of(), ends));
    }
    List<Double> junctions = route.branches().stream().map(Route.Branch::junctionM).toList();
    byLine.add(0, flows.line(0, route.main(), junctions, List.copyOf(ends), ends));
    return byLine;
  }

  private List<Carried> line(
      int line, DrainLine drain, List<Double> junctions, List<Sum> joining, List<Sum> ends) {
    List<Station> stations = drain.stations();
    List<Carried> carried = new ArrayList<>();
    boolean[] joined = new boolean[junctions.size()];
    Sum sum = new Sum(0, 0, 0, 0, 0, 0);
    double flow = 0;
    double arriving = 0;
    for (int i = 0; i + 1 < stations.size(); i++) {
      Station up = stations.get(i);
      Station down = stations.get(i + 1);
      for (int j = 0; j < junctions.size(); j++) {
        boolean last = i + 2 == stations.size();
        if (!joined[j] && (junctions.get(j) < down.stationM() - 1e-6 || last)) {
          joined[j] = true;
          sum = plus(sum, joining.get(j));
        }
      }
      Share share = share(line, i);
      double length = down.stationM() - up.stationM();
      StretchIntake intake = StretchIntake.of(site, pipe, up, down);
      double meets = 0;
      if (share != null) {
        meets = peak(share.areaM2(), share.effectiveM2(), share.timeS());
        double enters = Math.min(meets, intake.flowM2S() * length);
        sum = plus(sum, new Sum(share.areaM2(), share.effectiveM2(), share.timeS(), enters, 0, 0));
      }
      double seep =
          up.span() == Station.Span.OPEN
              ? GroundwaterInflow.toDrainM2S(site.soil(), down.groundM(), down.invertM())
                      .orElse(0.0)
                  * length
              : 0;
      sum = plus(sum, new Sum(0, 0, 0, 0, seep, length));
      double all = peak(sum.areaM2(), sum.effectiveM2(), sum.timeS());
      arriving = Math.max(arriving, all + sum.seepM3S());
      flow = Math.max(flow, Math.min(all, sum.entersM3S()) + sum.seepM3S());
      carried.add(
          new Carried(
              flow,
              arriving,
              sum.areaM2(),
              sum.timeS(),
              sum.lengthM(),
              meets,
              sum.seepM3S(),
              intake));
      double velocity = Manning.fullVelocityMS(pipe, Math.max(1e-4, up.grade()));
      double later = sum.areaM2() > 0 ? sum.timeS() + length / velocity : 0;
      sum =
          new Sum(
              sum.areaM2(),
              sum.effectiveM2(),
              later,
              sum.entersM3S(),
              sum.seepM3S(),
              sum.lengthM());
    }
    ends.add(sum);
    return carried;
  }

  private static Sum plus(Sum a, Sum b) {
    return new Sum(
        a.areaM2() + b.areaM2(),
        a.effectiveM2() + b.effectiveM2(),
        Math.max(a.timeS(), b.timeS()),
        a.entersM3S() + b.entersM3S(),
        a.seepM3S() + b.seepM3S(),
        a.lengthM() + b.lengthM());
  }

  private double peak(double areaM2, double effectiveM2, double timeS) {
    if (areaM2 <= 0) {
      return 0;
    }
    return RationalMethod.peakM3S(
        RationalMethod.composite(effectiveM2, areaM2, factor), storm.intensityMS(timeS), areaM2);
  }

  private Share share(int line, int stretch) {
    return catchment.shares().stream()
        .filter(s -> s.line() == line && s.stretch() == stretch)
        .findFirst()
        .orElse(null);
  }
}
