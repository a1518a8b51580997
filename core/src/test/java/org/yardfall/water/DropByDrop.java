package org.yardfall.water;

import java.util.ArrayDeque;
import java.util.BitSet;
import java.util.Deque;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * Standing water by brute force: each cell's water runs downhill over ground and water alike; where
 * it comes to rest it lifts the whole sheet up to its lowest rim and then runs on. It shares no
 * code with what it checks but the rule of descent, told anew.
 */
final class DropByDrop {

  private static final double SAME = 1e-9;

  private final ElevationGrid ground;
  private final GridFrame frame;
  private final double[] surface;

  DropByDrop(ElevationGrid ground, double[] depth) {
    this.ground = ground;
    this.frame = ground.frame();
    surface = new double[depth.length];
    for (int c = 0; c < depth.length; c++) {
      surface[c] = ground.z()[c];
    }
    for (int c = 0; c < depth.length; c++) {
      pour(c, depth[c]);
    }
  }

  double[] surface() {
    return surface;
  }

  private void pour(int start, double amount) {
    double left = amount;
    int c = downhill(start);
    while (left > 1e-12) {
      if (c < 0) {
        return;
      }
      BitSet sheet = sheet(c);
      int brim = brim(sheet);
      if (brim >= 0) {
        c = downhillFromRim(brim, sheet);
        continue;
      }
      int rim = lowestRim(sheet);
      double rimM = rim < 0 ? Double.POSITIVE_INFINITY : surface[rim];
      int out = lowestEdge(sheet);
      if (out >= 0 && ground.z()[out] <= surface[c] + SAME) {
        return; // the sheet already stands at the edge and runs off
      }
      double rise = left / sheet.cardinality();
      if (surface[c] + rise < rimM) {
        lift(sheet, surface[c] + rise);
        return;
      }
      left -= (rimM - surface[c]) * sheet.cardinality();
      lift(sheet, rimM);
      // over the rim: downhill from it where it falls away, else the sheet has grown by it
      c = downhillFromRim(rim, sheet);
    }
  }

  private int downhillFromRim(int rim, BitSet sheet) {
    if (edge(rim)) {
      return -1;
    }
    int best = -1;
    double steepest = 0;
    for (int k = 0; k < 8; k++) {
      int n = neighbour(rim, k);
      if (!sheet.get(n) && surface[n] < surface[rim] - SAME) {
        double fall = (ground.z()[rim] - ground.z()[n]) / ((k & 1) == 0 ? 1 : Math.sqrt(2));
        if (fall > steepest) {
          steepest = fall;
          best = n;
        }
      }
    }
    return best < 0 ? rim : downhill(best);
  }

  /** Runs down the ground to the foot, as water does that does not yet know of ponds. */
  private int downhill(int start) {
    int c = start;
    while (true) {
      int best = -1;
      double steepest = 0;
      for (int k = 0; k < 8; k++) {
        if (known(c, k)) {
          double fall = fall(c, neighbour(c, k)) / ((k & 1) == 0 ? 1 : Math.sqrt(2));
          if (fall > steepest) {
            steepest = fall;
            best = k;
          }
        }
      }
      if (best < 0) {
        return edge(c) ? -1 : c;
      }
      c = neighbour(c, inTurn(c, best));
    }
  }

  /**
   * The steepest way or the lower of the two beside it: the corner of the two in that share of the
   * columns (or rows) by which the ground slopes from the side towards the corner.
   */
  private int inTurn(int c, int best) {
    int left = (best + 1) % 8;
    int right = (best + 7) % 8;
    if (!known(c, left) || !known(c, right)) {
      return best;
    }
    int beside = fall(c, neighbour(c, left)) >= fall(c, neighbour(c, right)) ? left : right;
    int side = best % 2 == 0 ? best : beside;
    int corner = best % 2 == 0 ? beside : best;
    double along = fall(c, neighbour(c, side));
    double across = fall(c, neighbour(c, corner)) - along;
    boolean eastOrWest = side % 4 == 0;
    int row = c / frame.cols();
    double line =
        eastOrWest
            ? Math.rint(frame.westM() / frame.cellM()) + c % frame.cols()
            : Math.rint(-frame.northM() / frame.cellM()) + row;
    double golden = (Math.sqrt(5) - 1) / 2;
    return across > (line * golden - Math.floor(line * golden)) * along ? corner : side;
  }

  private boolean known(int c, int k) {
    int n = neighbour(c, k);
    return n >= 0 && !Float.isNaN(ground.z()[n]);
  }

  private double fall(int from, int to) {
    return (double) ground.z()[from] - ground.z()[to];
  }

  private BitSet sheet(int start) {
    BitSet sheet = new BitSet();
    Deque<Integer> open = new ArrayDeque<>();
    open.add(start);
    sheet.set(start);
    while (!open.isEmpty()) {
      int c = open.remove();
      for (int k = 0; k < 8; k++) {
        int n = neighbour(c, k);
        if (n >= 0 && !sheet.get(n) && Math.abs(surface[n] - surface[start]) <= SAME) {
          sheet.set(n);
          open.add(n);
        }
      }
    }
    return sheet;
  }

  /** A cell of the sheet from which water falls away, −1 where it stands all round. */
  private int brim(BitSet sheet) {
    for (int c = sheet.nextSetBit(0); c >= 0; c = sheet.nextSetBit(c + 1)) {
      for (int k = 0; k < 8; k++) {
        int n = neighbour(c, k);
        if (n >= 0 && !sheet.get(n) && surface[n] < surface[c] - SAME) {
          return c;
        }
      }
    }
    return -1;
  }

  private int lowestRim(BitSet sheet) {
    int lowest = -1;
    for (int c = sheet.nextSetBit(0); c >= 0; c = sheet.nextSetBit(c + 1)) {
      for (int k = 0; k < 8; k++) {
        int n = neighbour(c, k);
        if (n >= 0
            && !sheet.get(n)
            && surface[n] > surface[c]
            && (lowest < 0 || surface[n] < surface[lowest])) {
          lowest = n;
        }
      }
    }
    return lowest;
  }

  private int lowestEdge(BitSet sheet) {
    return sheet.stream()
        .filter(this::edge)
        .reduce((a, b) -> ground.z()[b] < ground.z()[a] ? b : a)
        .orElse(-1);
  }

  private void lift(BitSet sheet, double levelM) {
    sheet.stream().forEach(c -> surface[c] = levelM);
  }

  private boolean edge(int c) {
    return Flood.onEdge(ground, c % frame.cols(), c / frame.cols());
  }

  /** East, north-east, north … counter-clockwise; −1 off the grid. */
  private int neighbour(int c, int k) {
    int col = c % frame.cols() + new int[] {1, 1, 0, -1, -1, -1, 0, 1}[k];
    int row = c / frame.cols() + new int[] {0, -1, -1, -1, 0, 1, 1, 1}[k];
    return frame.has(col, row) ? row * frame.cols() + col : -1;
  }
}
