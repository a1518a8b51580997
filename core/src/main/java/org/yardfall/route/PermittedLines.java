package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.util.LineStringExtracter;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.yardfall.site.Crossing;

/**
 * The lines of a collector as far as they can be dug. One that bends or ends under a slab is cut
 * there, since a bore is straight; pieces that are no more than {@link Stubs} are left out, and
 * what is left out is said.
 */
final class PermittedLines {

  /** Distance in metres that a line cut at a slab keeps from it. */
  static final double OFF_SLAB_M = 0.3;

  /** Less than this in metres is not worth a word. */
  private static final double SAID_M = 0.5;

  private final RouteGround ground;
  private final Geometry slabs;
  private double stubsM;
  private double closedM;

  private PermittedLines(RouteGround ground) {
    this.ground = ground;
    this.slabs =
        UnaryUnionOp.union(
            ground.site().crossings().stream().map(c -> c.outline().buffer(OFF_SLAB_M)).toList());
  }

  /** The collector with what can be dug of its lines; without lines where nothing can. */
  static Collector of(Collector wanted, RouteGround ground) {
    return new PermittedLines(ground).of(wanted);
  }

  private Collector of(Collector wanted) {
    List<LineString> lines = new ArrayList<>();
    for (LineString line : wanted.lines()) {
      boolean bends = slabs != null && slabs.intersects(corners(line));
      if (!bends && ground.permits(List.of(line.getCoordinates()))) {
        lines.add(line);
      } else if (slabs != null) {
        cut(line, lines);
      } else {
        closedM += line.getLength();
      }
    }
    lines.sort((a, b) -> Double.compare(b.getLength(), a.getLength()));
    return new Collector(
        wanted.kind(),
        lines,
        wanted.code(),
        wanted.why() + words(),
        wanted.serves(),
        wanted.servedM2());
  }

  private void cut(LineString line, List<LineString> lines) {
    for (Object part : LineStringExtracter.getLines(line.difference(slabs))) {
      LineString piece = (LineString) part;
      if (piece.getLength() < Stubs.LEAST_M) {
        stubsM += piece.getLength();
      } else if (ground.permits(List.of(piece.getCoordinates()))) {
        lines.add(piece);
      } else {
        closedM += piece.getLength();
      }
    }
  }

  private String words() {
    String closed =
        closedM < SAID_M
            ? ""
            : String.format(Locale.ROOT, "; %.1f m of it cannot be dug and are left out", closedM);
    return closed + Stubs.words(stubsM);
  }

  /** A line without those ends that lie under slabs, where nothing can begin or end. */
  static List<LineString> endingOff(LineString line, List<Crossing> slabs) {
    Geometry rest = line;
    for (Crossing slab : slabs) {
      Geometry near = slab.outline().buffer(OFF_SLAB_M);
      if (near.intersects(line.getBoundary())) {
        rest = rest.difference(near);
      }
    }
    List<LineString> parts = new ArrayList<>();
    for (Object each : LineStringExtracter.getLines(rest)) {
      parts.add((LineString) each);
    }
    return parts;
  }

  private static Geometry corners(LineString line) {
    return line.getFactory().createMultiPointFromCoords(line.getCoordinates());
  }
}
