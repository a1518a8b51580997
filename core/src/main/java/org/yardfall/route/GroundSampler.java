package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/** Reads the ground and the zones along a line into a {@link GroundLine}. */
final class GroundSampler {

  private final ElevationGrid grid;
  private final List<Zone> zones;

  GroundSampler(ElevationGrid grid, List<Zone> zones) {
    this.grid = grid;
    this.zones = zones;
  }

  /** The ground along a line of two points or more; null where any of it is not known. */
  GroundLine along(List<Coordinate> line) {
    GroundLine whole = null;
    for (int i = 1; i < line.size(); i++) {
      GroundLine piece = segment(line.get(i - 1), line.get(i));
      if (piece == null) {
        return null;
      }
      whole = whole == null ? piece : whole.then(piece);
    }
    return whole;
  }

  private GroundLine segment(Coordinate from, Coordinate to) {
    GridFrame f = grid.frame();
    double[] lattice =
        LatticeCuts.shares(
            (from.x - f.westM()) / f.cellM() - 0.5,
            (f.northM() - from.y) / f.cellM() - 0.5,
            (to.x - f.westM()) / f.cellM() - 0.5,
            (f.northM() - to.y) / f.cellM() - 0.5);
    List<double[]> zoneParts = new ArrayList<>();
    TreeSet<Double> cuts = new TreeSet<>();
    for (Zone zone : zones) {
      double[] parts = zone.area().inside(from.x, from.y, to.x, to.y);
      zoneParts.add(parts);
      for (double part : parts) {
        cuts.add(part);
      }
    }
    double[] share = merge(lattice, cuts);
    int n = share.length;
    double[] z = new double[n];
    double[] x = new double[n];
    double[] y = new double[n];
    double[] s = new double[n];
    double length = from.distance(to);
    for (int i = 0; i < n; i++) {
      x[i] = from.x + share[i] * (to.x - from.x);
      y[i] = from.y + share[i] * (to.y - from.y);
      s[i] = share[i] * length;
      z[i] = at(x[i], y[i]);
      if (Double.isNaN(z[i])) {
        return null;
      }
    }
    double[][] band = band(from, to, lattice, share, z);
    double[] ceiling = new double[n];
    Arrays.fill(ceiling, Double.POSITIVE_INFINITY);
    double[] floor = new double[n];
    Arrays.fill(floor, Double.NEGATIVE_INFINITY);
    Station.Span[] span = new Station.Span[n - 1];
    Arrays.fill(span, Station.Span.OPEN);
    for (int k = 0; k < zones.size(); k++) {
      apply(zones.get(k), zoneParts.get(k), share, band, ceiling, floor, span);
    }
    boolean[] vertex = new boolean[n];
    vertex[0] = true;
    vertex[n - 1] = true;
    return new GroundLine(
        s, x, y, z, band[0], band[1], ceiling, floor, span, vertex, new boolean[n]);
  }

  private static double[] merge(double[] lattice, Set<Double> cuts) {
    double[] all = Arrays.copyOf(lattice, lattice.length + cuts.size());
    int n = lattice.length;
    for (double cut : cuts) {
      all[n++] = cut;
    }
    Arrays.sort(all);
    int m = 1;
    for (int i = 1; i < n; i++) {
      if (all[i] - all[m - 1] > 1e-9) {
        all[m++] = all[i];
      }
    }
    all[m - 1] = 1;
    return Arrays.copyOf(all, m);
  }

  /** The ground less and plus the bow of the parabolas on either side of each place. */
  private double[][] band(
      Coordinate from, Coordinate to, double[] lattice, double[] share, double[] z) {
    double[] low = z.clone();
    double[] high = z.clone();
    for (int p = 0; p + 2 < lattice.length; p += 2) {
      double bend =
          at(from, to, lattice[p])
              - 2 * at(from, to, lattice[p + 1])
              + at(from, to, lattice[p + 2]);
      double bow = Math.abs(bend) / 8;
      for (int i = 0; i < share.length; i++) {
        if (share[i] > lattice[p] - 1e-9 && share[i] < lattice[p + 2] + 1e-9) {
          if (bend > 0) {
            low[i] = Math.min(low[i], z[i] - bow);
          } else {
            high[i] = Math.max(high[i], z[i] + bow);
          }
        }
      }
    }
    return new double[][] {low, high};
  }

  private double at(Coordinate from, Coordinate to, double share) {
    return at(from.x + share * (to.x - from.x), from.y + share * (to.y - from.y));
  }

  /**
   * Bilinear ground. A place on a line of cell centres up to rounding counts as on it, so that an
   * unknown cell beside the line does not matter.
   */
  private double at(double x, double y) {
    GridFrame f = grid.frame();
    if (f.index(x, y) < 0) {
      return Double.NaN;
    }
    double u = onLine(Math.max(0, Math.min(f.cols() - 1, (x - f.westM()) / f.cellM() - 0.5)));
    double v = onLine(Math.max(0, Math.min(f.rows() - 1, (f.northM() - y) / f.cellM() - 0.5)));
    int col = (int) u;
    int row = (int) v;
    double sum = 0;
    for (int corner = 0; corner < 4; corner++) {
      int right = corner % 2;
      int down = corner / 2;
      double weight = (right == 0 ? 1 - u + col : u - col) * (down == 0 ? 1 - v + row : v - row);
      if (weight > 0) {
        sum += weight * grid.at(col + right, row + down);
      }
    }
    return sum;
  }

  private static double onLine(double lattice) {
    double near = Math.rint(lattice);
    return Math.abs(lattice - near) < 1e-9 ? near : lattice;
  }

  private static void apply(
      Zone zone,
      double[] parts,
      double[] share,
      double[][] band,
      double[] ceiling,
      double[] floor,
      Station.Span[] span) {
    for (int p = 0; p < parts.length; p += 2) {
      for (int i = 0; i < share.length; i++) {
        if (share[i] > parts[p] - 1e-9 && share[i] < parts[p + 1] + 1e-9) {
          ceiling[i] = Math.min(ceiling[i], zone.ceilingUnder(band[0][i]));
          floor[i] = Math.max(floor[i], band[1][i] - zone.deepestM());
        }
      }
      for (int i = 0; i < span.length; i++) {
        double middle = (share[i] + share[i + 1]) / 2;
        boolean within = middle > parts[p] && middle < parts[p + 1];
        if (within && span[i] != Station.Span.BORED && zone.span() != Station.Span.OPEN) {
          span[i] = zone.span();
        }
      }
    }
  }
}
