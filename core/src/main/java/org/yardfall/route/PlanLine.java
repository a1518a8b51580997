package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;

/** Small things about lines in plan. */
final class PlanLine {

  private static final double SAME_M = 1e-6;

  private PlanLine() {}

  /** The line without repeated points and without points in the middle of a straight stretch. */
  static List<Coordinate> tidy(List<Coordinate> line) {
    List<Coordinate> kept = new ArrayList<>();
    for (Coordinate point : line) {
      if (!kept.isEmpty() && kept.get(kept.size() - 1).distance(point) < SAME_M) {
        continue;
      }
      int n = kept.size();
      if (n > 1 && straight(kept.get(n - 2), kept.get(n - 1), point)) {
        kept.remove(n - 1);
      }
      kept.add(new Coordinate(point.x, point.y));
    }
    return kept;
  }

  /** The line without repeated points. */
  static List<Coordinate> withoutRepeats(List<Coordinate> line) {
    List<Coordinate> kept = new ArrayList<>();
    for (Coordinate point : line) {
      if (kept.isEmpty() || kept.get(kept.size() - 1).distance(point) >= SAME_M) {
        kept.add(new Coordinate(point.x, point.y));
      }
    }
    return kept;
  }

  /** The part of the line between two stations; one point where they are the same. */
  static List<Coordinate> part(List<Coordinate> line, double fromM, double toM) {
    List<Coordinate> part = new ArrayList<>();
    double station = 0;
    for (int i = 1; i < line.size(); i++) {
      Coordinate a = line.get(i - 1);
      Coordinate b = line.get(i);
      double length = a.distance(b);
      if (station + length >= fromM - SAME_M && station <= toM + SAME_M) {
        part.add(at(a, b, Math.max(0, (fromM - station) / length)));
        part.add(at(a, b, Math.min(1, (toM - station) / length)));
      }
      station += length;
    }
    return withoutRepeats(part);
  }

  private static Coordinate at(Coordinate a, Coordinate b, double share) {
    if (share <= 0) {
      return new Coordinate(a.x, a.y);
    }
    return share >= 1
        ? new Coordinate(b.x, b.y)
        : new Coordinate(a.x + share * (b.x - a.x), a.y + share * (b.y - a.y));
  }

  /** A distance rounded up to whole centimetres, but for what rounding made of it. */
  static double centimetresUp(double m) {
    return Math.ceil(100 * m - 1e-6) / 100;
  }

  /** Length in metres. */
  static double length(List<Coordinate> line) {
    double length = 0;
    for (int i = 1; i < line.size(); i++) {
      length += line.get(i - 1).distance(line.get(i));
    }
    return length;
  }

  private static boolean straight(Coordinate a, Coordinate b, Coordinate c) {
    double cross = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    double dot = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y);
    return dot > 0 && Math.abs(cross) < SAME_M * a.distance(c);
  }
}
