package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;

/**
 * The steps tried from each cell: all whole-number steps without a common factor up to a reach, 16
 * or 32 of them, in the order of their bearing, counter-clockwise from east.
 *
 * <p>Every step carries where to look at the ground between its ends: at each line of cell centres
 * that it crosses and half way between, as weights of the cells around. There the bilinear ground
 * along the step is a parabola between one crossing and the next, so these places tell it whole.
 */
final class Stencil {

  final int steps;
  final int[] dCol;
  final int[] dRow;

  /** Length in cells. */
  final double[] length;

  /** Shares of the step's length at which the ground is looked at, ends included. */
  final double[][] share;

  private final int[][][] cellCol;
  private final int[][][] cellRow;
  private final double[][][] weight;

  Stencil(int steps) {
    int reach = steps == 16 ? 2 : 3;
    List<int[]> moves = new ArrayList<>();
    for (int row = -reach; row <= reach; row++) {
      for (int col = -reach; col <= reach; col++) {
        if (gcd(Math.abs(col), Math.abs(row)) == 1) {
          moves.add(new int[] {col, row});
        }
      }
    }
    moves.sort(
        (a, b) -> {
          double first = Math.atan2(-a[1], a[0]);
          double second = Math.atan2(-b[1], b[0]);
          return Double.compare(
              first < 0 ? first + 2 * Math.PI : first, second < 0 ? second + 2 * Math.PI : second);
        });
    if (moves.size() != steps) {
      throw new IllegalArgumentException(steps + " neighbours; 16 or 32");
    }
    this.steps = steps;
    dCol = moves.stream().mapToInt(m -> m[0]).toArray();
    dRow = moves.stream().mapToInt(m -> m[1]).toArray();
    length = moves.stream().mapToDouble(m -> Math.hypot(m[0], m[1])).toArray();
    share = new double[steps][];
    cellCol = new int[steps][][];
    cellRow = new int[steps][][];
    weight = new double[steps][][];
    for (int k = 0; k < steps; k++) {
      lookAlong(k);
    }
  }

  private static int gcd(int a, int b) {
    return b == 0 ? a : gcd(b, a % b);
  }

  private void lookAlong(int k) {
    share[k] = LatticeCuts.shares(0, 0, dCol[k], dRow[k]);
    int n = share[k].length;
    cellCol[k] = new int[n][];
    cellRow[k] = new int[n][];
    weight[k] = new double[n][];
    for (int i = 0; i < n; i++) {
      double u = share[k][i] * dCol[k];
      double v = share[k][i] * dRow[k];
      int col = (int) Math.floor(u + 1e-9);
      int row = (int) Math.floor(v + 1e-9);
      double fu = Math.max(0, u - col);
      double fv = Math.max(0, v - row);
      List<double[]> corners = new ArrayList<>();
      for (int c = 0; c < 4; c++) {
        double w = (c % 2 == 0 ? 1 - fu : fu) * (c / 2 == 0 ? 1 - fv : fv);
        if (w > 1e-9) {
          corners.add(new double[] {col + c % 2, row + c / 2, w});
        }
      }
      cellCol[k][i] = corners.stream().mapToInt(c -> (int) c[0]).toArray();
      cellRow[k][i] = corners.stream().mapToInt(c -> (int) c[1]).toArray();
      weight[k][i] = corners.stream().mapToDouble(c -> c[2]).toArray();
    }
  }

  /** Offsets of the cells that a step looks at, as an index for a grid of the given width. */
  int[][] offsets(int k, int cols) {
    int[][] offsets = new int[share[k].length][];
    for (int i = 0; i < offsets.length; i++) {
      offsets[i] = new int[cellCol[k][i].length];
      for (int c = 0; c < offsets[i].length; c++) {
        offsets[i][c] = cellRow[k][i][c] * cols + cellCol[k][i][c];
      }
    }
    return offsets;
  }

  /** Weights that go with {@link #offsets}. */
  double[][] weights(int k) {
    return weight[k];
  }
}
