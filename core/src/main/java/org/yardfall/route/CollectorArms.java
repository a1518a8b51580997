package org.yardfall.route;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;

/**
 * Where a collecting line can let its water go: at places along it, to which both arms of the line
 * fall. A ring is broken where that leaves the exit highest.
 */
final class CollectorArms {

  /** Exits are tried at bends and at most so far apart in metres. */
  private static final double EXIT_M = 2;

  /**
   * A place where the line's water may leave it.
   *
   * @param longer the longer arm, ending here; only this point where the line has just one arm
   * @param shorter the other arm, ending here; empty where there is none
   * @param invertM highest invert that both arms can have here
   * @param shorterM highest invert that the shorter arm can have here
   * @param cost cost of both arms at their highest
   */
  record Exit(
      List<Coordinate> longer,
      List<Coordinate> shorter,
      double invertM,
      double shorterM,
      double cost) {

    /** Whether its shorter arm is no more than a stub. */
    boolean leavesStub() {
      return !shorter.isEmpty() && PlanLine.length(shorter) < Stubs.LEAST_M;
    }

    /** The same with the shorter arm not dug. */
    Exit withoutShorter() {
      return new Exit(longer, List.of(), invertM, invertM, cost);
    }

    Coordinate at() {
      return longer.get(longer.size() - 1);
    }

    /** Where a trunk from here starts. */
    TrunkFinder.Start start() {
      return new TrunkFinder.Start(at(), invertM, cost);
    }
  }

  private final RouteGround ground;
  private final List<Coordinate> points;
  private final boolean ring;

  /** The ground along arms met before, which does not depend on the bounds. */
  private final Map<List<Coordinate>, Optional<GroundLine>> known = new ConcurrentHashMap<>();

  CollectorArms(RouteGround ground, LineString line) {
    this.ground = ground;
    this.points = PlanLine.tidy(List.of(line.getCoordinates()));
    this.ring = line.isClosed();
  }

  /** The exits within the bounds; none where no arm falls. */
  List<Exit> exits(Bounds b, StepCost cost) {
    GroundLine along = line(points);
    if (along == null) {
      return List.of();
    }
    List<Exit> exits = new ArrayList<>();
    double last = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < along.size(); i++) {
      boolean due = along.vertex[i] || along.stationM[i] - last > EXIT_M;
      if (due && !under(along, i) && !(ring && i == along.size() - 1)) {
        last = along.stationM[i];
        Exit exit = ring ? ofRing(along, i, b, cost) : ofLine(along, i, b, cost);
        if (exit != null) {
          exits.add(exit);
        }
      }
    }
    return exits;
  }

  /** Exits at the line's two ends only, so that the line stays unbranched. */
  List<Exit> ends(Bounds b, StepCost cost) {
    GroundLine along = line(points);
    if (along == null) {
      return List.of();
    }
    List<Exit> exits = new ArrayList<>();
    for (int i : new int[] {0, along.size() - 1}) {
      Exit exit = ring ? null : ofLine(along, i, b, cost);
      if (exit != null) {
        exits.add(exit);
      }
    }
    return exits;
  }

  private static boolean under(GroundLine line, int i) {
    return (i > 0 && line.bored(i - 1)) || (i < line.span.length && line.bored(i));
  }

  private Exit ofLine(GroundLine along, int i, Bounds b, StepCost cost) {
    List<Coordinate> head = PlanLine.part(points, 0, along.stationM[i]);
    List<Coordinate> tail = PlanLine.part(points, along.stationM[i], along.lengthM());
    Collections.reverse(tail);
    return exit(head, tail, b, cost);
  }

  private Exit ofRing(GroundLine along, int i, Bounds b, StepCost cost) {
    List<Coordinate> turned = PlanLine.part(points, along.stationM[i], along.lengthM());
    List<Coordinate> rest = PlanLine.part(points, 0, along.stationM[i]);
    turned.addAll(rest.subList(Math.min(1, rest.size()), rest.size()));
    turned = PlanLine.withoutRepeats(turned);
    GroundLine round = line(turned);
    if (round == null) {
      return null;
    }
    int n = round.size();
    double[] there = new double[n];
    double lowest = Double.POSITIVE_INFINITY;
    for (int k = 0; k < n; k++) {
      lowest = Math.min(lowest, round.highestM(k, b) - b.minGrade() * round.stationM[k]);
      there[k] = lowest;
    }
    lowest = Double.POSITIVE_INFINITY;
    int breakAt = -1;
    double best = Double.NEGATIVE_INFINITY;
    for (int k = n - 1; k >= 0; k--) {
      double left = round.lengthM() - round.stationM[k];
      lowest = Math.min(lowest, round.highestM(k, b) - b.minGrade() * left);
      double both = Math.min(there[k], lowest);
      if (both > best && !under(round, k)) {
        best = both;
        breakAt = k;
      }
    }
    if (breakAt < 0) {
      return null;
    }
    List<Coordinate> back = PlanLine.part(turned, 0, round.stationM[breakAt]);
    Collections.reverse(back);
    return exit(back, PlanLine.part(turned, round.stationM[breakAt], round.lengthM()), b, cost);
  }

  private Exit exit(List<Coordinate> one, List<Coordinate> other, Bounds b, StepCost cost) {
    boolean firstLonger = PlanLine.length(one) >= PlanLine.length(other);
    List<Coordinate> longer = firstLonger ? one : other;
    List<Coordinate> shorter = firstLonger ? other : one;
    double[] fall = fall(longer, b);
    if (fall == null) {
      return null;
    }
    double invert = fall[fall.length - 1];
    double sum = cost(longer, fall, cost);
    if (shorter.size() < 2) {
      return new Exit(longer, List.of(), invert, invert, sum);
    }
    double[] joins = fall(shorter, b);
    if (joins == null) {
      return null;
    }
    double shorterInvert = joins[joins.length - 1];
    return new Exit(
        longer,
        shorter,
        Math.min(invert, shorterInvert),
        shorterInvert,
        sum + cost(shorter, joins, cost));
  }

  private GroundLine line(List<Coordinate> arm) {
    return known.computeIfAbsent(arm, ground::line).orElse(null);
  }

  private double[] fall(List<Coordinate> arm, Bounds b) {
    GroundLine line = line(arm);
    return line == null ? null : line.highestDown(Double.POSITIVE_INFINITY, b);
  }

  private double cost(List<Coordinate> arm, double[] inverts, StepCost cost) {
    return cost == null ? 0 : cost.line(line(arm), inverts) + cost.turns(arm);
  }
}
