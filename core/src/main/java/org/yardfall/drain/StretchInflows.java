package org.yardfall.drain;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.yardfall.drain.DrainCatchment.Place;
import org.yardfall.drain.DrainCatchment.Share;

/**
 * What meets each stretch of a drain at the peak, and what of it gets in. Water that a stretch
 * cannot take in runs on to the next it comes to and may get in there; peaks are taken to meet at
 * the same time, which is on the safe side. No water gets in twice.
 */
final class StretchInflows {

  private final List<Share> shares;
  private final double[] meetsM3S;
  private final double[] entersM3S;
  private final double[] takesM3S;
  private final double[][] arrives;

  private StretchInflows(List<Share> shares) {
    this.shares = shares;
    this.meetsM3S = new double[shares.size()];
    this.entersM3S = new double[shares.size()];
    this.takesM3S = new double[shares.size()];
    this.arrives = new double[shares.size()][shares.size()];
  }

  /**
   * The inflows of the shares of a catchment.
   *
   * @param peakM3S peak of a share's own ground in m³/s
   * @param takesM3S what a share's stretch can take in, in m³/s
   */
  static StretchInflows of(
      List<Share> shares, ToDoubleFunction<Share> peakM3S, ToDoubleFunction<Share> takesM3S) {
    StretchInflows inflows = new StretchInflows(shares);
    for (int i = 0; i < shares.size(); i++) {
      inflows.meetsM3S[i] = peakM3S.applyAsDouble(shares.get(i));
      inflows.takesM3S[i] = takesM3S.applyAsDouble(shares.get(i));
      inflows.entersM3S[i] = Math.min(inflows.meetsM3S[i], inflows.takesM3S[i]);
      inflows.arrives[i][i] = 1;
    }
    double[] own = inflows.meetsM3S.clone();
    for (int i = 0; i < shares.size(); i++) {
      inflows.runOn(i, own[i], own[i] - Math.min(own[i], inflows.takesM3S[i]));
    }
    return inflows;
  }

  private void runOn(int from, double ownM3S, double overM3S) {
    boolean[] seen = new boolean[shares.size()];
    seen[from] = true;
    double over = overM3S;
    List<Place> next = shares.get(from).over();
    while (over > 0 && !next.isEmpty()) {
      int first = index(next.get(0));
      if (first < 0 || seen[first]) {
        return;
      }
      arrives[first][from] = Math.max(arrives[first][from], over / ownM3S);
      meetsM3S[first] += over;
      for (Place place : next) {
        int to = index(place);
        if (to >= 0 && !seen[to]) {
          seen[to] = true;
          double enters = Math.min(over, takesM3S[to] - entersM3S[to]);
          entersM3S[to] += enters;
          over -= enters;
        }
      }
      next = shares.get(first).over();
    }
  }

  /** The share of a stretch, or −1 where it takes nothing. */
  int index(Place place) {
    for (int i = 0; i < shares.size(); i++) {
      if (shares.get(i).line() == place.line() && shares.get(i).stretch() == place.stretch()) {
        return i;
      }
    }
    return -1;
  }

  /** Peak that meets a share's stretch in m³/s, what runs on to it included. */
  double meetsM3S(int share) {
    return meetsM3S[share];
  }

  /** What of it gets in, in m³/s. */
  double entersM3S(int share) {
    return entersM3S[share];
  }

  /** How much of another share's water comes to a share's stretch, 0 to 1; 1 of its own. */
  double arrives(int share, int other) {
    return arrives[share][other];
  }
}
