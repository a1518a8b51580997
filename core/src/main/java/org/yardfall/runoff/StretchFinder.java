package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateList;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.linearref.LengthIndexedLine;

/**
 * Joins the cells at which water crosses a property line into stretches of that line: those with
 * the same neighbour and the same way of flow that follow one another with no more than a gap
 * between. Water that comes at a slant crosses the line at cells the farther apart the smaller its
 * angle to it, and is one sheet all the same: what counts there is how far apart across the flow.
 */
final class StretchFinder {

  /**
   * A cell at which water crosses.
   *
   * @param cell the cell on the upstream side
   * @param at where the line is crossed
   * @param neighbour id of the parcel beyond
   * @param concentrated whether it runs in a thread
   * @param weight how much passes, for finding where half of it has
   * @param bearingDeg bearing of the flow in degrees from grid north, NaN where it has none
   */
  record Crossing(
      int cell,
      Coordinate at,
      String neighbour,
      boolean concentrated,
      double weight,
      double bearingDeg) {}

  /**
   * A stretch of the line.
   *
   * @param line the stretch
   * @param widthM its length in metres
   * @param crossings what crosses it, in the line's order
   */
  record Stretch(LineString line, double widthM, List<Crossing> crossings) {

    /**
     * The crossing up to which half of what passes has: in the middle of an even sheet, and where a
     * thread is.
     */
    Crossing middle() {
      double half = crossings.stream().mapToDouble(Crossing::weight).sum() / 2;
      double sum = 0;
      for (Crossing c : crossings) {
        sum += c.weight();
        if (sum >= half) {
          return c;
        }
      }
      return crossings.get(crossings.size() - 1);
    }
  }

  /**
   * Crossings of a sheet are not farther apart along the line than so many gaps, however it lies.
   */
  private static final double FARTHEST = 5;

  /**
   * Nor across the flow than so many cells: paths side by side do not all cross one after another.
   */
  private static final double SIDE_BY_SIDE_CELLS = 2.5;

  private record Placed(Crossing crossing, int ring, double position) {}

  private final List<LengthIndexedLine> lines = new ArrayList<>();
  private final List<LinearRing> rings = new ArrayList<>();
  private final double cellM;
  private final double gapM;

  /**
   * A finder for a lot.
   *
   * @param cellM width of one crossing in metres
   * @param gapM distance along the line in metres up to which crossings are of one stretch anyway
   */
  StretchFinder(Polygon lot, double cellM, double gapM) {
    rings.add(lot.getExteriorRing());
    for (int i = 0; i < lot.getNumInteriorRing(); i++) {
      rings.add(lot.getInteriorRingN(i));
    }
    rings.forEach(r -> lines.add(new LengthIndexedLine(r)));
    this.cellM = cellM;
    this.gapM = gapM;
  }

  /** The stretches, ordered by neighbour, way of flow and place along the line. */
  List<Stretch> stretches(List<Crossing> crossings) {
    List<Placed> placed = new ArrayList<>();
    for (Crossing c : crossings) {
      placed.add(place(c));
    }
    placed.sort(
        Comparator.comparing((Placed p) -> p.crossing().neighbour())
            .thenComparing(p -> p.crossing().concentrated())
            .thenComparing(Placed::ring)
            .thenComparing(Placed::position)
            .thenComparing(p -> p.crossing().cell()));
    List<Stretch> stretches = new ArrayList<>();
    int from = 0;
    for (int i = 1; i <= placed.size(); i++) {
      if (i == placed.size() || !alike(placed.get(from), placed.get(i))) {
        cluster(placed.subList(from, i), stretches);
        from = i;
      }
    }
    return stretches;
  }

  private static boolean alike(Placed a, Placed b) {
    return a.crossing().neighbour().equals(b.crossing().neighbour())
        && a.crossing().concentrated() == b.crossing().concentrated()
        && a.ring() == b.ring();
  }

  private Placed place(Crossing crossing) {
    int best = 0;
    double least = Double.POSITIVE_INFINITY;
    Geometry point = rings.get(0).getFactory().createPoint(crossing.at());
    for (int i = 0; i < rings.size() && rings.size() > 1; i++) {
      double d = rings.get(i).distance(point);
      if (d < least) {
        least = d;
        best = i;
      }
    }
    return new Placed(crossing, best, lines.get(best).project(crossing.at()));
  }

  private void cluster(List<Placed> run, List<Stretch> out) {
    int n = run.size();
    double ring = rings.get(run.get(0).ring()).getLength();
    int start = 0; // begin after a gap, so that no stretch is cut where the ring closes
    for (int i = 0; i < n; i++) {
      if (apart(run.get((i + n - 1) % n), run.get(i), ring)) {
        start = i;
        break;
      }
    }
    List<Placed> group = new ArrayList<>();
    for (int k = 0; k < n; k++) {
      Placed next = run.get((start + k) % n);
      if (!group.isEmpty() && apart(group.get(group.size() - 1), next, ring)) {
        out.add(stretch(group, ring));
        group = new ArrayList<>();
      }
      group.add(next);
    }
    out.add(stretch(group, ring));
  }

  /** Whether there is a gap between a crossing and the next in the line's order. */
  private boolean apart(Placed a, Placed b, double ring) {
    double d = b.position() - a.position();
    double alongM = d < 0 || a.equals(b) ? d + ring : d;
    double acrossM =
        Math.max(
            acrossM(a.crossing().bearingDeg(), a, b), acrossM(b.crossing().bearingDeg(), a, b));
    return alongM > gapM && !(alongM <= FARTHEST * gapM && acrossM <= SIDE_BY_SIDE_CELLS * cellM);
  }

  /** How far apart two crossings are across a flow, NaN where that has no bearing. */
  private static double acrossM(double bearingDeg, Placed a, Placed b) {
    double bearing = Math.toRadians(bearingDeg);
    return Math.abs(
        (b.crossing().at().x - a.crossing().at().x) * Math.cos(bearing)
            - (b.crossing().at().y - a.crossing().at().y) * Math.sin(bearing));
  }

  private Stretch stretch(List<Placed> group, double ring) {
    double from = group.get(0).position() - cellM / 2;
    double span = group.get(group.size() - 1).position() - group.get(0).position();
    double width = Math.min(ring, (span < 0 ? span + ring : span) + cellM);
    LengthIndexedLine line = lines.get(group.get(0).ring());
    double begin = ((from % ring) + ring) % ring;
    double end = begin + width;
    CoordinateList points = new CoordinateList();
    points.add(line.extractLine(begin, Math.min(end, ring)).getCoordinates(), false);
    if (end > ring) {
      points.add(line.extractLine(0, end - ring).getCoordinates(), false);
    }
    if (points.size() < 2) {
      points.add(points.get(0), true);
    }
    return new Stretch(
        rings.get(0).getFactory().createLineString(points.toCoordinateArray()),
        width,
        group.stream().map(Placed::crossing).toList());
  }
}
