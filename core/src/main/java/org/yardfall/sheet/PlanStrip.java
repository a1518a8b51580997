package org.yardfall.sheet;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Stroke;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;
import org.yardfall.site.UnitSystem;
import org.yardfall.water.StandingWater;

/** The strip beside the plan: north, scale, legend and the title block with its blank fields. */
final class PlanStrip {

  static final double WIDTH = 172;
  private static final double PAD = 8;
  private static final double BODY = 6.8;
  private static final double FIELD = 25;
  private static final double LEGEND_ROW = 10.5;
  private static final double KEY = 24;

  private static final List<String> BLANK =
      List.of(
          "Boundary: surveyed by, date",
          "Utilities: located by, ticket, date",
          "Benchmark: what, where, elevation",
          "Checked by, date",
          "Stamp");

  private final Graphics2D g;
  private final Rectangle2D box;
  private final Result result;
  private final UnitSystem units;

  PlanStrip(Graphics2D g, Rectangle2D box, Result result, UnitSystem units) {
    this.g = g;
    this.box = box;
    this.result = result;
    this.units = units;
  }

  /**
   * Draws the strip.
   *
   * @param scale the plan's scale
   * @param contourStepM height between contours in metres
   * @param route the route shown, or null
   * @param sheet which sheet of how many, in words
   */
  void draw(SheetScale scale, String size, double contourStepM, Route route, String sheet) {
    double x = box.getMinX() + PAD;
    double y = box.getMinY() + 14;
    MapFurniture.north(g, x + 10, y + 10, 14);
    MapFurniture.barScale(
        g, x + 36, y + 18, scale.pointsPerM(), units, box.getWidth() - 36 - 3 * PAD);
    text("Scale " + scale.words() + " on " + size, BODY + 1, Ink.BLACK, x, y + 30);
    legend(x, y + 48, contourStepM, route);
    title(scale, size, route, sheet);
  }

  private void legend(double x, double top, double contourStepM, Route route) {
    double y = top;
    y = line(x, y, Ink.BLACK, Ink.dashes(1.6, 14, 3, 3, 3), "the lot");
    y = line(x, y, Ink.FAINT, Ink.pen(0.8), "neighbours' ground");
    y =
        line(
            x,
            y,
            Ink.CONTOUR,
            Ink.dashes(0.6, 4, 2),
            "existing contours, " + units.elevation(contourStepM));
    if (route != null) {
      double row = y;
      line(x, row, Ink.BLACK, Ink.pen(3.2), "");
      y =
          line(
              x,
              row,
              Ink.of(route.kind()),
              Ink.pen(2),
              route.id() + ", " + PageRoutes.words(route.kind()));
      double bored = y;
      line(x, bored, Ink.BLACK, Ink.pen(3.2), "");
      line(x, bored, Ink.of(route.kind()), Ink.pen(2), "");
      y = line(x, bored, Ink.PAPER, Ink.dashes(1.4, 3, 3), "bored under a slab");
    }
    if (result.routes().size() > 1) {
      Route other = result.routes().get(1);
      y = line(x, y, Ink.of(other.kind()), Ink.dashes(1.2, 6, 4), "other routes");
    }
    if (!result.plan().rejectedAsDrawn().isEmpty()) {
      y = line(x, y, Ink.BLACK, MapPainter.DRAWN, "drawn line that does not work");
    }
    y = line(x, y, Ink.of("standing"), Ink.pen(0.7), "path of surface water");
    y =
        area(
            x,
            y,
            Ink.faded(Ink.of("low_spots"), 0.12),
            Ink.of("low_spots"),
            Ink.dashes(0.7, 3, 2),
            "low spot");
    y = standing(x, y);
    y = area(x, y, new Color(0xBFBFBF), Ink.BLACK, Ink.pen(0.9), "building");
    y =
        area(
            x,
            y,
            Ink.faded(Ink.of("obstacles", "other"), 0.10),
            Ink.of("obstacles", "other"),
            Ink.dashes(0.5, 2, 2),
            "clearance of an obstacle");
    y = line(x, y, Ink.of("inflow", "in"), Ink.pen(3.5), "water in, wide by volume");
    y = line(x, y, Ink.of("inflow", "out"), Ink.pen(3.5), "water out, wide by volume");
    outlet(x + KEY / 2, y + 4);
    text("outlet", BODY, Ink.BLACK, x + KEY + 6, y + 0.5);
    y += LEGEND_ROW;
    g.setColor(Ink.GROUND);
    g.fill(new Ellipse2D.Double(x + KEY / 2 - 1, y + 3.5, 2, 2));
    text("ground level", BODY, Ink.BLACK, x + KEY + 6, y + 0.5);
  }

