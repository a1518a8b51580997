package org.yardfall.runoff;

import java.util.BitSet;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Site;
import org.yardfall.water.CellsWithin;
import org.yardfall.water.FlowField;

/**
 * The band along a property line in which the way of water from cell to cell does not tell on which
 * side of the line the water runs: it weaves about the true way by up to a cell and a half and the
 * cells' own edges by half a cell.
 *
 * <p>Water beside a line that follows the slope weaves over it again and again. Where it gets no
 * further than the band, it is on that side on which more of its way lies, and what falls in the
 * band beyond the line stays there; and water that runs along the line comes from the ground, and
 * goes to the ground, at the ends of its way in the band. Parts of the lot that are narrower than
 * the band is wide have no band.
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
  private final double[] areaM2;

  /**
   * The band along the line of a site's lot; without a lot, none.
   *
   * @param lot the lot's cells
   * @param areaM2 ground that drains to each cell, in m²
   */
  LineBand(Site site, BitSet lot, FlowField flow, double[] areaM2) {
    this.lot = lot;
    this.flow = flow;
    this.areaM2 = areaM2;
    site.lot().ifPresent(own -> lay(own.outline()));
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

  /** Whether a cell lies on the lot clear of the band. */
  boolean isWithin(int cell) {
    return within.get(cell);
  }

  /** Whether a cell lies in the band beyond the line. */
  boolean isBeside(int cell) {
    return around.get(cell) && !lot.get(cell);
  }

  /**
   * Where water leaves the band that leaves the lot at a cell for good: the last cell of its way
   * along the line, that cell itself where it just crosses.
   */
  int lastOf(int leaving) {
    int last = leaving;
    int cells = 0;
    for (int c = flow.receiver(leaving); c >= 0 && isBeside(c); c = flow.receiver(c)) {
      last = c;
      cells++;
    }
    return cells > ALONG_CELLS ? last : leaving;
  }

  /**
   * Where water comes into the band that comes onto the lot from a cell: the first cell of its
   * greatest thread's way along the line, that cell itself where it just crosses.
   */
  int firstOf(int entering) {
    int first = entering;
    int cells = 0;
    for (int c = greatestGiver(entering); c >= 0 && isBeside(c); c = greatestGiver(c)) {
      first = c;
      cells++;
    }
    return cells > ALONG_CELLS ? first : entering;
  }

  /** Whether the greatest thread that comes to a cell beside the line rises outside the band. */
  boolean comesFromAfar(int entering) {
    int c = entering;
    while (c >= 0 && isBeside(c)) {
      c = greatestGiver(c);
    }
    return c >= 0;
  }

  private int greatestGiver(int cell) {
    GridFrame frame = flow.frame();
    int col = cell % frame.cols();
    int row = cell / frame.cols();
    int greatest = -1;
    for (int r = Math.max(0, row - 1); r <= Math.min(frame.rows() - 1, row + 1); r++) {
      for (int c = Math.max(0, col - 1); c <= Math.min(frame.cols() - 1, col + 1); c++) {
        int n = r * frame.cols() + c;
        if (n != cell
            && !lot.get(n)
            && flow.receiver(n) == cell
            && (greatest < 0 || areaM2[n] > areaM2[greatest])) {
          greatest = n;
        }
      }
    }
    return greatest;
  }
}
