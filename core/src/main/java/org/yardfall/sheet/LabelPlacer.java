package org.yardfall.sheet;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/**
 * Puts labels where they cover neither each other nor what is kept free, the first come first
 * served; a label without room is left out.
 *
 * <p>The places tried round a point, best first, are those of map lettering (Imhof, "Positioning
 * Names on Maps", The American Cartographer 2(2), 1975; order from memory), at growing distances; a
 * label far off gets a leader line.
 */
final class LabelPlacer {

  private static final double[][] PLACES = {
    {1, -1}, {1, 1}, {-1, -1}, {-1, 1}, {1, 0}, {-1, 0}, {0, -1}, {0, 1}
  };

  private static final double[] DISTANCES = {4, 10, 18, 30, 44, 60};
  private static final double LEADER_FROM = 10;
  private static final double LINE_SPACING = 1.12;

  private final Graphics2D g;
  private final Rectangle2D room;
  private final List<Rectangle2D> taken = new ArrayList<>();
  private final List<Rectangle2D> labels = new ArrayList<>();

  /**
   * A placer of labels.
   *
   * @param g where to draw
   * @param room where labels may stand, in points
   */
  LabelPlacer(Graphics2D g, Rectangle2D room) {
    this.g = g;
    this.room = room;
  }

  /** Keeps a place free of labels. */
  void keepFree(Rectangle2D box) {
    taken.add(box);
  }

  /** Keeps the surroundings of a line free of labels. */
  void keepFree(Line2D line, double halfWidth) {
    double length = line.getP1().distance(line.getP2());
    int steps = (int) Math.max(1, Math.ceil(length / (2 * halfWidth)));
    for (int i = 0; i <= steps; i++) {
      double share = (double) i / steps;
      double x = line.getX1() + share * (line.getX2() - line.getX1());
      double y = line.getY1() + share * (line.getY2() - line.getY1());
      taken.add(new Rectangle2D.Double(x - halfWidth, y - halfWidth, 2 * halfWidth, 2 * halfWidth));
    }
  }

  /**
   * Draws a label of one or more lines beside a point.
   *
   * @return whether there was room
   */
  boolean beside(double x, double y, double size, Color colour, String... lines) {
    double width = width(size, lines);
    double height = height(size, lines);
    for (double distance : DISTANCES) {
      for (double[] place : PLACES) {
        double reach = place[0] == 0 || place[1] == 0 ? distance : distance * 0.7;
        double left = x + place[0] * reach + (place[0] - 1) / 2 * width;
        double top = y + place[1] * reach + (place[1] - 1) / 2 * height;
        Rectangle2D box = new Rectangle2D.Double(left, top, width, height);
        if (isFree(box)) {
          if (distance > LEADER_FROM) {
            leader(x, y, box, colour);
          }
          write(box, size, colour, lines);
          return true;
        }
      }
    }
    return false;
  }

  /** Draws a label in the middle of a point, or not at all. */
  boolean centred(double x, double y, double size, Color colour, String... lines) {
    double width = width(size, lines);
    double height = height(size, lines);
    Rectangle2D box = new Rectangle2D.Double(x - width / 2, y - height / 2, width, height);
    if (!isFree(box)) {
      return false;
    }
    write(box, size, colour, lines);
    return true;
  }

  /** Where labels stand, in the order in which they came. */
  List<Rectangle2D> labels() {
    return List.copyOf(labels);
  }

  private boolean isFree(Rectangle2D box) {
    return room.contains(box) && taken.stream().noneMatch(other -> other.intersects(box));
  }

  private void leader(double x, double y, Rectangle2D box, Color colour) {
    double toX = Math.max(box.getMinX(), Math.min(x, box.getMaxX()));
    double toY = Math.max(box.getMinY(), Math.min(y, box.getMaxY()));
    g.setColor(colour);
    g.setStroke(Ink.pen(0.35));
    g.draw(new Line2D.Double(x, y, toX, toY));
  }

  private void write(Rectangle2D box, double size, Color colour, String... lines) {
    taken.add(box);
    labels.add(box);
    g.setColor(Ink.faded(Ink.PAPER, 0.8));
    g.fill(box);
    g.setColor(colour);
    double y = box.getMinY() + size * 0.92;
    for (String line : lines) {
      SheetFont.draw(g, line, size, box.getMinX() + 1, y);
      y += size * LINE_SPACING;
    }
  }

  private static double width(double size, String... lines) {
    double width = 0;
    for (String line : lines) {
      width = Math.max(width, SheetFont.width(line, size));
    }
    return width + 2;
  }

  private static double height(double size, String... lines) {
    return size * LINE_SPACING * lines.length + 0.1 * size;
  }
}
