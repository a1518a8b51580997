package org.yardfall.elevation;

import java.awt.Rectangle;
import java.awt.geom.AffineTransform;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;

/**
 * Rasters whose cells are those of one grid, read as one: same CRS, same cell size, corners that
 * coincide. Where several know a cell, the earlier one counts. Elevations are metres here.
 */
final class AlignedRasters {

  /** How far corners may lie apart and still coincide, as a share of a cell. */
  private static final double COINCIDE = 0.01;

  private final List<Part> parts = new ArrayList<>();
  private final RasterCrs crs;
  private final AffineTransform cellToCrs;
  private Rectangle bounds;

  private AlignedRasters(Part first) {
    crs = first.crs();
    cellToCrs = first.raster().header().cellToCrs();
    bounds = first.rectangle();
    parts.add(first);
  }

  /**
   * A raster in its place.
   *
   * @param raster the raster
   * @param crs its CRS
   * @param unit the unit of its elevations
   * @param col column of the common grid at which it begins; may be negative
   * @param row row of the common grid at which it begins; may be negative
   */
  record Part(RasterFile raster, RasterCrs crs, VerticalUnit unit, int col, int row) {

    Rectangle rectangle() {
      return new Rectangle(col, row, raster.header().cols(), raster.header().rows());
    }

    private Part at(int newCol, int newRow) {
      return new Part(raster, crs, unit, newCol, newRow);
    }

    String name() {
      return raster.header().file().toString();
    }
  }

  /** Puts rasters that share a grid together, in their order. */
  static List<AlignedRasters> group(List<Part> rasters) {
    List<AlignedRasters> groups = new ArrayList<>();
    for (Part part : rasters) {
      if (groups.stream().noneMatch(group -> group.add(part))) {
        groups.add(new AlignedRasters(part));
      }
    }
    return groups;
  }

  private boolean add(Part part) {
    AffineTransform other = part.raster().header().cellToCrs();
    if (!crs.is(part.crs())) {
      return false;
    }
    double[] corners = {0, 0, part.raster().header().cols(), part.raster().header().rows()};
    double[] here = new double[4];
    try {
      AffineTransform between = cellToCrs.createInverse();
      between.concatenate(other);
      between.transform(corners, 0, here, 0, 2);
    } catch (java.awt.geom.NoninvertibleTransformException e) {
      return false;
    }
    long col = Math.round(here[0]);
    long row = Math.round(here[1]);
    if (Math.abs(here[0] - col) > COINCIDE
        || Math.abs(here[1] - row) > COINCIDE
        || Math.abs(here[2] - col - corners[2]) > COINCIDE
        || Math.abs(here[3] - row - corners[3]) > COINCIDE
        || Math.abs(col) > 1 << 30
        || Math.abs(row) > 1 << 30) {
      return false;
    }
    Part placed = part.at((int) col, (int) row);
    parts.add(placed);
    bounds = bounds.union(placed.rectangle());
    return true;
  }

  /** The rasters, earlier ones first. */
  List<Part> parts() {
    return parts;
  }

  /** The first raster's header, for what is the same in all. */
  RasterHeader header() {
    return parts.get(0).raster().header();
  }

  RasterCrs crs() {
    return crs;
  }

  /** Columns and rows covered; may begin below 0. */
  Rectangle bounds() {
    return bounds;
  }

  /** From (column, row) of the common grid to coordinates of the CRS. */
  AffineTransform cellToCrs() {
    return new AffineTransform(cellToCrs);
  }

  /** Whether every cell is a whole number as stored. */
  boolean integer() {
    return parts.stream().allMatch(part -> part.raster().header().type().integer());
  }

  /** Whether cells are square and rows run from north to south. */
  boolean northUpSquare() {
    return header().northUp() && parts.stream().allMatch(part -> part.raster().header().square());
  }

  /**
   * Elevations in metres in a window, row by row, NaN where none is known.
   *
   * @param window columns and rows of the common grid; cells outside the rasters are NaN
   * @param seams looks at the differences between rasters that meet
   * @param found takes what was odd, in words
   */
  float[] read(Rectangle window, Seams seams, Collection<String> found) {
    float[] z = new float[Math.multiplyExact(window.width, window.height)];
    Arrays.fill(z, Float.NaN);
    boolean first = true;
    for (Part part : parts) {
      Rectangle shared = part.rectangle().intersection(window);
      if (shared.isEmpty()) {
        continue;
      }
      if (first) {
        readPart(part, shared, window, z, found);
      } else {
        float[] later = new float[z.length];
        Arrays.fill(later, Float.NaN);
        readPart(part, shared, window, later, found);
        seams.merge(z, later, window, shared, part.name());
      }
      first = false;
    }
    return z;
  }

  private static void readPart(
      Part part, Rectangle shared, Rectangle window, float[] z, Collection<String> found) {
    RasterHeader header = part.raster().header();
    double scale = header.scale();
    double offset = header.offset();
    double unitM = part.unit().metres();
    Voids voids = new Voids(header);
    Rectangle own =
        new Rectangle(shared.x - part.col(), shared.y - part.row(), shared.width, shared.height);
    part.raster()
        .read(
            own,
            (row, samples) -> {
              int to = (row + part.row() - window.y) * window.width + shared.x - window.x;
              for (int c = 0; c < shared.width; c++) {
                double stored = samples[c];
                z[to + c] =
                    voids.isVoid(stored) ? Float.NaN : (float) ((stored * scale + offset) * unitM);
              }
            });
    voids.warnings().forEach(warning -> found.add(part.name() + ": " + warning));
  }
}
