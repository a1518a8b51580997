package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.algorithm.Angle;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;

/**
 * Pieces that a crew would not dig: an end round a corner, a branch, or what a slab leaves of a
 * line, shorter than {@value #LEAST_M} m ({@code common practice, no source}). A fitting and a
 * change of trench cost more than so short a piece collects.
 */
final class Stubs {

  /** Shorter pieces in metres are not dug. */
  static final double LEAST_M = 2;

  /** A turn sharper than this is a corner, in degrees. */
  private static final double CORNER_DEG = 30;

  /** What is left out is said from this length on, in metres. */
  private static final double SAID_M = 0.1;

  private Stubs() {}

  /** The line ended at its last corner where no more than a stub lies beyond it, at both ends. */
  static LineString trimmed(LineString line) {
    List<Coordinate> points = new ArrayList<>(List.of(line.getCoordinates()));
    while (points.size() > 2 && stub(points.get(0), points.get(1), points.get(2))) {
      points.remove(0);
    }
    while (points.size() > 2) {
      int n = points.size();
      if (!stub(points.get(n - 1), points.get(n - 2), points.get(n - 3))) {
        break;
      }
      points.remove(n - 1);
    }
    return line.getFactory().createLineString(points.toArray(Coordinate[]::new));
  }

  private static boolean stub(Coordinate end, Coordinate corner, Coordinate next) {
    double turn = Math.PI - Angle.angleBetween(end, corner, next);
    return end.distance(corner) < LEAST_M && Math.toDegrees(turn) > CORNER_DEG;
  }

  /** What was left out, in words that follow others; empty where nothing was. */
  static String words(double leftOutM) {
    return leftOutM < SAID_M
        ? ""
        : String.format(
            Locale.ROOT,
            "; %.1f m in pieces shorter than %.1f m are left out: nobody digs so short a piece",
            leftOutM,
            LEAST_M);
  }
}
