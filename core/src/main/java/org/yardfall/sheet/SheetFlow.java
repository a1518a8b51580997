package org.yardfall.sheet;

import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/**
 * Lays rows of text, tables and panels out over pages: panels across the page, then the rest in
 * columns. A heading stays with what follows.
 */
final class SheetFlow {

  static final double GAP = 18;
  private static final double HEAD = 9.5;
  private static final double BODY = 7.2;
  private static final double LEAST_COLUMN = 340;
  private static final double PAD = 4;

  private final Rectangle2D frame;
  private final List<List<Placed>> pages = new ArrayList<>();
  private final int columns;
  private double columnTop;
  private int column;
  private double y;
  private Row heading;

  /** A page's frame in points, within which everything stands. */
  SheetFlow(Rectangle2D frame) {
    this.frame = frame;
    this.columns = (int) Math.max(1, (frame.getWidth() + GAP) / (LEAST_COLUMN + GAP));
    page();
  }

  /** Draws a row with its upper left corner at a point. */
  interface Drawer {
    void draw(Graphics2D g, double x, double y);
  }

  private record Row(double height, Drawer drawer) {}

  private record Placed(Row row, double x, double y) {}

  int pages() {
    return pages.size();
  }

  void draw(int page, Graphics2D g) {
    pages.get(page).forEach(placed -> placed.row().drawer().draw(g, placed.x(), placed.y()));
  }

  /** Adds something as wide as the page; only before anything in columns. */
  void across(double height, Drawer drawer) {
    if (y + height > frame.getMaxY() && y > frame.getMinY()) {
      page();
    }
    pages.get(pages.size() - 1).add(new Placed(new Row(height, drawer), frame.getMinX(), y));
    y += height + PAD;
    columnTop = y;
  }

  void heading(String text) {
    heading =
        new Row(
            HEAD * 2,
            (g, x, top) -> {
              SheetText.draw(g, List.of(text), HEAD, Ink.BLACK, x, top + HEAD * 0.6);
              g.setStroke(Ink.pen(0.6));
              double line = top + HEAD * 1.85;
              g.draw(new Line2D.Double(x, line, x + columnWidth(), line));
            });
  }

  void paragraph(String text) {
    List<String> lines = SheetText.wrap(text, BODY, columnWidth() - 8);
    add(
        new Row(
            SheetText.height(lines.size(), BODY) + 2,
            (g, x, top) -> {
              SheetText.draw(g, List.of("–"), BODY, Ink.DIM, x, top);
              SheetText.draw(g, lines, BODY, Ink.BLACK, x + 8, top);
            }));
  }

  /** Adds a table whose columns share the width by the given weights. */
  void table(List<String> heads, double[] weights, List<List<String>> rows) {
    if (rows.isEmpty()) {
      paragraph("None.");
      return;
    }
    Row head = tableRow(heads, weights, true);
    Row title = heading;
    heading =
        title == null
            ? head
            : new Row(
                title.height() + head.height(),
                (g, x, top) -> {
                  title.drawer().draw(g, x, top);
                  head.drawer().draw(g, x, top + title.height());
                });
    rows.forEach(row -> add(tableRow(row, weights, false), head));
  }

  private Row tableRow(List<String> cells, double[] weights, boolean head) {
    double total = java.util.Arrays.stream(weights).sum();
    List<List<String>> texts = new ArrayList<>();
    int most = 1;
    for (int i = 0; i < cells.size(); i++) {
      double width = columnWidth() * weights[i] / total - PAD;
      texts.add(SheetText.wrap(cells.get(i), BODY, width));
      most = Math.max(most, texts.get(i).size());
    }
    double height = SheetText.height(most, BODY) + 2.5;
    return new Row(
        height,
        (g, x, top) -> {
          double left = x;
          for (int i = 0; i < texts.size(); i++) {
            SheetText.draw(g, texts.get(i), BODY, head ? Ink.DIM : Ink.BLACK, left, top + 1);
            left += columnWidth() * weights[i] / total;
          }
          g.setColor(Ink.FAINT);
          g.setStroke(Ink.pen(0.4));
          g.draw(new Line2D.Double(x, top + height, x + columnWidth(), top + height));
        });
  }

  private void add(Row row) {
    add(row, null);
  }

  /** Adds a row; where a new column begins, the table's head, if any, is said again. */
  private void add(Row row, Row head) {
    double needed = row.height() + (heading == null ? 0 : heading.height());
    if (y + needed > frame.getMaxY()) {
      column++;
      y = columnTop;
      if (column == columns || y + needed > frame.getMaxY()) {
        page();
      }
      heading = heading == null ? head : heading;
    }
    if (heading != null) {
      put(heading);
      heading = null;
    }
    put(row);
  }

  private void put(Row row) {
    double x = frame.getMinX() + column * (columnWidth() + GAP);
    pages.get(pages.size() - 1).add(new Placed(row, x, y));
    y += row.height();
  }

  private double columnWidth() {
    return (frame.getWidth() - (columns - 1) * GAP) / columns;
  }

  private void page() {
    pages.add(new ArrayList<>());
    y = frame.getMinY();
    columnTop = y;
    column = 0;
  }
}
