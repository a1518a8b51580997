package org.yardfall.sheet;

import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.awt.image.RenderedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import org.geotools.api.geometry.Bounds;
import org.geotools.api.parameter.GeneralParameterValue;
import org.geotools.api.parameter.ParameterValue;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.operation.MathTransform;
import org.geotools.api.referencing.operation.TransformException;
import org.geotools.coverage.grid.GridCoverage2D;
import org.geotools.coverage.grid.GridEnvelope2D;
import org.geotools.coverage.grid.GridGeometry2D;
import org.geotools.coverage.grid.io.AbstractGridFormat;
import org.geotools.gce.geotiff.GeoTiffReader;
import org.geotools.geometry.jts.ReferencedEnvelope;
import org.geotools.util.factory.Hints;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.site.BadInputException;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;

/**
 * The user's orthophoto on the working plane: every pixel of the picture is carried to the photo's
 * own CRS and takes the colour of the photo's pixel there.
 */
final class Orthophoto {

  private static final int WHITE = 0xFFFFFF;

  private final Path file;
  private final Envelope window;
  private final int width;
  private final int height;

  private Orthophoto(Path file, Envelope window, int mostPixels) {
    this.file = file;
    this.window = window;
    double pixel = Math.max(window.getWidth(), window.getHeight()) / mostPixels;
    width = Math.max(1, (int) Math.round(window.getWidth() / pixel));
    height = Math.max(1, (int) Math.round(window.getHeight() / pixel));
  }

  /**
   * The photograph of a piece of ground, white where it does not reach; empty where there is none
   * or it does not reach here at all.
   *
   * @param file the photo, or null for none
   * @param plane the working CRS
   * @param window the ground wanted in metres of the working plane
   * @param mostPixels greatest width or height
   * @throws BadInputException if the file cannot be read as a GeoTIFF with a CRS
   */
  static Optional<Backdrop> of(Path file, WorkingCrs plane, Envelope window, int mostPixels) {
    return file == null || window.isNull()
        ? Optional.empty()
        : new Orthophoto(file, window, mostPixels).read(plane);
  }

  private Optional<Backdrop> read(WorkingCrs plane) {
    GeoTiffReader reader = null;
    try {
      reader =
          new GeoTiffReader(file.toFile(), new Hints(Hints.FORCE_LONGITUDE_FIRST_AXIS_ORDER, true));
      CoordinateReferenceSystem crs = reader.getCoordinateReferenceSystem();
      if (crs == null) {
        throw unreadable("names no CRS", null);
      }
      PlaneTransform transform = PlaneTransform.fromPlane(plane, crs);
      double[] centres = centres(transform);
      Envelope wanted = around(centres);
      Bounds held = reader.getOriginalEnvelope();
      Envelope has =
          new Envelope(
              held.getMinimum(0), held.getMaximum(0), held.getMinimum(1), held.getMaximum(1));
      if (!has.intersects(wanted)) {
        return Optional.empty();
      }
      GridCoverage2D part = read(reader, crs, wanted.intersection(has));
      return Optional.of(new Backdrop(sample(part, centres), window));
    } catch (IOException | TransformException | RuntimeException e) {
      if (e instanceof BadInputException told) {
        throw told;
      }
      throw unreadable("cannot be read as a GeoTIFF", e);
    } finally {
      if (reader != null) {
        reader.dispose();
      }
    }
  }

  /** The centres of the picture's pixels in the photo's CRS, row by row. */
  private double[] centres(PlaneTransform transform) {
    double[] xy = new double[2 * width * height];
    for (int row = 0; row < height; row++) {
      for (int col = 0; col < width; col++) {
        int i = 2 * (row * width + col);
        xy[i] = window.getMinX() + (col + 0.5) * window.getWidth() / width;
        xy[i + 1] = window.getMaxY() - (row + 0.5) * window.getHeight() / height;
      }
    }
    transform.apply(xy);
    return xy;
  }

  private static Envelope around(double[] xy) {
    Envelope all = new Envelope();
    for (int i = 0; i < xy.length; i += 2) {
      all.expandToInclude(xy[i], xy[i + 1]);
    }
    return all;
  }

  /** The photo's part at about the picture's fineness; overviews are used where it has some. */
  private GridCoverage2D read(GeoTiffReader reader, CoordinateReferenceSystem crs, Envelope part)
      throws IOException {
    ParameterValue<GridGeometry2D> wanted = AbstractGridFormat.READ_GRIDGEOMETRY2D.createValue();
    wanted.setValue(
        new GridGeometry2D(
            new GridEnvelope2D(0, 0, width, height), new ReferencedEnvelope(part, crs)));
    return reader.read(new GeneralParameterValue[] {wanted});
  }

  private BufferedImage sample(GridCoverage2D part, double[] centres) throws TransformException {
    RenderedImage photo = part.getRenderedImage();
    BufferedImage source =
        new BufferedImage(photo.getWidth(), photo.getHeight(), BufferedImage.TYPE_INT_RGB);
    Graphics2D g = source.createGraphics();
    g.drawRenderedImage(
        photo, AffineTransform.getTranslateInstance(-photo.getMinX(), -photo.getMinY()));
    g.dispose();
    MathTransform toPixel = part.getGridGeometry().getCRSToGrid2D();
    double[] at = Arrays.copyOf(centres, centres.length);
    toPixel.transform(at, 0, at, 0, at.length / 2);
    BufferedImage picture = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    for (int i = 0; i < width * height; i++) {
      // Whole numbers are the middles of pixels here.
      int col = (int) Math.floor(at[2 * i] + 0.5) - photo.getMinX();
      int row = (int) Math.floor(at[2 * i + 1] + 0.5) - photo.getMinY();
      boolean held = col >= 0 && row >= 0 && col < source.getWidth() && row < source.getHeight();
      picture.setRGB(i % width, i / width, held ? source.getRGB(col, row) : WHITE);
    }
    return picture;
  }

  private BadInputException unreadable(String what, Exception cause) {
    BadInputException refusal =
        new BadInputException(
            String.valueOf(file.getFileName()),
            what,
            "give an orthophoto as GeoTIFF with its CRS, or leave it out");
    if (cause != null) {
      refusal.initCause(cause);
    }
    return refusal;
  }
}
