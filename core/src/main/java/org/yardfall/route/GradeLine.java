package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.route.FewestGrades.Knot;
import org.yardfall.site.DrainLimits;

/**
 * Lays a pipe along a line that is fixed in plan.
 *
 * <p>Everywhere along the line, and not only at its stations, the pipe keeps cover and depth, stays
 * under what it must go under, falls by at least the least grade, and lies straight under slabs.
 * Two pipes can be asked for: the one of fewest grades, which is what a crew can lay well, and the
 * one of least digging, which bends with the ground.
 */
public final class GradeLine {

  /** Stations are at most so far apart in metres. */
  private static final double STATION_M = 2;

  private static final double EPSILON_M = 1e-6;

  private GradeLine() {}

  /** The pipe of either kind. */
  static Optional<DrainLine> lay(
      GroundLine line, Bounds b, double endInvertM, DrainLimits.GradeLine kind) {
    return switch (kind) {
      case FEWEST_GRADES -> fewestBreaks(line, b, endInvertM);
      case LEAST_DIGGING -> leastDigging(line, b, endInvertM);
    };
  }

  /**
   * The pipe with the fewest breaks of grade, and of all those the one with the least digging.
   *
   * @param line the ground along the line
   * @param b the limits; the greatest grade is met by drops where it can not be met otherwise
   * @param endInvertM lowest invert at the lower end in metres; NaN where none is asked
   * @return empty where no pipe falls along the line within the limits
   */
  public static Optional<DrainLine> fewestBreaks(GroundLine line, Bounds b, double endInvertM) {
    Corridor corridor = Corridor.of(line, b, endInvertM);
    return FewestGrades.find(corridor)
        .map(knots -> stations(line, b, LeastDigging.of(corridor, knots)));
  }

  /**
   * The pipe with the least digging, however many breaks: it may bend at every stake, that is at
   * the line's own bends, at the ends of bores and every {@value #STATION_M} m; where no such pipe
   * falls, at every place. Where the ground falls faster than the greatest grade it is the pipe of
   * fewest breaks: least digging would be one drop after another there.
   *
   * @param endInvertM lowest invert at the lower end in metres; NaN where none is asked
   * @return empty where no pipe falls along the line within the limits
   */
  public static Optional<DrainLine> leastDigging(GroundLine line, Bounds b, double endInvertM) {
    Corridor corridor = Corridor.of(line, b, endInvertM);
    return LeastDigging.bent(corridor.bending(stakes(line)))
        .or(() -> LeastDigging.bent(corridor))
        .map(knots -> stations(line, b, knots))
        .or(() -> fewestBreaks(line, b, endInvertM));
  }

  private static boolean[] stakes(GroundLine line) {
    boolean[] stakes = new boolean[line.size()];
    double last = 0;
    for (int i = 0; i < stakes.length; i++) {
      boolean fixed = line.vertex[i] || (i > 0 && i < line.span.length && changes(line, i));
      boolean due = i + 1 < stakes.length && line.stationM[i + 1] - last > STATION_M;
      if (fixed || due) {
        stakes[i] = true;
        last = line.stationM[i];
      }
    }
    return stakes;
  }

  private static boolean changes(GroundLine line, int i) {
    return line.span[i - 1] != line.span[i];
  }

  /** Number of changes of grade along a line, drops counted as one. */
  public static int breaks(DrainLine line) {
    List<Station> s = line.stations();
    int breaks = 0;
    double grade = Double.NaN;
    for (int i = 1; i < s.size(); i++) {
      double run = s.get(i).stationM() - s.get(i - 1).stationM();
      if (run > EPSILON_M) {
        double now = (s.get(i - 1).invertM() - s.get(i).invertM()) / run;
        boolean drop = i > 1 && s.get(i - 1).stationM() - s.get(i - 2).stationM() <= EPSILON_M;
        if (i > 1 && (drop || Math.abs(now - grade) > 1e-6)) {
          breaks++;
        }
        grade = now;
      }
    }
    return breaks;
  }

  private static DrainLine stations(GroundLine line, Bounds b, List<Knot> knots) {
    TreeMap<Integer, Knot> knotAt = new TreeMap<>();
    for (Knot knot : knots) {
      knotAt.put(knot.at(), knot);
    }
    List<Station> stations = new ArrayList<>();
    List<Coordinate> vertices = new ArrayList<>();
    int last = -1;
    for (int i = 0; i < line.size(); i++) {
      if (line.vertex[i]) {
        vertices.add(new Coordinate(line.x[i], line.y[i]));
      }
      boolean needed = line.vertex[i] || knotAt.containsKey(i) || marks(line, i);
      boolean far =
          i + 1 < line.size()
              && line.stationM[i + 1] - line.stationM[Math.max(0, last)] > STATION_M;
      if (!needed && !far) {
        continue;
      }
      Knot knot = knotAt.get(i);
      Knot up = knotAt.lowerEntry(i) == null ? null : knotAt.lowerEntry(i).getValue();
      Knot down = knotAt.higherEntry(i) == null ? null : knotAt.higherEntry(i).getValue();
      double gradeUp = up == null ? 0 : grade(line, up, knot == null ? down : knot);
      double gradeDown = down == null ? gradeUp : grade(line, knot == null ? up : knot, down);
      if (knot == null) {
        double invert = up.leaveM() - gradeUp * (line.stationM[i] - line.stationM[up.at()]);
        stations.add(station(line, b, i, invert, gradeDown));
      } else {
        if (knot.arriveM() > knot.leaveM() + EPSILON_M) {
          stations.add(station(line, b, i, knot.arriveM(), gradeDown));
        }
        stations.add(station(line, b, i, knot.leaveM(), gradeDown));
      }
      last = i;
    }
    return new DrainLine(vertices, stations);
  }

  /** A change of build, or the highest or lowest ground within a station's distance. */
  private static boolean marks(GroundLine line, int i) {
    if (i == 0 || i == line.size() - 1) {
      return true;
    }
    if (changes(line, i)) {
      return true;
    }
    boolean highest = true;
    boolean lowest = true;
    for (int k = i - 1; k >= 0 && line.stationM[i] - line.stationM[k] < STATION_M; k--) {
      highest &= line.groundM[k] < line.groundM[i];
      lowest &= line.groundM[k] > line.groundM[i];
    }
    for (int k = i + 1; k < line.size() && line.stationM[k] - line.stationM[i] < STATION_M; k++) {
      highest &= line.groundM[k] < line.groundM[i];
      lowest &= line.groundM[k] > line.groundM[i];
    }
    return highest || lowest;
  }

  private static double grade(GroundLine line, Knot from, Knot to) {
    return (from.leaveM() - to.arriveM()) / (line.stationM[to.at()] - line.stationM[from.at()]);
  }

  private static Station station(GroundLine line, Bounds b, int i, double invertM, double grade) {
    double outside = line.inBore(i) ? b.crossingOutsideM() : b.outsideM();
    return new Station(
        line.stationM[i],
        line.x[i],
        line.y[i],
        line.groundM[i],
        invertM,
        line.groundM[i] - invertM - outside,
        line.groundM[i] - invertM,
        grade,
        line.span[Math.min(i, line.span.length - 1)]);
  }
}
