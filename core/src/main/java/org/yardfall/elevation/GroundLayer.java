package org.yardfall.elevation;

import java.awt.Rectangle;
import java.awt.geom.AffineTransform;
import java.awt.geom.NoninvertibleTransformException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;

/** Rasters of one grid as they lie on the working plane. */
final class GroundLayer {

  private static final int EDGE_POINTS = 32;
  private static final double MOST_DEGREES = 20;
  private static final MathContext THREE_DIGITS = new MathContext(3, RoundingMode.HALF_EVEN);

  private final AlignedRasters rasters;
  private final WorkingCrs plane;
  private final boolean sameCrs;
  private final boolean exact;
  private final double cellM;
  private final Resampler.PlaneToCell planeToCell;
  private final Envelope extent;
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();

  GroundLayer(AlignedRasters rasters, WorkingCrs plane) {
    this.rasters = rasters;
    this.plane = plane;
    this.sameCrs = rasters.crs().is(plane) || coincides();
    this.exact = sameCrs && rasters.northUpSquare();
    AffineTransform cellToCrs = rasters.cellToCrs();
    AffineTransform crsToCell = inverse(cellToCrs);
    if (sameCrs) {
      double scale = 1 / plane.metresPerUnit();
      crsToCell.scale(scale, scale);
      AffineTransform cellToPlane =
          AffineTransform.getScaleInstance(plane.metresPerUnit(), plane.metresPerUnit());
      cellToPlane.concatenate(cellToCrs);
      planeToCell = xy -> crsToCell.transform(xy, 0, xy, 0, xy.length / 2);
      extent = extent(xy -> cellToPlane.transform(xy, 0, xy, 0, xy.length / 2));
      cellM =
          exact
              ? cellToCrs.getScaleX() * plane.metresPerUnit()
              : rounded(Math.sqrt(Math.abs(cellToPlane.getDeterminant())));
    } else {
      refuseContinents();
      PlaneTransform toCrs = PlaneTransform.fromPlane(plane, rasters.crs().definition());
      PlaneTransform toPlane = PlaneTransform.toPlane(rasters.crs().definition(), plane);
      planeToCell =
          xy -> {
            toCrs.apply(xy);
            crsToCell.transform(xy, 0, xy, 0, xy.length / 2);
          };
      Resampler.PlaneToCell cellToPlane =
          xy -> {
            cellToCrs.transform(xy, 0, xy, 0, xy.length / 2);
            toPlane.apply(xy);
          };
      extent = extent(cellToPlane);
      cellM = rounded(Math.sqrt(cellAreaM2(cellToPlane)));
      assumptions.add(
          new Assumption(
              "elevation.files",
              String.format(
                  Locale.ROOT,
                  "%s brought from %s to %s by bilinear interpolation on cells of %s m",
                  names(),
                  rasters.crs().name(),
                  plane.name(),
                  cellM),
              toCrs.operation()));
      toCrs.warning().ifPresent(warnings::add);
    }
    if (sameCrs && !exact) {
      assumptions.add(
          new Assumption(
              "elevation.files",
              String.format(
                  Locale.ROOT,
                  "%s has %s; brought by bilinear interpolation onto square cells of %s m",
                  names(),
                  rasters.header().northUp() ? "cells that are not square" : "turned rows",
                  cellM),
              "the file's georeferencing"));
    }
  }

  /**
   * Whether the rasters' coordinates are the working CRS's although their CRS is called otherwise.
   */
  private boolean coincides() {
    Rectangle cells = rasters.bounds();
    double[] corners = {
      cells.x, cells.y, (double) cells.x + cells.width, (double) cells.y + cells.height
    };
    rasters.cellToCrs().transform(corners, 0, corners, 0, 2);
    RasterCrs own = rasters.crs();
    Optional<PlaneTransform> transform = own.coincidesWith(plane, corners);
    if (transform.isPresent() && !own.sharesDatumName(plane)) {
      assumptions.add(
          new Assumption(
              "elevation.files",
              "coordinates in " + own.name() + " are taken for those in " + plane.name(),
              transform.get().operation()));
      transform.get().warning().ifPresent(warnings::add);
    }
    return transform.isPresent();
  }

  /** A projection made for one place has no values far away from it. */
  private void refuseContinents() {
    Rectangle cells = rasters.bounds();
    AffineTransform toCrs = rasters.cellToCrs();
    double degrees =
        Math.max(
            cells.width * Math.hypot(toCrs.getScaleX(), toCrs.getShearY()),
            cells.height * Math.hypot(toCrs.getScaleY(), toCrs.getShearX()));
    if (rasters.crs().geographic() && degrees > MOST_DEGREES) {
      throw new BadInputException(
          names(),
          String.format(Locale.ROOT, "it covers %.0f degrees", degrees),
          "cut it to the neighbourhood, for example with gdal_translate -projwin");
    }
  }

