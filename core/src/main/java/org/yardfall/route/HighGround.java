package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Crossing;

/**
 * Breaks collecting lines at the high ground between their ends, so that each part can fall away
 * from it. Water does not run over a rise in a pipe: a line across one either is dug through it, or
 * is two lines. No part ends under a slab: the break there is as wide as that.
 */
final class HighGround {

  /** A rise of less than this in metres is dug through. */
  private static final double LEAST_RISE_M = 0.10;

  /** Shorter parts in metres collect nothing worth a pipe. */
  private static final double LEAST_PART_M = 2;

  /** What is left open at a break in metres. */
  private static final double GAP_M = 0.5;

  private final ElevationGrid ground;
  private final List<Crossing> slabs;

  HighGround(ElevationGrid ground, List<Crossing> slabs) {
    this.ground = ground;
    this.slabs = slabs;
  }

  /**
   * The lines, each broken once at its highest ground where that is above both its ends; the same
   * lines where none is. O(length / cell size).
   */
  List<LineString> broken(List<LineString> lines) {
    List<LineString> parts = new ArrayList<>();
    for (LineString line : lines) {
      parts.addAll(broken(line));
    }
    return parts;
  }

  private List<LineString> broken(LineString line) {
    LengthIndexedLine along = new LengthIndexedLine(line);
    double length = line.getLength();
    double highest = Double.NEGATIVE_INFINITY;
    double at = Double.NaN;
    double step = ground.frame().cellM();
    for (double s = LEAST_PART_M; s <= length - LEAST_PART_M; s += step) {
      double z = elevation(along, s);
      if (z > highest) {
        highest = z;
        at = s;
      }
    }
    double ends = Math.max(elevation(along, 0), elevation(along, length));
    if (!(highest > ends + LEAST_RISE_M)) {
      return List.of(line);
    }
    List<LineString> parts = new ArrayList<>();
    for (Geometry part :
        List.of(along.extractLine(0, at - GAP_M / 2), along.extractLine(at + GAP_M / 2, length))) {
      PermittedLines.endingOff((LineString) part, slabs).stream()
          .filter(each -> each.getLength() >= LEAST_PART_M - GAP_M)
          .forEach(parts::add);
    }
    return parts;
  }

  private double elevation(LengthIndexedLine along, double s) {
    var point = along.extractPoint(s);
    return ground.bilinear(point.x, point.y);
  }
}
