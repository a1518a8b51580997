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

  private static final int HALVINGS = 16;

  private final Rectangle2D frame;
  private final int columns;
  private final List<Row> panels = new ArrayList<>();
  private final List<Item> items = new ArrayList<>();
  private List<List<Placed>> pages = List.of();
  private Row heading;

  /** A page's frame in points, within which everything stands. */
  SheetFlow(Rectangle2D frame) {
    this.frame = frame;
    this.columns = (int) Math.max(1, (frame.getWidth() + GAP) / (LEAST_COLUMN + GAP));
  }

  /** Draws a row with its upper left corner at a point. */
  interface Drawer {
    void draw(Graphics2D g, double x, double y);
  }

  private record Row(double height, Drawer drawer) {}

  /**
   * A row in a column.
   *
   * @param heading what stands before it and never without it, or null
   * @param head a table's head, which is said again where a column begins with the row, or null
   */
  private record Item(Row row, Row heading, Row head) {}

  private record Placed(Row row, double x, double y) {}

  int pages() {
    layOut();
    return pages.size();
  }

  void draw(int page, Graphics2D g) {
    layOut();
    pages.get(page).forEach(placed -> placed.row().drawer().draw(g, placed.x(), placed.y()));
  }

  /** Adds something as wide as the page; all of it comes before anything in columns. */
  void across(double height, Drawer drawer) {
    panels.add(new Row(height, drawer));
    pages = List.of();
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

  private void add(Row row, Row head) {
    items.add(new Item(row, heading, head));
    heading = null;
    pages = List.of();
  }

  /** Places everything; the columns of the last page end about as low as each other. */
  private void layOut() {
    if (!pages.isEmpty()) {
      return;
    }
    pages = new ArrayList<>();
    List<Placed> page = newPage();
    double y = frame.getMinY();
    for (Row panel : panels) {
      if (y + panel.height() > frame.getMaxY() && y > frame.getMinY()) {
        page = newPage();
        y = frame.getMinY();
      }
      page.add(new Placed(panel, frame.getMinX(), y));
      y += panel.height() + PAD;
    }
    int next = 0;
    while (next < items.size()) {
      int end = fill(next, y, frame.getMaxY(), new ArrayList<>());
      fill(next, y, end < items.size() ? frame.getMaxY() : leastBottom(next, y), page);
      next = end;
      if (next < items.size()) {
        page = newPage();
        y = frame.getMinY();
      }
    }
  }

  private List<Placed> newPage() {
    List<Placed> page = new ArrayList<>();
    pages.add(page);
    return page;
  }

  /** The highest foot of the columns from a top on with which all the rest fits on the page. */
  private double leastBottom(int first, double top) {
    double low = top;
    double high = frame.getMaxY();
    for (int i = 0; i < HALVINGS; i++) {
      double middle = (low + high) / 2;
      if (fill(first, top, middle, new ArrayList<>()) == items.size()) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return high;
  }

  /**
   * Fills a page's columns with rows.
   *
   * @param first the first row to place
   * @param top where the columns begin
   * @param bottom where they end at the lowest
   * @param page where to
   * @return the first row that has no room any more
   */
  private int fill(int first, double top, double bottom, List<Placed> page) {
    int column = 0;
    double y = top;
    for (int i = first; i < items.size(); i++) {
      Item item = items.get(i);
      Row before = item.heading() == null && y == top ? item.head() : item.heading();
      double needed = item.row().height() + (before == null ? 0 : before.height());
      // What is higher than a whole column overflows it, alone.
      boolean tooHigh = y == top && top == frame.getMinY() && bottom == frame.getMaxY();
      if (y + needed > bottom && !tooHigh) {
        column++;
        y = top;
        if (column == columns) {
          return i;
        }
        i--;
        continue;
      }
      double x = frame.getMinX() + column * (columnWidth() + GAP);
      if (before != null) {
        page.add(new Placed(before, x, y));
        y += before.height();
      }
      page.add(new Placed(item.row(), x, y));
      y += item.row().height();
    }
    return items.size();
  }

  private double columnWidth() {
    return (frame.getWidth() - (columns - 1) * GAP) / columns;
  }
}
