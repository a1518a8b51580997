package org.yardfall.drain;

import java.util.List;
import java.util.Optional;
import org.yardfall.pipe.EmptyingTime;
import org.yardfall.pipe.Pipe;
import org.yardfall.route.Bore;
import org.yardfall.route.Route;
import org.yardfall.route.SlabPipes;
import org.yardfall.route.Station;
import org.yardfall.site.Assumption;
import org.yardfall.trench.FilterCheck;

/**
 * A route made buildable.
 *
 * @param routeId the route
 * @param outletId the outlet it reaches
 * @param catchment the ground whose water it takes
 * @param lines main line, then the branches in order, with pipes and water
 * @param tooSmall the next pipe to plan the route with, where a stretch needs a larger one than the
 *     route has room for, or would have a narrower one than lies upstream; empty where the design
 *     stands
 * @param relief how far apart parallel drains like it may lie, where relief drains are asked for
 *     and it lies deep enough
 * @param overland where the water goes over the ground while it is blocked; empty where it takes no
 *     surface water on the lot
 * @param emptying how long water takes to leave after the storm
 * @param filters fabric, stone and pipe against the soil and each other
 * @param takeOff quantities and prices
 * @param cautions what its builder must be told
 * @param assumptions what was assumed, with sources
 * @param warnings what was odd, in words
 */
public record DrainDesign(
    String routeId,
    String outletId,
    DrainCatchment catchment,
    List<LineDesign> lines,
    Optional<Pipe> tooSmall,
    Optional<ReliefDrains> relief,
    Optional<OverlandPath> overland,
    EmptyingTime emptying,
    List<FilterCheck> filters,
    TakeOff takeOff,
    List<Caution> cautions,
    List<Assumption> assumptions,
    List<String> warnings) {

  /** Keeps the lists to itself. */
  public DrainDesign {
    lines = List.copyOf(lines);
    filters = List.copyOf(filters);
    cautions = List.copyOf(cautions);
    assumptions = List.copyOf(assumptions);
    warnings = List.copyOf(warnings);
  }

  /** The main line. */
  public LineDesign main() {
    return lines.get(0);
  }

  /** Whether some stretch carries more than it can full. */
  public boolean overloaded() {
    return lines.stream().flatMap(l -> l.stretches().stream()).anyMatch(s -> s.loading() > 1);
  }

  /** Lowest ground along its open stretches in metres; infinite where it has none. */
  public double lowestOpenGroundM() {
    return lines.stream()
        .flatMap(l -> l.line().stations().stream())
        .filter(s -> s.span() == Station.Span.OPEN)
        .mapToDouble(Station::groundM)
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }

  /** The bores of its route with the pipes that they get. */
  public List<Bore> bores(Route route) {
    return route.bores().stream()
        .map(
            bore ->
                lines.get(bore.line()).stretches().stream()
                    .filter(s -> s.span() == Station.Span.BORED)
                    .filter(s -> s.fromM() >= bore.fromM() - 1e-6 && s.toM() <= bore.toM() + 1e-6)
                    .findFirst()
                    .map(
                        s ->
                            new Bore(
                                bore.line(),
                                bore.fromM(),
                                bore.toM(),
                                new SlabPipes(s.count(), s.pipe())))
                    .orElse(bore))
        .toList();
  }

  /** Groundwater that it draws in m³/s, part of its flow. */
  public double groundwaterM3S() {
    List<StretchDesign> stretches = main().stretches();
    return stretches.get(stretches.size() - 1).groundwaterM3S();
  }

  /** Peak flow that leaves the outlet in m³/s. */
  public double outletM3S() {
    List<StretchDesign> stretches = main().stretches();
    return stretches.get(stretches.size() - 1).passesM3S();
  }
}
