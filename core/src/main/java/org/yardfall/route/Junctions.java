package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.locationtech.jts.geom.Coordinate;

/**
 * The places along a line where other lines can join it, no lower than it lies or could be laid. A
 * place that lies too high for a line is told without a search.
 */
final class Junctions {

  private static final double EPSILON_M = 1e-9;

  /** Room for rounding, so that no line that can join is ever turned away unseen. */
  private static final double ROUNDING_M = 1e-6;

  /** Least distance between two places in metres. */
  private static final double APART_M = 1;

  private final Bounds bounds;
  private final List<OutletTarget> targets = new ArrayList<>();
  private final List<Double> stations = new ArrayList<>();

  /** The junctions of a line as laid. */
  Junctions(RouteGround ground, DrainLine line, Bounds bounds) {
    this(ground, line, bounds, Station::invertM);
  }

  /**
   * The junctions of a line that may be laid otherwise.
   *
   * @param invertM lowest invert in metres at which another line may join it at one of its
   *     stations; NaN where none may
   */
  Junctions(RouteGround ground, DrainLine line, Bounds bounds, ToDoubleFunction<Station> invertM) {
    this.bounds = bounds;
    double last = Double.NEGATIVE_INFINITY;
    for (Station s : line.stations()) {
      boolean near = line.lengthM() - s.stationM() < ground.settings().daylightM();
      double lowest = invertM.applyAsDouble(s);
      if (s.span() == Station.Span.OPEN
          && s.stationM() - last > APART_M
          && !near
          && !Double.isNaN(lowest)) {
        targets.add(
            new OutletTarget(
                "junction", new Coordinate(s.x(), s.y()), lowest, OutletTarget.End.PIPE));
        stations.add(s.stationM());
        last = s.stationM();
      }
    }
  }

  /** The places, as outlets of the lines that join there. */
  List<OutletTarget> targets() {
    return targets;
  }

  /** Station in metres on the line of the place with the given index. */
  double stationM(int target) {
    return stations.get(target);
  }

  /**
   * Whether a pipe from the exit would arrive high enough at a place if it fell at the least grade
   * on the straight line there; where not, no way round does either.
   */
  boolean mayTake(CollectorArms.Exit exit, int target) {
    OutletTarget place = targets.get(target);
    double fallM = bounds.minGrade() * exit.at().distance(place.at());
    double least = place.invertM() - bounds.outletLoweredM() - EPSILON_M - ROUNDING_M;
    return exit.invertM() - fallM >= least;
  }
}
