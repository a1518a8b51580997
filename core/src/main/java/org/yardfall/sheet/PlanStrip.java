package org.yardfall.sheet;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;
import org.yardfall.site.UnitSystem;

/** The strip beside the plan: north, scale, legend and the title block with its blank fields. */
final class PlanStrip {

  static final double WIDTH = 172;
  private static final double PAD = 8;
  private static final double BODY = 6.8;
  private static final double FIELD = 25;
  private static final double SAME_GRADE = 5e-5;

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
   * @param shown the ground that the plan shows
   * @param contourStepM height between contours in metres
   * @param route the route shown, or null
   * @param sheet which sheet of how many, in words
   */
  void draw(
      SheetScale scale,
      Envelope shown,
      String size,
      double contourStepM,
      Route route,
      String sheet) {
    double x = box.getMinX() + PAD;
    double y = box.getMinY() + 14;
    MapFurniture.north(g, x + 10, y + 10, 14);
    MapFurniture.barScale(
        g, x + 36, y + 18, scale.pointsPerM(), units, box.getWidth() - 36 - 3 * PAD);
    text("Scale " + scale.words() + " on " + size, BODY + 1, Ink.BLACK, x, y + 30);
    double legendEnd = PlanLegend.draw(g, result, units, shown, contourStepM, route, x, y + 48);
    double titleTop = title(scale, size, route, sheet);
    facts(x, legendEnd + 8, titleTop - 4, route);
  }

  /** What is proposed, in the room between legend and title block, as far as it goes. */
  private void facts(double x, double top, double bottom, Route route) {
    List<String> texts = new ArrayList<>();
    if (route == null) {
      texts.add("No drain can be proposed: the reasons stand on the next sheet.");
    } else {
      texts.add(
          route.id()
              + ", "
              + PageRoutes.words(route.kind())
              + ": "
              + units.length(route.lengthM())
              + " long, falls "
              + units.elevation(route.fallM())
              + " to "
              + SheetFont.drawable(route.outletId(), 24)
              + ", grade "
              + UnitSystem.grade(route.minGrade())
              + (route.maxGrade() - route.minGrade() < SAME_GRADE
                  ? ""
                  : " to " + UnitSystem.grade(route.maxGrade())));
      texts.add(
          "depth to invert "
              + Stationing.depth(route.maxDepthM(), units)
              + " at most, cover "
              + Stationing.depth(route.minCoverM(), units)
              + " at least");
      result
          .design(route)
          .ifPresent(
              design -> {
                texts.add(
                    "at the outlet "
                        + PageRoutes.lastPipe(design)
                        + ", peak "
                        + units.flow(design.outletM3S()));
                texts.add("price: " + PageRoutes.price(design));
              });
      List<String> others =
          result.routes().stream().filter(r -> !r.equals(route)).map(Route::id).toList();
      if (!others.isEmpty()) {
        texts.add(
            "alternatives: " + String.join(", ", others) + ", side by side on the next sheet");
      }
    }
    double y = top;
    for (String text : texts) {
      List<String> lines = SheetText.wrap(text, BODY, box.getWidth() - 2 * PAD);
      double height = SheetText.height(lines.size(), BODY) + 3;
      if (y + height > bottom) {
        return;
      }
      SheetText.draw(g, lines, BODY, Ink.BLACK, x, y);
      y += height;
    }
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

  private double title(SheetScale scale, String size, Route route, String sheet) {
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
    return top;
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
