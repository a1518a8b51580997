package org.yardfall.sheet;

import java.awt.AlphaComposite;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.layer.Result;
import org.yardfall.site.UnitSystem;

/**
 * The plan as one picture, small enough for a message: the lot with what the water does and the
 * first route, on the site's orthophoto where there is one, else on shaded relief. The same result
 * gives the same bytes.
 */
public final class MapPicture {

  private static final double LONG_SIDE = 720;
  private static final double PIXELS_PER_POINT = 2;
  private static final double FOOT = 30;
  private static final double MARGIN_SHARE = 0.06;
  private static final double RELIEF = 0.45;

  private MapPicture() {}

  /**
   * Writes the picture as PNG.
   *
   * @throws IOException if the file cannot be written
   */
  public static void png(Result result, UnitSystem units, Path file) throws IOException {
    Pictures.writePng(image(result, units, LONG_SIDE), file);
  }

  /** The picture with its longer side of so many points, at two pixels a point. */
  static BufferedImage image(Result result, UnitSystem units, double longSide) {
    Envelope ground = SiteExtent.of(result);
    ground.expandBy(MARGIN_SHARE * Math.max(ground.getWidth(), ground.getHeight()));
    double scale = longSide / Math.max(ground.getWidth(), ground.getHeight());
    Rectangle2D frame =
        new Rectangle2D.Double(0, 0, ground.getWidth() * scale, ground.getHeight() * scale);
    MapView view = MapView.centred(ground, scale, frame);
    BufferedImage image =
        new BufferedImage(
            (int) Math.ceil(frame.getWidth() * PIXELS_PER_POINT),
            (int) Math.ceil((frame.getHeight() + FOOT) * PIXELS_PER_POINT),
            BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    ProfileChart.smooth(g);
    g.scale(PIXELS_PER_POINT, PIXELS_PER_POINT);
    g.setColor(Ink.PAPER);
    g.fill(new Rectangle2D.Double(0, 0, frame.getWidth() + 1, frame.getHeight() + FOOT + 1));
    if (!PhotoWash.paint(g, view, result, image.getWidth())) {
      relief(g, view, result);
    }
    DrawnContours contours = DrawnContours.of(result.terrain().ground(), view.ground(), units);
    MapPainter.paint(
        g,
        view,
        result,
        units,
        contours,
        result.routes().isEmpty() ? null : result.routes().get(0));
    foot(g, result, units, view);
    g.dispose();
    return image;
  }

  private static void relief(Graphics2D g, MapView view, Result result) {
    Graphics2D faint = (Graphics2D) g.create();
    faint.setComposite(AlphaComposite.getInstance(AlphaComposite.SRC_OVER, (float) RELIEF));
    PhotoWash.place(
        faint, view, Backdrop.hillshade(result.terrain().ground(), view.ground(), 1000));
    faint.dispose();
  }

  private static void foot(Graphics2D g, Result result, UnitSystem units, MapView view) {
    double y = view.frame().getMaxY();
    double width = MapFurniture.barScale(g, 8, y + 17, view.pointsPerM(), units, 130);
    MapFurniture.north(g, 8 + width + 22, y + 15, 11);
    g.setColor(Ink.BLACK);
    float left = (float) (8 + width + 44);
    SheetFont.draw(g, SheetFont.drawable(result.site().name(), 60), 8, left, y + 12);
    g.setColor(Ink.DIM);
    g.setFont(SheetFont.of(7));
    g.drawString(PlanNotes.DRAFT, left, (float) (y + 23));
  }
}
