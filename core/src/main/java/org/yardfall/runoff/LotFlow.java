package org.yardfall.runoff;

import java.util.BitSet;
import org.yardfall.water.FlowField;

/**
 * The storm's runoff led down the flow field, told apart by whether it has been on the lot.
 *
 * <p>Water is counted as inflow where it first comes onto the lot and as outflow where it leaves
 * for good, so a path that weaves along the property line is counted once. Water that gets no
 * further onto it than the {@link LineBand} and has more of its way there beyond the line passes
 * by: it never was on the lot. One pass in topological order, O(cells).
 */
final class LotFlow {

  /** Runoff in m³ through each cell that has never been on the lot. */
  final double[] freshM3;

  /**
   * Runoff in m³ through each cell that has been in the band along the line and passes the lot by.
   */
  private final double[] passingM3;

  /** Runoff in m³ through each cell that has. */
  final double[] beenM3;

  double inflowM3;
  double ownRunoffM3;
  double outflowM3;
  double standingM3;
  double interceptedM3;
  double heldBeyondM3;

  /** What open inlets take in low spots on the lot. */
  double inletM3;

  /** What is taken beyond the line of water that is no part of the lot's balance. */
  double takenBeyondM3;

  private final FlowField flow;
  private final BitSet lot;
  private final LineBand band;

  LotFlow(
      FlowField flow,
      int[] order,
      BitSet lot,
      LineBand band,
      double[] runoffM3,
      PondShare ponds,
      BitSet intercepted) {
    this.flow = flow;
    this.lot = lot;
    this.band = band;
    freshM3 = new double[order.length];
    beenM3 = new double[order.length];
    passingM3 = new double[order.length];
    for (int c : order) {
      if (flow.toward()[c] == FlowField.UNKNOWN) {
        continue;
      }
      boolean in = lot.get(c);
      double own = runoffM3[c] * (1 - ponds.staysOf(-1, c));
      if (in) {
        ownRunoffM3 += runoffM3[c];
        hold(runoffM3[c] - own, ponds.inletShareAt(c));
        beenM3[c] += own;
      } else {
        freshM3[c] += own;
      }
      if (intercepted.get(c)) {
        take(c, in);
        continue;
      }
      pass(c, flow.receiver(c), ponds);
    }
  }

  /**
   * Takes the water of a cell. In the last cell before the line it has come to the line: it counts
   * as come onto the lot and taken there, since a drain close inside the line may well have that
   * cell for its own.
   */
  private void take(int c, boolean in) {
    if (in || band.comesInFrom(c)) {
      interceptedM3 += beenM3[c];
    } else {
      takenBeyondM3 += beenM3[c]; // it left the lot before
    }
    if (band.entersAt(c)) {
      inflowM3 += freshM3[c];
      interceptedM3 += freshM3[c];
    } else {
      takenBeyondM3 += freshM3[c];
    }
    takenBeyondM3 += passingM3[c];
    beenM3[c] = 0;
  }

  private void hold(double amountM3, double inletShare) {
    inletM3 += amountM3 * inletShare;
    standingM3 += amountM3 * (1 - inletShare);
  }

  /** All that a drain takes in m³. */
  double takenM3() {
    return interceptedM3 + takenBeyondM3;
  }

  private void pass(int c, int r, PondShare ponds) {
    if (band.leavesForGood(c)) {
      outflowM3 += beenM3[c];
    }
    if (r < 0) {
      return;
    }
    boolean toLot = lot.get(r);
    double fresh = toLot ? 0 : freshM3[c];
    double passing = passingM3[c];
    double been = beenM3[c];
    if (band.entersAt(c)) {
      inflowM3 += freshM3[c];
      been += freshM3[c];
    } else if (toLot) {
      passing += freshM3[c];
    }
    double stays = ponds.staysOf(c, r);
    if (toLot) {
      hold(been * stays, ponds.inletShareAt(r));
    } else if (band.comesInFrom(r)) {
      heldBeyondM3 += been * stays;
    }
    freshM3[r] += fresh * (1 - stays);
    passingM3[r] += passing * (1 - stays);
    beenM3[r] += been * (1 - stays);
  }

  /**
   * Lets the intercepted water out on the lot, from where it runs on over the ground.
   *
   * @param outlet cell of the lot
   * @param intercepted cells that take water in
   * @return the cell at which it leaves the lot for good; −1 if it would come back to where it was
   *     taken, which leaves everything as it was
   */
  int runOn(int outlet, BitSet intercepted) {
    int exit = -1;
    for (int c = outlet; c >= 0; c = flow.receiver(c)) {
      if (intercepted.get(c)) {
        return -1;
      }
      exit = band.leavesForGood(c) ? c : exit;
    }
    for (int c = outlet; c >= 0; c = flow.receiver(c)) {
      beenM3[c] += takenM3();
    }
    outflowM3 += takenM3();
    inflowM3 += takenBeyondM3; // the drain brings it onto the lot
    interceptedM3 = 0;
    takenBeyondM3 = 0;
    return exit;
  }

  /**
   * The cells in an order in which each comes before its receiver.
   *
   * @throws IllegalArgumentException if the flow field goes in a circle
   */
  static int[] downstreamOrder(FlowField flow) {
    int n = flow.frame().size();
    byte[] givers = new byte[n];
    for (int c = 0; c < n; c++) {
      int r = flow.receiver(c);
      if (r >= 0) {
        givers[r]++;
      }
    }
    int[] order = new int[n];
    int tail = 0;
    for (int c = 0; c < n; c++) {
      if (givers[c] == 0) {
        order[tail++] = c;
      }
    }
    for (int head = 0; head < tail; head++) {
      int r = flow.receiver(order[head]);
      if (r >= 0 && --givers[r] == 0) {
        order[tail++] = r;
      }
    }
    if (tail < n) {
      throw new IllegalArgumentException("the flow field goes in a circle");
    }
    return order;
  }
}
