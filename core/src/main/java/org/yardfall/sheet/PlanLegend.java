package org.yardfall.sheet;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Stroke;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.layer.Result;
import org.yardfall.route.DrainKind;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Parcel;
import org.yardfall.site.UnitSystem;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;

/** The legend of a plan: what is drawn on it, and nothing else. */
final class PlanLegend {

  private static final double BODY = 6.8;
  private static final double ROW = 10.5;
  private static final double KEY = 24;

  private final Graphics2D g;
  private final Result result;
  private final UnitSystem units;
  private final Envelope shown;
  private final double x;
  private double y;

  private PlanLegend(
      Graphics2D g, Result result, UnitSystem units, Envelope shown, double x, double y) {
    this.g = g;
    this.result = result;
    this.units = units;
    this.shown = shown;
    this.x = x;
    this.y = y;
  }

  /**
   * Draws the legend with its upper left corner at a point.
   *
   * @param shown the ground that the plan shows
   * @param contourStepM height between contours in metres
   * @param route the route shown with its stations, or null
   * @return where it ends
   */
  static double draw(
      Graphics2D g,
      Result result,
      UnitSystem units,
      Envelope shown,
      double contourStepM,
      Route route,
      double x,
      double y) {
    PlanLegend legend = new PlanLegend(g, result, units, shown, x, y);
    legend.lines(contourStepM);
    legend.drains(route);
    legend.water();
    legend.things();
    return legend.y;
  }

  private void lines(double contourStepM) {
    if (result.site().lot().isPresent()) {
      line(Ink.BLACK, Ink.dashes(1.6, 14, 3, 3, 3), "property line of the lot");
    }
    if (anyShown(result.site().neighbours().stream().map(Parcel::outline).toList())) {
      line(Ink.FAINT, Ink.pen(0.8), "other property lines");
    }
    line(Ink.CONTOUR, Ink.dashes(0.6, 4, 2), "existing contours, " + units.elevation(contourStepM));
    mark(
        () -> {
          g.setColor(Ink.GROUND);
          g.fill(new Ellipse2D.Double(x + KEY / 2 - 1, y + 3.5, 2, 2));
        },
        "spot elevation");
  }

  private void drains(Route route) {
    if (route != null) {
      Color colour = Ink.of(route.kind());
      line(Ink.BLACK, Ink.pen(3.2), "");
      y -= ROW;
      line(colour, Ink.pen(2), route.id() + ", " + PageRoutes.words(route.kind()));
      if (bored(route)) {
        line(Ink.BLACK, Ink.pen(3.2), "");
        y -= ROW;
        line(colour, Ink.pen(2), "");
        y -= ROW;
        line(Ink.PAPER, Ink.dashes(1.4, 3, 3), "bored under a slab");
      }
    }
    Set<DrainKind> others = new LinkedHashSet<>();
    result.routes().stream().filter(r -> !r.equals(route)).forEach(r -> others.add(r.kind()));
    for (DrainKind kind : others) {
      line(Ink.of(kind), Ink.dashes(1.2, 6, 4), "alternative, " + PageRoutes.words(kind));
    }
    if (!result.plan().rejectedAsDrawn().isEmpty()) {
      line(Ink.BLACK, MapPainter.DRAWN, "drawn line that does not work");
    }
  }

  private static boolean bored(Route route) {
    return MapPainter.lines(route).stream()
        .flatMap(line -> line.stations().stream())
        .anyMatch(station -> station.span() == Station.Span.BORED);
  }

  private void water() {
    if (!result.water().flowPaths().isEmpty()) {
      line(Ink.of("standing"), Ink.pen(0.7), "flow path");
    }
    if (anyShown(result.water().lowSpots().stream().map(LowSpot::outline).toList())) {
      area(
          Ink.faded(Ink.of("low_spots"), 0.12),
          Ink.of("low_spots"),
          Ink.dashes(0.7, 3, 2),
          "low spot");
    }
    standing();
    if (result.flows().stream().anyMatch(BoundaryFlow::enters)) {
      line(Ink.of("inflow", "in"), Ink.pen(3.5), "inflow, arrow wide by volume");
    }
    if (result.flows().stream().anyMatch(flow -> !flow.enters())) {
      line(Ink.of("inflow", "out"), Ink.pen(3.5), "outflow, arrow wide by volume");
    }
  }

