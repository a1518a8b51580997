package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.yardfall.site.WorkingCrs;

/**
 * Finds misread rods. Pipe cannot jump from one shot to the next, so a shot whose difference from
 * the plan is far from the median of its nearest neighbours' differences is a blunder. The worst
 * goes first and is left out before the others are judged, so that it does not accuse them.
 */
final class BlunderFinder {

  private static final int NEIGHBOURS = 4;
  private static final double ROUND_M = 0.02;

  private BlunderFinder() {}

  /** The blunders of a line, by station; they are taken out of {@code shots}. O(n²) at worst. */
  static List<Blunder> takeOut(List<ProofShot> shots, double blunderM) {
    List<Blunder> found = new ArrayList<>();
    while (shots.size() >= 3) {
      int worst = 0;
      double most = 0;
      for (int i = 0; i < shots.size(); i++) {
        double off = off(shots, i);
        if (Math.abs(off) > Math.abs(most)) {
          most = off;
          worst = i;
        }
      }
      if (Math.abs(most) <= blunderM) {
        break;
      }
      ProofShot shot = shots.remove(worst);
      found.add(new Blunder(shot.shot(), shot.line(), shot.stationM(), most, hint(most)));
    }
    found.sort(Comparator.comparingDouble(Blunder::stationM));
    return found;
  }

  private static double off(List<ProofShot> shots, int i) {
    double[] near =
        java.util.stream.IntStream.range(0, shots.size())
            .filter(j -> j != i)
            .boxed()
            .sorted(
                Comparator.comparingDouble(
                    j -> Math.abs(shots.get(j).stationM() - shots.get(i).stationM())))
            .limit(NEIGHBOURS)
            .mapToDouble(j -> shots.get(j).differenceM())
            .toArray();
    Arrays.sort(near);
    int n = near.length;
    double median = (near[(n - 1) / 2] + near[n / 2]) / 2;
    return shots.get(i).differenceM() - median;
  }

  private static String hint(double offM) {
    double size = Math.abs(offM);
    if (Math.abs(size - 1) < ROUND_M) {
      return "a metre misread";
    }
    if (Math.abs(size - WorkingCrs.INTERNATIONAL_FOOT_M) < ROUND_M) {
      return "a foot misread";
    }
    double decimetres = size * 10;
    return size < 0.95 && Math.abs(decimetres - Math.rint(decimetres)) < ROUND_M * 10
        ? "decimetres misread"
        : "";
  }
}
