package org.yardfall.sheet;

import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.Locale;
import org.yardfall.site.UnitSystem;

/** What stands beside every plan: the bar scale and the north arrow. */
final class MapFurniture {

  private static final double[] ROUND = {1, 2, 5};
  private static final int PARTS = 4;
  private static final double SIZE = 6.5;

  private MapFurniture() {}

  /**
   * Draws a bar scale.
   *
   * @param x left end in points
   * @param y foot of the bar in points
   * @param most greatest length in points
   * @return its width in points, label included
   */
  static double barScale(
      Graphics2D g, double x, double y, double pointsPerM, UnitSystem units, double most) {
    double perUnit = pointsPerM * units.metresPerLengthUnit();
    double part = 1;
    for (double power = 1; power <= 1e4; power *= 10) {
      for (double round : ROUND) {
        if (round * power * PARTS * perUnit <= most) {
          part = round * power;
        }
      }
    }
    double width = part * perUnit;
    g.setStroke(Ink.pen(0.5));
    g.setFont(SheetFont.of(SIZE));
    for (int i = 0; i < PARTS; i++) {
      Rectangle2D box = new Rectangle2D.Double(x + i * width, y - 4, width, 4);
      g.setColor(i % 2 == 0 ? Ink.BLACK : Ink.PAPER);
      g.fill(box);
      g.setColor(Ink.BLACK);
      g.draw(box);
    }
    for (int i = 0; i <= PARTS; i += 2) {
      String text = String.format(Locale.ROOT, "%.0f", i * part);
      if (i == PARTS) {
        text += " " + units.lengthUnit();
      }
      g.drawString(
          text,
          (float) (x + i * width - (i == 0 ? 0 : SheetFont.width(text, SIZE) / 2)),
          (float) (y - 6));
    }
    return PARTS * width + 12;
  }

  /** Draws an arrow to grid north round a point. */
  static void north(Graphics2D g, double x, double y, double half) {
    Path2D arrow = new Path2D.Double();
    arrow.moveTo(x, y - half);
    arrow.lineTo(x + half * 0.45, y + half * 0.6);
    arrow.lineTo(x, y + half * 0.3);
    arrow.closePath();
    g.setColor(Ink.BLACK);
    g.fill(arrow);
    Path2D west = new Path2D.Double();
    west.moveTo(x, y - half);
    west.lineTo(x - half * 0.45, y + half * 0.6);
    west.lineTo(x, y + half * 0.3);
    west.closePath();
    g.setStroke(Ink.pen(0.6));
    g.draw(west);
    g.draw(new Line2D.Double(x, y + half * 0.3, x, y + half));
    g.setFont(SheetFont.of(7));
    g.drawString("N", (float) (x + half * 0.5), (float) (y - half * 0.4));
  }
}
