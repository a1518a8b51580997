package org.yardfall.route;

import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.trench.GroundCover;
import org.yardfall.trench.Work;

/**
 * The cost of a line as laid: every stretch between stations by its mean depth and the cover at its
 * middle, every bend as a turn. This is how the bill counts, too.
 */
public final class LaidCost {

  private LaidCost() {}

  /** Cost of a line in the measure of the given cost. */
  public static double of(DrainLine line, GroundCover cover, TrenchCost cost) {
    double sum = 0;
    List<Station> s = line.stations();
    for (int i = 1; i < s.size(); i++) {
      Station a = s.get(i - 1);
      Station b = s.get(i);
      double x = (a.x() + b.x()) / 2;
      double y = (a.y() + b.y()) / 2;
      sum +=
          (b.stationM() - a.stationM())
              * cost.metre(
                  work(a.span(), cover, x, y), (a.depthM() + b.depthM()) / 2, cover.at(x, y));
    }
    return sum + turns(line.vertices(), cost);
  }

  /** How a stretch is built. */
  static Work work(Station.Span span, GroundCover cover, double x, double y) {
    return switch (span) {
      case OPEN -> Work.OPEN;
      case BORED -> Work.BORED;
      case SOLID -> cover.inRootZone(x, y) ? Work.ROOT_ZONE : Work.SOLID;
    };
  }

  /** Cost of the bends of a line. */
  static double turns(List<Coordinate> points, TrenchCost cost) {
    double sum = 0;
    for (int i = 1; i + 1 < points.size(); i++) {
      Coordinate a = points.get(i - 1);
      Coordinate b = points.get(i);
      Coordinate c = points.get(i + 1);
      double cross = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
      double dot = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y);
      sum += cost.turn(Math.toDegrees(Math.abs(Math.atan2(cross, dot))));
    }
    return sum;
  }
}
