package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateArrays;
import org.locationtech.jts.geom.LineSegment;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.index.strtree.STRtree;
import org.locationtech.jts.noding.NodedSegmentString;
import org.locationtech.jts.noding.SegmentString;
import org.locationtech.jts.noding.snap.SnappingNoder;

/**
 * Breaklines made fit to constrain a triangulation: where they cross, both get a vertex, halfway
 * between their elevations there; ends that all but touch are joined.
 */
final class Breaklines {

  /** Crossing lines that differ by more than this are a mistake or a bridge, and are said. */
  private static final double TOLERABLE_GAP_M = 0.05;

  private final List<Coordinate[]> lines;
  private final List<String> warnings = new ArrayList<>();
  private final List<Coordinate[]> segments = new ArrayList<>();

  private Breaklines(List<Coordinate[]> lines) {
    this.lines = lines;
  }

  /**
   * Nodes breaklines.
   *
   * @param lines vertices with elevations, in metres
   * @param toleranceM vertices nearer than this are one
   */
  static Breaklines node(List<LineString> lines, double toleranceM) {
    List<Coordinate[]> clean = new ArrayList<>();
    for (LineString line : lines) {
      Coordinate[] vertices = CoordinateArrays.removeRepeatedPoints(line.getCoordinates());
      if (vertices.length > 1) {
        clean.add(vertices);
      }
    }
    Breaklines noded = new Breaklines(clean);
    noded.sayCrossings();
    noded.node(toleranceM);
    return noded;
  }

  private void node(double toleranceM) {
    List<SegmentString> strings = new ArrayList<>();
    for (Coordinate[] line : lines) {
      strings.add(new NodedSegmentString(line, null));
    }
    SnappingNoder noder = new SnappingNoder(toleranceM);
    noder.computeNodes(strings);
    Set<LineSegment> unique = new LinkedHashSet<>();
    for (Object substring : noder.getNodedSubstrings()) {
      Coordinate[] part = ((SegmentString) substring).getCoordinates();
      for (int i = 1; i < part.length; i++) {
        LineSegment segment = new LineSegment(part[i - 1], part[i]);
        segment.normalize();
        if (segment.getLength() > 0 && unique.add(segment)) {
          segments.add(new Coordinate[] {part[i - 1], part[i]});
        }
      }
    }
  }

  private void sayCrossings() {
    STRtree tree = new STRtree();
    List<LineSegment> all = new ArrayList<>();
    for (Coordinate[] line : lines) {
      for (int i = 1; i < line.length; i++) {
        LineSegment segment = new LineSegment(line[i - 1], line[i]);
        tree.insert(new org.locationtech.jts.geom.Envelope(segment.p0, segment.p1), all.size());
        all.add(segment);
      }
    }
    int crossings = 0;
    double widest = 0;
    Coordinate where = null;
    for (int i = 0; i < all.size(); i++) {
      LineSegment one = all.get(i);
      for (Object found : tree.query(new org.locationtech.jts.geom.Envelope(one.p0, one.p1))) {
        int j = (Integer) found;
        Coordinate at = j > i ? crossing(one, all.get(j)) : null;
        if (at != null) {
          crossings++;
          double gap = Math.abs(height(one, at) - height(all.get(j), at));
          if (where == null || gap > widest) {
            widest = gap;
            where = at;
          }
        }
      }
    }
    if (crossings > 0) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "breaklines cross at %d places; both lines get a vertex there%s",
              crossings,
              widest > TOLERABLE_GAP_M
                  ? String.format(
                      Locale.ROOT,
                      ", halfway between them; they differ by up to %.2f m, at %.2f, %.2f on the"
                          + " working plane",
                      widest,
                      where.x,
                      where.y)
                  : ""));
    }
  }

  /** Where two segments cross, null where they do not or only touch at an end of either. */
  private static Coordinate crossing(LineSegment one, LineSegment other) {
    Coordinate at = one.intersection(other);
    boolean atEnd =
        at == null
            || at.distance(one.p0) < 1e-6
            || at.distance(one.p1) < 1e-6
            || at.distance(other.p0) < 1e-6
            || at.distance(other.p1) < 1e-6;
    return atEnd ? null : at;
  }

  private static double height(LineSegment segment, Coordinate at) {
    double share = segment.segmentFraction(at);
    return segment.p0.getZ() + share * (segment.p1.getZ() - segment.p0.getZ());
  }

  /** Segments that meet only at their ends, each two vertices with elevations. */
  List<Coordinate[]> segments() {
    return segments;
  }

  /** What was odd, in words. */
  List<String> warnings() {
    return warnings;
  }
}
