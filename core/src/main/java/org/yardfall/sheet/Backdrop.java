package org.yardfall.sheet;

import java.awt.image.BufferedImage;
import java.util.function.DoubleBinaryOperator;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.layer.Result;
import org.yardfall.water.StandingWater;

/**
 * A picture that lies on the working plane, north up.
 *
 * @param image the picture
 * @param ground the ground it covers, to the outer edges of its pixels, in metres
 */
record Backdrop(BufferedImage image, Envelope ground) {

  /** The relief of an unevenness of 5 % is to be seen on a yard: heights count fivefold. */
  private static final double EMPHASIS = 5;

  /**
   * Relief under a light from the north-west, 45° high, by the slopes of Horn (Proceedings of the
   * IEEE 69(1), 1981), a light grey where the ground is level and white where it is unknown.
   *
   * @param window the ground wanted in metres
   * @param mostPixels greatest width or height
   */
  static Backdrop hillshade(ElevationGrid grid, Envelope window, int mostPixels) {
    Envelope ground = window.intersection(grid.frame().envelope());
    double cell = grid.frame().cellM();
    double pixel = Math.max(cell, Math.max(ground.getWidth(), ground.getHeight()) / mostPixels);
    return draw(
        ground,
        pixel,
        BufferedImage.TYPE_BYTE_GRAY,
        (x, y) -> {
          double shade = shade(grid, x, y, Math.max(cell, pixel));
          int grey = Double.isNaN(shade) ? 255 : (int) Math.round(Math.min(255, 90 + 190 * shade));
          return grey << 16 | grey << 8 | grey;
        });
  }

  /** The water left standing, by classes of depth, clear where the ground is dry. */
  static Backdrop depths(
      Result result, StandingWater standing, DepthClasses classes, int mostPixels) {
    Envelope ground = new Envelope();
    standing.ponds().forEach(pond -> ground.expandToInclude(pond.outline().getEnvelopeInternal()));
    GridFrame frame = result.terrain().ground().frame();
    double pixel =
        Math.max(frame.cellM(), Math.max(ground.getWidth(), ground.getHeight()) / mostPixels);
    return draw(
        ground,
        pixel,
        BufferedImage.TYPE_INT_ARGB,
        new StandingDepths(result, standing, classes)::colourAt);
  }

  private static Backdrop draw(
      Envelope ground, double pixel, int type, DoubleBinaryOperator colour) {
    int width = Math.max(1, (int) Math.round(ground.getWidth() / pixel));
    int height = Math.max(1, (int) Math.round(ground.getHeight() / pixel));
    BufferedImage image = new BufferedImage(width, height, type);
    for (int row = 0; row < height; row++) {
      double y = ground.getMaxY() - (row + 0.5) * ground.getHeight() / height;
      for (int col = 0; col < width; col++) {
        double x = ground.getMinX() + (col + 0.5) * ground.getWidth() / width;
        int rgb = (int) (long) colour.applyAsDouble(x, y);
        if (type == BufferedImage.TYPE_BYTE_GRAY) {
          image.getRaster().setSample(col, row, 0, rgb & 0xFF);
        } else {
          image.setRGB(col, row, rgb);
        }
      }
    }
    return new Backdrop(image, ground);
  }

  private static double shade(ElevationGrid grid, double x, double y, double d) {
    double northWest = grid.bilinear(x - d, y + d);
    double northEast = grid.bilinear(x + d, y + d);
    double southWest = grid.bilinear(x - d, y - d);
    double southEast = grid.bilinear(x + d, y - d);
    double west = mean(southWest, grid.bilinear(x - d, y), northWest);
    double east = mean(southEast, grid.bilinear(x + d, y), northEast);
    double north = mean(northWest, grid.bilinear(x, y + d), northEast);
    double south = mean(southWest, grid.bilinear(x, y - d), southEast);
    double dx = EMPHASIS * (east - west) / (2 * d);
    double dy = EMPHASIS * (north - south) / (2 * d);
    // The light comes from (−1, 1, √2) / 2.
    return Math.max(0, (dx - dy + Math.sqrt(2)) / 2 / Math.sqrt(1 + dx * dx + dy * dy));
  }

  /** Horn's weights of a side: the middle counts twice. */
  private static double mean(double corner, double middle, double other) {
    return (corner + 2 * middle + other) / 4;
  }
}
