package org.yardfall.sheet;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.util.Optional;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.layer.Result;

/** The site's orthophoto under a plan, so pale that lines and letters stand out from it. */
final class PhotoWash {

  /** Share of white that the photo is mixed with. */
  private static final double WHITE = 0.55;

  private static final int FULL = 0xFF;

  private PhotoWash() {}

  /**
   * Draws the photo into a view; whether there is one that reaches it.
   *
   * @param mostPixels greatest width or height of the picture
   * @throws org.yardfall.site.BadInputException if it cannot be read
   */
  static boolean paint(Graphics2D graphics, MapView view, Result result, int mostPixels) {
    Optional<Backdrop> photo =
        Orthophoto.of(
            result.site().inputs().ortho(), result.site().crs(), view.ground(), mostPixels);
    photo.ifPresent(
        picture -> place(graphics, view, new Backdrop(pale(picture.image()), picture.ground())));
    return photo.isPresent();
  }

  /** Draws a picture of the ground where it lies in a view. */
  static void place(Graphics2D graphics, MapView view, Backdrop picture) {
    Envelope ground = picture.ground();
    BufferedImage image = picture.image();
    Graphics2D g = (Graphics2D) graphics.create();
    g.clip(view.frame());
    g.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
    AffineTransform place =
        AffineTransform.getTranslateInstance(view.x(ground.getMinX()), view.y(ground.getMaxY()));
    place.scale(
        ground.getWidth() * view.pointsPerM() / image.getWidth(),
        ground.getHeight() * view.pointsPerM() / image.getHeight());
    g.drawImage(image, place, null);
    g.dispose();
  }

  private static BufferedImage pale(BufferedImage photo) {
    BufferedImage pale =
        new BufferedImage(photo.getWidth(), photo.getHeight(), BufferedImage.TYPE_INT_RGB);
    for (int y = 0; y < photo.getHeight(); y++) {
      for (int x = 0; x < photo.getWidth(); x++) {
        int rgb = photo.getRGB(x, y);
        pale.setRGB(x, y, pale(rgb >> 16) << 16 | pale(rgb >> 8) << 8 | pale(rgb));
      }
    }
    return pale;
  }

  private static int pale(int band) {
    return (int) Math.round(WHITE * FULL + (1 - WHITE) * (band & FULL));
  }
}