  private static AffineTransform inverse(AffineTransform cellToCrs) {
    try {
      return cellToCrs.createInverse();
    } catch (NoninvertibleTransformException e) {
      throw new IllegalStateException("cells without size get no header", e);
    }
  }

  private static double rounded(double metres) {
    return new BigDecimal(metres).round(THREE_DIGITS).doubleValue();
  }

  private Envelope extent(Resampler.PlaneToCell cellToPlane) {
    Rectangle cells = rasters.bounds();
    double[] edge = new double[8 * EDGE_POINTS];
    for (int i = 0; i < EDGE_POINTS; i++) {
      double dx = (double) cells.width * i / EDGE_POINTS;
      double dy = (double) cells.height * i / EDGE_POINTS;
      int at = 8 * i;
      edge[at] = cells.x + dx;
      edge[at + 1] = cells.y;
      edge[at + 2] = (double) cells.x + cells.width;
      edge[at + 3] = cells.y + dy;
      edge[at + 4] = cells.x + cells.width - dx;
      edge[at + 5] = (double) cells.y + cells.height;
      edge[at + 6] = cells.x;
      edge[at + 7] = cells.y + cells.height - dy;
    }
    cellToPlane.apply(edge);
    Envelope box = new Envelope();
    for (int i = 0; i < edge.length; i += 2) {
      box.expandToInclude(edge[i], edge[i + 1]);
    }
    return box;
  }

  private double cellAreaM2(Resampler.PlaneToCell cellToPlane) {
    double col = rasters.bounds().getCenterX();
    double row = rasters.bounds().getCenterY();
    double[] xy = {col, row, col + 1, row, col, row + 1};
    cellToPlane.apply(xy);
    return Math.abs((xy[2] - xy[0]) * (xy[5] - xy[1]) - (xy[4] - xy[0]) * (xy[3] - xy[1]));
  }

  private String names() {
    return String.join(", ", rasters.parts().stream().map(AlignedRasters.Part::name).toList());
  }

  AlignedRasters rasters() {
    return rasters;
  }

  /** Whether the cells are square and lie north-up in the working CRS: nothing is interpolated. */
  boolean exact() {
    return exact;
  }

  /** Whether the rasters' CRS is the working CRS. */
  boolean sameCrs() {
    return sameCrs;
  }

  /** Size in metres of the cells, or of the square cells of about the same area. */
  double cellM() {
    return cellM;
  }

  /** The ground covered on the working plane, in metres. */
  Envelope extent() {
    return extent;
  }

  List<Assumption> assumptions() {
    return assumptions;
  }

  List<String> warnings() {
    return warnings;
  }

  /** x of the grid's origin on the working plane, in metres. */
  double originX() {
    return exact ? plane.toMetres(rasters.cellToCrs().getTranslateX()) : 0;
  }

  /** y of the grid's origin on the working plane, in metres. */
  double originY() {
    return exact ? plane.toMetres(rasters.cellToCrs().getTranslateY()) : 0;
  }

  /** Elevations as stored, and the same on a frame's cells. */
  static final class Reading {
    private final float[] stored;
    private final int storedCols;
    private final float[] onFrame;

    private Reading(float[] stored, int storedCols, float[] onFrame) {
      this.stored = stored;
      this.storedCols = storedCols;
      this.onFrame = onFrame;
    }

    /** Elevations of the rasters' own cells, in metres; empty where the rasters do not reach. */
    float[] stored() {
      return stored;
    }

    /** Number of columns of the rasters' own cells. */
    int storedCols() {
      return storedCols;
    }

    /** Elevations of the frame's cells, in metres; empty where the rasters do not reach. */
    float[] onFrame() {
      return onFrame;
    }
  }

  /** Elevations of a frame's cells in metres; what was odd goes into {@code found}. */
  Reading read(GridFrame frame, Seams seams, Collection<String> found) {
    if (exact && Math.abs(frame.cellM() / cellM - 1) < 1e-9) {
      double[] corner = {frame.westM(), frame.northM()};
      planeToCell.apply(corner);
      long col = Math.round(corner[0]);
      long row = Math.round(corner[1]);
      if (Math.abs(corner[0] - col) < 0.01 && Math.abs(corner[1] - row) < 0.01) {
        Rectangle window = new Rectangle((int) col, (int) row, frame.cols(), frame.rows());
        float[] z = rasters.read(window, seams, found);
        return new Reading(z, frame.cols(), z);
      }
    }
    Resampler resampler = new Resampler(planeToCell, rasters.bounds());
    Rectangle window = resampler.window(frame);
    if (window.isEmpty()) {
      return new Reading(new float[0], 1, new float[0]);
    }
    float[] stored = rasters.read(window, seams, found);
    return new Reading(stored, window.width, resampler.resample(frame, window, stored));
  }
}
