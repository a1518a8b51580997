package org.yardfall.runoff;

import java.util.BitSet;
import java.util.function.IntUnaryOperator;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Site;
import org.yardfall.water.CellsWithin;
import org.yardfall.water.FlowField;

/**
 * Where water comes over a property line for good, told from where it only weaves over it: along
 * the line lies a band in which the way of water from cell to cell does not tell on which side the
 * water runs, since it weaves about the true way by up to a cell and a half and the cells' own
 * edges by half a cell.
 *
 * <p>Water beside a line that follows the slope weaves over it again and again. Where it gets no
 * further than the band, it is on that side on which more of its way lies, and what falls in the
 * band beyond the line stays there; and water that runs along the line comes from the ground, and
 * goes to the ground, at the ends of its way in the band. Parts of the lot that are narrower than
 * the band is wide have no band. Found in one pass upstream, O(cells).
 */
final class LineBand {

  /** Half the width of the band in cells. */
  private static final double HALF_CELLS = 2;

  /** Ways of more cells than this on one side of the line in the band run along it. */
  private static final int ALONG_CELLS = 6;

  private static final double TINY = 1e-6;

  private final BitSet within = new BitSet();
  private final BitSet around = new BitSet();
  private final BitSet lot;
  private final FlowField flow;
  private final Upstream upstream;
  private final double[] areaM2;

  /** Cells beyond the line whose water comes onto the lot further down. */
  private final BitSet comesIn = new BitSet();

  /** Cells beyond the line from which water comes onto the lot and not just past it. */
  private final BitSet enters = new BitSet();

  /** Cells beyond the line whose water, where it first comes over the line, just passes. */
  private final BitSet passes = new BitSet();

  /**
   * The band along the line of a site's lot; without a lot, none.
   *
   * @param lot the lot's cells
   * @param order the cells, each before its receiver
   * @param upstream the cells by receiver
   * @param areaM2 ground that drains to each cell, in m²
   */
  LineBand(Site site, BitSet lot, FlowField flow, int[] order, Upstream upstream, double[] areaM2) {
    this.lot = lot;
    this.flow = flow;
    this.upstream = upstream;
    this.areaM2 = areaM2;
    site.lot().ifPresent(own -> lay(own.outline()));
    findWhatGetsIn(order);
  }

  private void lay(Polygon outline) {
    double half = HALF_CELLS * flow.frame().cellM() - TINY;
    Geometry inner = moved(outline, -half);
    fill(within, inner);
    fill(within, outline.difference(moved(inner, half))); // too narrow for a band
    fill(around, moved(outline, half));
  }

  private void fill(BitSet cells, Geometry area) {
    GridFrame frame = flow.frame();
    for (int c : CellsWithin.of(frame, area)) {
      cells.set(c);
    }
  }

  private static Geometry moved(Geometry area, double byM) {
    BufferParameters mitred = new BufferParameters();
    mitred.setJoinStyle(BufferParameters.JOIN_MITRE);
    return BufferOp.bufferOp(area, byM, mitred);
  }

  private void findWhatGetsIn(int[] order) {
    int[] moreOnLot = new int[order.length]; // cells of the way on in the band: on it less beyond
    int all = order.length;
    for (int i = order.length - 1; i >= 0; i--) {
      int c = order[i];
      int r = flow.receiver(c);
      boolean on = lot.get(c);
      if (isWithin(c) || (on && r < 0)) {
        moreOnLot[c] = all;
      } else if (on || isBeside(c)) {
        moreOnLot[c] = r < 0 ? -1 : moreOnLot[r] == all ? all : moreOnLot[r] + (on ? 1 : -1);
      } else {
        moreOnLot[c] = r >= 0 && moreOnLot[r] == all ? all : 0;
      }
      if (on || r < 0) {
        continue;
      }
      comesIn.set(c, lot.get(r) || comesIn.get(r));
      if (!lot.get(r)) {
        passes.set(c, passes.get(r));
      } else if (moreOnLot[r] == all || (moreOnLot[r] > 0 && comesFromAfar(c))) {
        enters.set(c);
      } else {
        passes.set(c);
      }
    }
  }

  /** Whether a cell lies on the lot clear of the band. */
  private boolean isWithin(int cell) {
    return within.get(cell);
  }

  /** Whether a cell lies in the band beyond the line. */
  private boolean isBeside(int cell) {
    return around.get(cell) && !lot.get(cell);
  }

  /** Whether water from a cell beyond the line comes onto the lot further down. */
  boolean comesInFrom(int cell) {
    return comesIn.get(cell);
  }

  /** Whether water that has not been on the lot comes onto it from this cell and not just past. */
  boolean entersAt(int cell) {
    return enters.get(cell);
  }

  /** Whether what falls on a cell beyond the line comes over it and passes the lot by. */
  boolean passesBy(int cell) {
    return passes.get(cell);
  }

  /** Whether water leaves the lot here and does not come back. */
  boolean leavesForGood(int cell) {
    if (!lot.get(cell) || flow.toward()[cell] == FlowField.UNKNOWN) {
      return false;
    }
    int r = flow.receiver(cell);
    return r < 0 || (!lot.get(r) && !comesIn.get(r));
  }

  /**
   * Where water leaves the band that leaves the lot at a cell for good: the last cell of its way
   * along the line, that cell itself where it just crosses.
   */
  int lastOf(int leaving) {
    return endAlong(leaving, flow::receiver);
  }

  /** The cell onto which water gets that leaves the lot at a cell for good, −1 if none is known. */
  int beyond(int leaving) {
    int last = lastOf(leaving);
    int next = flow.receiver(last);
    return next < 0 && last != leaving ? last : next;
  }

  /**
   * Where water comes into the band that comes onto the lot from a cell: the first cell of its
   * greatest thread's way along the line, that cell itself where it just crosses.
   */
  int firstOf(int entering) {
    return endAlong(entering, this::greatestGiver);
  }

  private int endAlong(int start, IntUnaryOperator next) {
    int end = start;
    int cells = 0;
    for (int c = next.applyAsInt(start); c >= 0 && isBeside(c); c = next.applyAsInt(c)) {
      end = c;
      cells++;
    }
    return cells > ALONG_CELLS ? end : start;
  }

  /** Whether the greatest thread that comes to a cell beside the line rises outside the band. */
  private boolean comesFromAfar(int entering) {
    int c = entering;
    while (c >= 0 && isBeside(c)) {
      c = greatestGiver(c);
    }
    return c >= 0;
  }

  private int greatestGiver(int cell) {
    int greatest = -1;
    for (int n = upstream.firstGiver(cell); n >= 0; n = upstream.nextGiver(n)) {
      if (!lot.get(n) && (greatest < 0 || areaM2[n] > areaM2[greatest])) {
        greatest = n;
      }
    }
    return greatest;
  }
}
