package org.yardfall.route;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineSegment;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.MultiLineString;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;
import org.locationtech.jts.linearref.LengthIndexedLine;

/**
 * A closed line along which a drain could lie, cut into short slots that are wanted or blocked. The
 * runs of wanted slots, small gaps bridged, are the lines to dig; they keep the ring's corners and
 * add no bends of their own.
 */
final class DrainRing {

  private static final double SLOT_M = 0.25;

  /** Width in metres left open where a ring is broken, so that its ends are two clean-outs. */
  private static final double BREAK_M = 0.5;

  private final LineString ring;
  private final LengthIndexedLine along;
  private final int slots;
  private final double slotM;
  private final BitSet wanted = new BitSet();
  private final BitSet blocked = new BitSet();
  private double stubsM;

  DrainRing(LineString closed) {
    ring = closed;
    along = new LengthIndexedLine(closed);
    slots = Math.max(8, (int) Math.ceil(closed.getLength() / SLOT_M));
    slotM = closed.getLength() / slots;
  }

  /** Marks as wanted every slot whose middle answers to the test. */
  void want(Predicate<Coordinate> test) {
    for (int i = 0; i < slots; i++) {
      if (test.test(middle(i))) {
        wanted.set(i);
      }
    }
  }

  /** Marks as blocked every slot that touches the inside of a shape. */
  void block(Geometry shape) {
    if (shape.isEmpty()) {
      return;
    }
    PreparedGeometry inside =
        PreparedGeometryFactory.prepare(shape.buffer(-DiggableArea.SLACK_M / 2));
    for (int i = 0; i < slots; i++) {
      if (inside.intersects(along.extractLine(i * slotM, (i + 1) * slotM))) {
        blocked.set(i);
      }
    }
  }

  /** Marks as blocked every slot that is not wholly inside a shape. */
  void keepWithin(Geometry shape) {
    PreparedGeometry inside =
        PreparedGeometryFactory.prepare(shape.buffer(DiggableArea.SLACK_M / 2));
    for (int i = 0; i < slots; i++) {
      if (!inside.covers(along.extractLine(i * slotM, (i + 1) * slotM))) {
        blocked.set(i);
      }
    }
  }

  /** Length in metres of the slots that are wanted but blocked. */
  double lostM() {
    BitSet lost = (BitSet) wanted.clone();
    lost.and(blocked);
    return lost.cardinality() * slotM;
  }

  /** Length in metres of the ends round corners that were left off the lines to dig. */
  double stubsM() {
    return stubsM;
  }

  /**
   * The lines to dig; an end that is no more than a stub round a corner is left off.
   *
   * @param bridgeM gaps up to this long are dug too, where nothing blocks them
   * @param overlapM how far a line reaches beyond the wanted stretch at each end
   * @param leastM lines shorter than this are left out
   * @param groundM ground elevation at a point; a line that would close is broken at its highest
   *     ground
   */
  List<LineString> runs(
      double bridgeM, double overlapM, double leastM, ToDoubleFunction<Coordinate> groundM) {
    BitSet dig = bridged(bridgeM, overlapM);
    if (dig.isEmpty()) {
      return List.of();
    }
    if (dig.cardinality() == slots) {
      return List.of(broken(groundM));
    }
    List<LineString> lines = new ArrayList<>();
    int start = dig.nextClearBit(0);
    for (int i = 1; i <= slots; i++) {
      if (!dig.get((start + i) % slots)) {
        continue;
      }
      int from = i;
      while (dig.get((start + i) % slots)) {
        i++;
      }
      LineString whole = stretch((start + from) * slotM, (i - from) * slotM);
      LineString line = Stubs.trimmed(whole);
      stubsM += whole.getLength() - line.getLength();
      if (line.getLength() >= leastM) {
        lines.add(line);
      }
    }
    lines.sort((a, b) -> Double.compare(b.getLength(), a.getLength()));
    return lines;
  }

  private BitSet bridged(double bridgeM, double overlapM) {
    BitSet dig = (BitSet) wanted.clone();
    int overlap = (int) Math.round(overlapM / slotM);
    int gap = (int) Math.round(bridgeM / slotM);
    for (int i = 0; i < slots; i++) {
      if (wanted.get(i)) {
        int next = 1;
        while (next <= gap + 1 && !wanted.get((i + next) % slots)) {
          next++;
        }
        int fill = next <= gap + 1 ? next : overlap;
        for (int k = 0; k <= fill; k++) {
          dig.set((i + k) % slots);
        }
        for (int k = 0; k <= overlap; k++) {
          dig.set(Math.floorMod(i - k, slots));
        }
      }
    }
    dig.andNot(blocked);
    return dropUnwanted(dig);
  }

  /** What a block has cut off from every wanted slot is not dug. */
  private BitSet dropUnwanted(BitSet dig) {
    if (dig.cardinality() == slots) {
      return dig;
    }
    BitSet kept = new BitSet();
    int start = dig.nextClearBit(0);
    for (int i = 1; i <= slots; i++) {
      int from = i;
      boolean wants = false;
      while (i <= slots && dig.get((start + i) % slots)) {
        wants |= wanted.get((start + i) % slots);
        i++;
      }
      for (int k = from; wants && k < i; k++) {
        kept.set((start + k) % slots);
      }
    }
    return kept;
  }

  private LineString broken(ToDoubleFunction<Coordinate> groundM) {
    int high = 0;
    double top = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < slots; i++) {
      double z = groundM.applyAsDouble(middle(i));
      if (z > top) {
        top = z;
        high = i;
      }
    }
    double open = Math.min(BREAK_M, ring.getLength() / 8);
    return stretch((high + 0.5) * slotM + open / 2, ring.getLength() - open);
  }

  private LineString stretch(double startM, double lengthM) {
    double whole = ring.getLength();
    double from = startM % whole;
    double to = from + lengthM;
    if (to <= whole) {
      return single(along.extractLine(from, to));
    }
    List<Coordinate> all =
        new ArrayList<>(List.of(along.extractLine(from, whole).getCoordinates()));
    Coordinate[] rest = along.extractLine(0, to - whole).getCoordinates();
    // The ring's first vertex is a corner only where the ring turns there.
    if (all.size() > 1 && rest.length > 1 && straight(all.get(all.size() - 2), rest[0], rest[1])) {
      all.remove(all.size() - 1);
    }
    all.addAll(List.of(rest).subList(1, rest.length));
    return ring.getFactory().createLineString(all.toArray(Coordinate[]::new));
  }

  private static boolean straight(Coordinate a, Coordinate b, Coordinate c) {
    return new LineSegment(a, c).distance(b) < 1e-6;
  }

  private static LineString single(Geometry line) {
    return line instanceof MultiLineString many
        ? (LineString) many.getGeometryN(0)
        : (LineString) line;
  }

  private Coordinate middle(int slot) {
    return along.extractPoint((slot + 0.5) * slotM);
  }
}
