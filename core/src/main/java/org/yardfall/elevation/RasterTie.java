package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * How shots stand off a raster: the median offset (the raster's datum against the job's bench
 * mark), the spread about it as the normalised median absolute deviation (1.4826 × MAD, as robust
 * vertical accuracy is stated: Höhle & Höhle 2009, ISPRS J. 64), the tilt, and the shots that stand
 * out of it.
 */
final class RasterTie {

  private static final double MAD_TO_SIGMA = 1.4826;
  private static final double OUTLYING = 3;
  private static final double LEAST_OUTLYING_M = 0.10;

  private final List<ShotResidual> used = new ArrayList<>();
  private final List<ShotResidual> outliers = new ArrayList<>();
  private final double offsetM;
  private final double spreadM;
  private final PlaneFit tilt = new PlaneFit();

  private RasterTie(List<ShotResidual> residuals) {
    double[] off = residuals.stream().mapToDouble(ShotResidual::offM).toArray();
    offsetM = median(off);
    spreadM = MAD_TO_SIGMA * median(Arrays.stream(off).map(d -> Math.abs(d - offsetM)).toArray());
    double limit = Math.max(LEAST_OUTLYING_M, OUTLYING * spreadM);
    double midX = residuals.stream().mapToDouble(r -> r.shot().x()).average().orElse(0);
    double midY = residuals.stream().mapToDouble(r -> r.shot().y()).average().orElse(0);
    for (ShotResidual residual : residuals) {
      if (Math.abs(residual.offM() - offsetM) > limit) {
        outliers.add(residual);
      } else {
        used.add(residual);
        tilt.add(1, residual.shot().x() - midX, residual.shot().y() - midY, residual.offM());
      }
    }
  }

  /** The tie of shots to a grid; at least one shot must lie on it. */
  static RasterTie of(List<Shot> shots, ElevationGrid grid) {
    return new RasterTie(
        shots.stream()
            .map(shot -> new ShotResidual(shot, shot.z() - grid.bilinear(shot.x(), shot.y())))
            .filter(residual -> !Double.isNaN(residual.offM()))
            .toList());
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int n = sorted.length;
    return n == 0 ? Double.NaN : (sorted[(n - 1) / 2] + sorted[n / 2]) / 2;
  }

  /** Shots that lie on the raster and agree with each other. */
  List<ShotResidual> used() {
    return used;
  }

  /** Shots that stand out. */
  List<ShotResidual> outliers() {
    return outliers;
  }

  /** Median of shot less raster in metres. */
  double offsetM() {
    return offsetM;
  }

  /** Robust standard deviation about the median in metres. */
  double spreadM() {
    return spreadM;
  }

  /** Rise of shot less raster toward the east, in m/m. */
  double tiltEast() {
    return tilt.slopeX();
  }

  /** Rise of shot less raster toward the north, in m/m. */
  double tiltNorth() {
    return tilt.slopeY();
  }

  /** In a line for a person. */
  String line() {
    return String.format(
        Locale.ROOT,
        "%d shots stand %.3f m %s the raster (median), spread %.3f m, tilt %+.2f mm/m to the east"
            + " and %+.2f mm/m to the north%s",
        used.size() + outliers.size(),
        Math.abs(offsetM),
        offsetM < 0 ? "below" : "above",
        spreadM,
        1000 * tiltEast(),
        1000 * tiltNorth(),
        outliers.isEmpty()
            ? ""
            : "; outliers: "
                + PointNumbers.list(
                    outliers.stream()
                        .map(
                            r ->
                                String.format(Locale.ROOT, "%s (%+.2f m)", r.shot().id(), r.offM()))
                        .toList()));
  }

  /**
   * The grid moved by the median offset and bent to the shots that agree, which fades out with
   * distance: between shots by inverse distances within the radius (the weights of Franke & Nielson
   * 1980, Int. J. Numer. Methods Eng. 15), times how near the nearest is.
   *
   * @param radiusM where a shot's say ends, in metres
   */
  ElevationGrid correct(ElevationGrid grid, double radiusM) {
    GridFrame frame = grid.frame();
    float[] weights = new float[frame.size()];
    float[] weighted = new float[frame.size()];
    float[] nearest = new float[frame.size()];
    Arrays.fill(nearest, (float) radiusM);
    for (ShotResidual residual : used) {
      double x = residual.shot().x();
      double y = residual.shot().y();
      int firstRow = Math.max(0, frame.row(y + radiusM));
      int lastRow = Math.min(frame.rows() - 1, frame.row(y - radiusM));
      int firstCol = Math.max(0, frame.col(x - radiusM));
      int lastCol = Math.min(frame.cols() - 1, frame.col(x + radiusM));
      for (int row = firstRow; row <= lastRow; row++) {
        for (int col = firstCol; col <= lastCol; col++) {
          double d = Math.max(1e-3, Math.hypot(frame.x(col) - x, frame.y(row) - y));
          if (d < radiusM) {
            int cell = row * frame.cols() + col;
            double w = (radiusM - d) / (radiusM * d);
            weights[cell] += (float) (w * w);
            weighted[cell] += (float) (w * w * (residual.offM() - offsetM));
            nearest[cell] = (float) Math.min(nearest[cell], d);
          }
        }
      }
    }
    float[] z = grid.z().clone();
    for (int cell = 0; cell < z.length; cell++) {
      double bend =
          weights[cell] > 0 ? weighted[cell] / weights[cell] * (1 - nearest[cell] / radiusM) : 0;
      z[cell] += (float) (offsetM + bend);
    }
    return new ElevationGrid(frame, z);
  }
}
