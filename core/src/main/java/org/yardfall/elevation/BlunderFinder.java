package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Finds vertices that stand metres off the ground of their neighbours: each is held against the
 * plane through the vertices joined to it and against their mean, nearer ones counting more; it is
 * off by the lesser of the two, since a plane says little beyond its points. The worst of a
 * neighbourhood goes first, and its neighbours are judged anew without it, so that one blunder does
 * not bring down the shots round it.
 */
final class BlunderFinder {

  /** No rod or radio errs by less and is called a blunder here. */
  private static final double LEAST_M = 1.0;

  /** Multiples of the robust standard deviation of all residuals. */
  private static final double DEVIATIONS = 8;

  /** Ground between shots this far apart may rise by this share of the distance. */
  private static final double FREE_SLOPE = 0.5;

  private static final double MAD_TO_SIGMA = 1.4826;
  private static final int MOST_ROUNDS = 20;

  private final Tin tin;
  private final int[] first;
  private final int[] neighbour;
  private final boolean[] gone;
  private final double[] residual;
  private final double[] reach;

  private BlunderFinder(Tin tin) {
    this.tin = tin;
    int n = tin.x().length;
    int[] corners = tin.corners();
    this.first = new int[n + 1];
    for (int corner : corners) {
      first[corner + 1] += 2;
    }
    for (int i = 0; i < n; i++) {
      first[i + 1] += first[i];
    }
    this.neighbour = new int[first[n]];
    int[] next = Arrays.copyOf(first, n);
    for (int i = 0; i < corners.length; i++) {
      int base = i - i % 3;
      neighbour[next[corners[i]]++] = corners[base + (i + 1 - base) % 3];
      neighbour[next[corners[i]]++] = corners[base + (i + 2 - base) % 3];
    }
    this.gone = new boolean[n];
    this.residual = new double[n];
    this.reach = new double[n];
  }

  /**
   * A vertex off its neighbours.
   *
   * @param vertex its number
   * @param offM how far it stands above them in metres, negative below
   */
  record Blunder(int vertex, double offM) {}

  /** The blunders among a surface's vertices, by vertex. */
  static List<Blunder> find(Tin tin) {
    return new BlunderFinder(tin).find();
  }

  /**
   * The robust standard deviation of a surface's vertices about the ground that their neighbours
   * give without them, in metres: how well the surface knows the ground between its vertices (cross
   * validation by leaving one out).
   */
  static double unevennessM(Tin tin) {
    double[] sizes = Arrays.stream(offM(tin)).filter(off -> !Double.isNaN(off)).sorted().toArray();
    return MAD_TO_SIGMA * sizes[sizes.length / 2];
  }

  /** How far each vertex stands off the ground of its neighbours, in metres; NaN without any. */
  static double[] offM(Tin tin) {
    BlunderFinder finder = new BlunderFinder(tin);
    double[] off = new double[finder.residual.length];
    for (int i = 0; i < off.length; i++) {
      finder.judge(i);
      off[i] = finder.first[i] < finder.first[i + 1] ? Math.abs(finder.residual[i]) : Double.NaN;
    }
    return off;
  }

  private List<Blunder> find() {
    int n = residual.length;
    for (int i = 0; i < n; i++) {
      judge(i);
    }
    double[] sizes = Arrays.stream(residual).map(Math::abs).sorted().toArray();
    double least = Math.max(LEAST_M, DEVIATIONS * MAD_TO_SIGMA * sizes[n / 2]);
    List<Blunder> blunders = new ArrayList<>();
    for (int round = 0; round < MOST_ROUNDS; round++) {
      List<Integer> worst = new ArrayList<>();
      for (int i = 0; i < n; i++) {
        if (!gone[i]
            && Math.abs(residual[i]) > Math.max(least, FREE_SLOPE * reach[i])
            && isWorst(i)) {
          worst.add(i);
        }
      }
      if (worst.isEmpty()) {
        break;
      }
      for (int i : worst) {
        gone[i] = true;
        blunders.add(new Blunder(i, residual[i]));
      }
      for (int i : worst) {
        for (int k = first[i]; k < first[i + 1]; k++) {
          judge(neighbour[k]);
        }
      }
    }
    blunders.sort(java.util.Comparator.comparingInt(Blunder::vertex));
    return blunders;
  }

  private boolean isWorst(int i) {
    for (int k = first[i]; k < first[i + 1]; k++) {
      int j = neighbour[k];
      double other = Math.abs(residual[j]);
      double own = Math.abs(residual[i]);
      if (!gone[j] && (other > own || (other == own && j < i))) {
        return false;
      }
    }
    return true;
  }

  /** The vertex's height above its neighbours' weighted plane or mean, the lesser. */
  private void judge(int i) {
    PlaneFit fit = new PlaneFit();
    int count = 0;
    double distance = 0;
    for (int k = first[i]; k < first[i + 1]; k++) {
      int j = neighbour[k];
      if (!gone[j]) {
        double dx = tin.x()[j] - tin.x()[i];
        double dy = tin.y()[j] - tin.y()[i];
        double d = Math.hypot(dx, dy);
        fit.add(1 / (d * d + 1e-6), dx, dy, tin.z()[j] - tin.z()[i]);
        distance += d;
        count++;
      }
    }
    reach[i] = count == 0 ? 0 : distance / count;
    double plane = count == 0 ? 0 : -fit.atOrigin();
    double mean = count == 0 ? 0 : -fit.mean();
    residual[i] = Math.abs(plane) < Math.abs(mean) ? plane : mean;
  }
}
