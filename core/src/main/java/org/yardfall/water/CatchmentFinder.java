package org.yardfall.water;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/** The ground that drains to the lot, and to each real low spot that no other holds. */
final class CatchmentFinder {

  /** What the catchment of the lot is of. */
  static final String LOT = "lot";

  private final float[] z;
  private final GridFrame frame;
  private final boolean someUnknown;

  /** Over some ground; NaN is ground not known. */
  CatchmentFinder(ElevationGrid ground) {
    this.z = ground.z();
    this.frame = ground.frame();
    boolean some = false;
    for (float known : z) {
      some |= Float.isNaN(known);
    }
    someUnknown = some;
  }

  /** The ground whose water comes to the lot or falls on it. */
  Catchment ofLot(FlowField flow, Geometry lot) {
    byte[] drains = new byte[z.length]; // 0 not known yet, 1 to the lot, −1 not
    for (int c : CellsWithin.of(frame, lot)) {
      drains[c] = 1;
    }
    for (int start = 0; start < drains.length; start++) {
      int c = start;
      while (c >= 0 && drains[c] == 0) {
        c = flow.receiver(c);
      }
      byte found = c < 0 ? -1 : drains[c];
      for (c = start; c >= 0 && drains[c] == 0; c = flow.receiver(c)) {
        drains[c] = found;
      }
    }
    int[] cells = new int[drains.length];
    int size = 0;
    for (int c = 0; c < drains.length; c++) {
      if (drains[c] == 1) {
        cells[size++] = c;
      }
    }
    return catchment("C1", LOT, Arrays.copyOf(cells, size), size * frame.cellAreaM2());
  }

  /**
   * The catchments of the listed low spots that hold their water, in the order of the listing.
   *
   * @param firstNumber number of the first catchment
   */
  List<Catchment> ofLowSpots(Contributing contributing, LowSpotListing listing, int firstNumber) {
    int[] places =
        IntStream.range(0, listing.nodes.length)
            .filter(i -> contributing.holds(listing.nodes[i]))
            .toArray();
    int[] roots = Arrays.stream(places).map(i -> listing.nodes[i]).toArray();
    int[][] cells = cellsByRoot(contributing, roots);
    return IntStream.range(0, roots.length)
        .parallel()
        .mapToObj(
            i ->
                catchment(
                    "C" + (firstNumber + i),
                    LowSpotListing.id(places[i]),
                    cells[i],
                    contributing.areaM2[roots[i]]))
        .toList();
  }

  /** The cells whose water each of some roots holds, in rising order; on all cores. */
  private int[][] cellsByRoot(Contributing contributing, int[] roots) {
    int[] number = contributing.numberByPit(roots);
    int[][] begin = new int[Stripes.count(frame.cols(), frame.rows()) + 1][roots.length];
    Stripes.run(
        frame.cols(),
        frame.rows(),
        (stripe, from, to) -> {
          int[] count = begin[stripe + 1];
          for (int c = from * frame.cols(); c < to * frame.cols(); c++) {
            int i = number[contributing.pitOf(c)];
            if (i >= 0) {
              count[i]++;
            }
          }
        });
    int[][] cells = new int[roots.length][];
    for (int i = 0; i < roots.length; i++) {
      for (int stripe = 1; stripe < begin.length; stripe++) {
        begin[stripe][i] += begin[stripe - 1][i];
      }
      cells[i] = new int[begin[begin.length - 1][i]];
    }
    Stripes.run(
        frame.cols(),
        frame.rows(),
        (stripe, from, to) -> {
          int[] next = begin[stripe];
          for (int c = from * frame.cols(); c < to * frame.cols(); c++) {
            int i = number[contributing.pitOf(c)];
            if (i >= 0) {
              cells[i][next[i]++] = c;
            }
          }
        });
    return cells;
  }

  private Catchment catchment(String id, String of, int[] cells, double areaM2) {
    return new Catchment(id, of, CellOutline.thinned(frame, cells), areaM2, cutOff(cells));
  }

  private String cutOff(int[] cells) {
    Set<Side> sides = EnumSet.noneOf(Side.class);
    boolean hole = false;
    for (int c : cells) {
      int row = c / frame.cols();
      int col = c - row * frame.cols();
      if (!someUnknown && row > 0 && row < frame.rows() - 1 && col > 0 && col < frame.cols() - 1) {
        continue;
      }
      for (int k = 0; k < Neighbours.COUNT; k++) {
        int col2 = col + Neighbours.DCOL[k];
        int row2 = row + Neighbours.DROW[k];
        if (!frame.has(col2, row2)) {
          Side.beyond(frame, col2, row2, sides);
        } else if (Float.isNaN(z[row2 * frame.cols() + col2])) {
          hole = true;
        }
      }
    }
    String words =
        sides.stream()
            .map(s -> s.name().toLowerCase(Locale.ROOT))
            .collect(Collectors.joining(", "));
    return words + (hole ? (words.isEmpty() ? "" : ", ") + Catchment.HOLE : "");
  }
}