  /** The classes of depth that the water left standing has. */
  private double standing(double x, double top) {
    DepthClasses classes = new DepthClasses(units);
    double deepest =
        result.standing().map(StandingWater::ponds).orElse(List.of()).stream()
            .mapToDouble(StandingWater.Pond::depthM)
            .max()
            .orElse(Double.NaN);
    double y = top;
    for (int i = 0; !Double.isNaN(deepest) && i <= classes.of(deepest); i++) {
      y =
          area(
              x,
              y,
              Ink.faded(new Color(classes.rgb(i)), 0.75),
              Ink.of("standing"),
              Ink.pen(0.6),
              "water stands, " + classes.words(i));
    }
    if (!BlockedWater.deeper(result).isEmpty()) {
      y = line(x, y, Ink.of("standing"), MapPainter.BLOCKED, "its rim if inlets are blocked");
    }
    return y;
  }

  private void outlet(double x, double y) {
    Path2D mark = new Path2D.Double();
    mark.moveTo(x, y + 4);
    mark.lineTo(x - 4.5, y - 3.5);
    mark.lineTo(x + 4.5, y - 3.5);
    mark.closePath();
    g.setColor(Ink.of("inflow", "in"));
    g.fill(mark);
    g.setColor(Ink.BLACK);
    g.setStroke(Ink.pen(0.8));
    g.draw(mark);
  }

  private double line(double x, double y, Color colour, Stroke pen, String words) {
    g.setColor(colour);
    g.setStroke(pen);
    g.draw(new Line2D.Double(x, y + 4.5, x + KEY, y + 4.5));
    text(words, BODY, Ink.BLACK, x + KEY + 6, y + 0.5);
    return y + LEGEND_ROW;
  }

  private double area(double x, double y, Color fill, Color rim, Stroke pen, String words) {
    Rectangle2D key = new Rectangle2D.Double(x + 2, y + 1, KEY - 4, LEGEND_ROW - 3.5);
    g.setColor(fill);
    g.fill(key);
    g.setColor(rim);
    g.setStroke(pen);
    g.draw(key);
    text(words, BODY, Ink.BLACK, x + KEY + 6, y + 0.5);
    return y + LEGEND_ROW;
  }

  /** What a sheet is about: the lot and the drain. */
  static String subject(Result result, Route route) {
    return result
            .site()
            .lot()
            .map(lot -> "Lot " + SheetFont.drawable(lot.id(), 24) + ", ")
            .orElse("")
        + (route == null ? "surface water" : "drain " + route.id());
  }

  private void title(SheetScale scale, String size, Route route, String sheet) {
    double x = box.getMinX() + PAD;
    double width = box.getWidth() - 2 * PAD;
    List<String> name = SheetText.wrap(result.site().name(), 10, width);
    name = name.subList(0, Math.min(2, name.size()));
    String what = subject(result, route);
    List<String> source =
        SheetText.wrap(String.join(" ", SourceNotes.of(result, units)), 5.6, width);
    source = source.subList(0, Math.min(9, source.size()));
    double sourceHeight = SheetText.height(source.size(), 5.6) + 8;
    double top =
        box.getMaxY()
            - 58
            - SheetText.height(name.size(), 10)
            - BLANK.size() * FIELD
            - 14
            - sourceHeight;
    double y = top;
    rule(y);
    SheetText.draw(g, source, 5.6, Ink.DIM, x, y + 4);
    y += sourceHeight;
    for (int i = 0; i < BLANK.size(); i++) {
      rule(y);
      text(BLANK.get(i), 5.6, Ink.DIM, x, y + 2);
      y += i == BLANK.size() - 1 ? FIELD + 14 : FIELD;
    }
    rule(y);
    y += 6;
    SheetText.draw(g, name, 10, Ink.BLACK, x, y);
    y += SheetText.height(name.size(), 10) + 2;
    text(what, 8, Ink.BLACK, x, y);
    text("Sheet " + sheet + ", scale " + scale.words() + ", " + size, BODY, Ink.DIM, x, y + 12);
    text(PlanNotes.DRAFT, 7.6, Ink.of("inflow", "in").darker(), x, y + 25);
  }

  private void rule(double y) {
    g.setColor(Ink.BLACK);
    g.setStroke(Ink.pen(0.5));
    g.draw(new Line2D.Double(box.getMinX(), y, box.getMaxX(), y));
  }

  private void text(String text, double size, Color colour, double x, double y) {
    SheetText.draw(g, List.of(text), size, colour, x, y);
  }
}