  /** The classes of depth that the water left standing has. */
  private void standing() {
    DepthClasses classes = new DepthClasses(units);
    double deepest =
        result.standing().map(StandingWater::ponds).orElse(List.of()).stream()
            .filter(pond -> shown.intersects(pond.outline().getEnvelopeInternal()))
            .mapToDouble(StandingWater.Pond::depthM)
            .max()
            .orElse(Double.NaN);
    for (int i = 0; !Double.isNaN(deepest) && i <= classes.of(deepest); i++) {
      area(
          Ink.faded(new Color(classes.rgb(i)), 0.75),
          Ink.of("standing"),
          Ink.pen(0.6),
          "standing water, " + classes.words(i));
    }
    if (anyShown(BlockedWater.deeper(result).stream().map(StandingWater.Pond::outline).toList())) {
      line(Ink.of("standing"), MapPainter.BLOCKED, "standing water, inlets blocked");
    }
  }

  private void things() {
    if (anyShown(result.site().buildings().stream().map(Building::outline).toList())) {
      area(new Color(0xBFBFBF), Ink.BLACK, Ink.pen(0.9), "building");
    }
    if (anyShown(result.site().crossings().stream().map(Crossing::outline).toList())) {
      area(new Color(0xE2E2E2), Ink.FAINT, Ink.pen(0.5), "walk or drive (slab)");
    }
    List<Obstacle> obstacles = result.site().obstacles();
    if (anyShown(obstacles.stream().map(Obstacle::shape).toList())) {
      line(Ink.BLACK, Ink.dashes(0.9, 8, 2, 1.5, 2), "utility or other obstacle, as named");
    }
    if (anyShown(
        obstacles.stream().filter(o -> o.clearanceM() > 0).map(Obstacle::shape).toList())) {
      Color colour = Ink.of("obstacles", "other");
      area(Ink.faded(colour, 0.10), colour, Ink.dashes(0.5, 2, 2), "clearance kept from it");
    }
    if (!result.outlets().isEmpty()) {
      mark(() -> outlet(x + KEY / 2, y + 4), "outlet");
    }
  }

  private boolean anyShown(List<? extends Geometry> shapes) {
    return shapes.stream().anyMatch(shape -> shown.intersects(shape.getEnvelopeInternal()));
  }

  private void outlet(double atX, double atY) {
    Path2D mark = new Path2D.Double();
    mark.moveTo(atX, atY + 4);
    mark.lineTo(atX - 4.5, atY - 3.5);
    mark.lineTo(atX + 4.5, atY - 3.5);
    mark.closePath();
    g.setColor(Ink.of("inflow", "in"));
    g.fill(mark);
    g.setColor(Ink.BLACK);
    g.setStroke(Ink.pen(0.8));
    g.draw(mark);
  }

  private void line(Color colour, Stroke pen, String words) {
    mark(
        () -> {
          g.setColor(colour);
          g.setStroke(pen);
          g.draw(new Line2D.Double(x, y + 4.5, x + KEY, y + 4.5));
        },
        words);
  }

  private void area(Color fill, Color rim, Stroke pen, String words) {
    mark(
        () -> {
          Rectangle2D key = new Rectangle2D.Double(x + 2, y + 1, KEY - 4, ROW - 3.5);
          g.setColor(fill);
          g.fill(key);
          g.setColor(rim);
          g.setStroke(pen);
          g.draw(key);
        },
        words);
  }

  private void mark(Runnable key, String words) {
    key.run();
    SheetText.draw(g, List.of(words), BODY, Ink.BLACK, x + KEY + 6, y + 0.5);
    y += ROW;
  }
}
