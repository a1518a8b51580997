package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.DrainLimits;

/**
 * The lines of a drain as laid so far: the main line, and each other line joining one laid before
 * it, never below that line's pipe. Where a line arrives lower than the one it joins, that one is
 * laid lower as far as its limits and its own junction allow, and so on down to the outlet.
 */
final class DrainTree {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /**
   * A line of the tree.
   *
   * @param ground the ground along it, no higher at its junctions than the lines that join it there
   * @param laid its pipe
   * @param joins number of the line that it joins
   * @param junctionM station on that line in metres
   */
  private record Limb(GroundLine ground, DrainLine laid, int joins, double junctionM) {}

  private final Bounds bounds;
  private final DrainLimits.GradeLine kind;
  private final double outletM;
  private List<Limb> limbs = new ArrayList<>();

  private DrainTree(Bounds bounds, DrainLimits.GradeLine kind, double outletM) {
    this.bounds = bounds;
    this.kind = kind;
    this.outletM = outletM;
  }

  /**
   * A tree of a main line only.
   *
   * @param main the ground along it
   * @param outletM lowest invert in metres at its end
   * @return empty where no pipe falls along it
   */
  static Optional<DrainTree> of(
      GroundLine main, double outletM, Bounds bounds, DrainLimits.GradeLine kind) {
    DrainTree tree = new DrainTree(bounds, kind, outletM);
    return GradeLine.lay(main, bounds, outletM, kind)
        .map(
            laid -> {
              tree.limbs.add(new Limb(main, laid, 0, 0));
              return tree;
            });
  }

  /** Number of lines. */
  int size() {
    return limbs.size();
  }

  /** The pipe of a line; 0 is the main line. */
  DrainLine laid(int line) {
    return limbs.get(line).laid();
  }

  /** A line in plan. */
  LineString plan(int line) {
    return FACTORY.createLineString(laid(line).vertices().toArray(Coordinate[]::new));
  }

  /**
   * A place of a line where another may join it: in open trench.
   *
   * @return its station in metres, the nearest to the given one; NaN where there is none
   */
  double place(int line, double stationM) {
    GroundLine ground = limbs.get(line).ground();
    int nearest = -1;
    for (int i = 0; i + 1 < ground.size(); i++) {
      boolean open =
          ground.span[i] == Station.Span.OPEN
              && (i == 0 || ground.span[i - 1] == Station.Span.OPEN);
      if (open
          && (nearest < 0
              || Math.abs(ground.stationM[i] - stationM)
                  < Math.abs(ground.stationM[nearest] - stationM))) {
        nearest = i;
      }
    }
    return nearest < 0 ? Double.NaN : ground.stationM[nearest];
  }

  /** Where in plan a station of a line lies, which is one of its places. */
  Coordinate at(int line, double stationM) {
    GroundLine ground = limbs.get(line).ground();
    int i = ground.nearest(stationM);
    return new Coordinate(ground.x[i], ground.y[i]);
  }

  /**
   * Lowest invert in metres that a line could have, by the station in metres of one of its places;
   * NaN where none.
   */
  DoubleUnaryOperator lowestM(int line) {
    Limb limb = limbs.get(line);
    double endM = line == 0 ? outletM : lowestM(limb.joins()).applyAsDouble(limb.junctionM());
    if (Double.isNaN(endM)) {
      return stationM -> Double.NaN;
    }
    double[] lowest = limb.ground().lowestUp(endM, bounds);
    return stationM -> lowest[limb.ground().nearest(stationM)];
  }

  /**
   * Adds a line; whether that could be done. Where it could not the tree is as before.
   *
   * @param ground the ground along it, its last place that of the junction
   * @param joins number of the line that it joins
   * @param junctionM station of the junction on that line in metres
   */
  boolean add(GroundLine ground, int joins, double junctionM) {
    List<Limb> before = List.copyOf(limbs);
    Optional<DrainLine> laid = lay(ground, joins, junctionM);
    if (laid.isEmpty()) {
      limbs = new ArrayList<>(before);
      return false;
    }
    Limb limb = new Limb(ground, laid.get(), joins, junctionM);
    holdDown(limb);
    limbs.add(limb);
    return true;
  }

  /** A pipe that ends no lower than the line it joins, which is laid lower where it must be. */
  private Optional<DrainLine> lay(GroundLine ground, int joins, double junctionM) {
    Optional<DrainLine> laid =
        GradeLine.lay(ground, bounds, DrainRouter.invertAt(laid(joins), junctionM), kind);
    if (laid.isPresent()) {
      return laid;
    }
    double[] highest = ground.highestDown(Double.POSITIVE_INFINITY, bounds);
    double endM = highest == null ? Double.NaN : highest[highest.length - 1];
    if (highest == null || !lower(joins, junctionM, endM)) {
      return Optional.empty();
    }
    // the line joined lies just so low, but for rounding
    double joinedM = Math.min(endM, DrainRouter.invertAt(laid(joins), junctionM));
    return GradeLine.lay(ground, bounds, joinedM, kind);
  }

  private boolean lower(int line, double stationM, double invertM) {
    Limb limb = limbs.get(line);
    GroundLine ground = limb.ground().noHigherAt(stationM, invertM, bounds.outsideM());
    Optional<DrainLine> laid =
        line == 0
            ? GradeLine.lay(ground, bounds, outletM, kind)
            : lay(ground, limb.joins(), limb.junctionM());
    laid.ifPresent(
        pipe -> {
          Limb lowered = new Limb(ground, pipe, limb.joins(), limb.junctionM());
          if (line > 0) {
            holdDown(lowered);
          }
          limbs.set(line, lowered);
        });
    return laid.isPresent();
  }

  /** Keeps the line that one joins, however it is laid from now on, no higher than that arrives. */
  private void holdDown(Limb limb) {
    Limb onto = limbs.get(limb.joins());
    List<Station> stations = limb.laid().stations();
    double endM = stations.get(stations.size() - 1).invertM();
    limbs.set(
        limb.joins(),
        new Limb(
            onto.ground().noHigherAt(limb.junctionM(), endM, bounds.outsideM()),
            onto.laid(),
            onto.joins(),
            onto.junctionM()));
  }

  /** The branches, each after the line that it joins, and by their junctions' stations. */
  List<Route.Branch> branches() {
    return BranchOrder.downTheLines(
        limbs.subList(1, limbs.size()).stream()
            .map(limb -> new Route.Branch(limb.laid(), limb.joins(), limb.junctionM()))
            .toList());
  }
}
