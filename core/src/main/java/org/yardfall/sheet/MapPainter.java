package org.yardfall.sheet;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.yardfall.elevation.Contour;
import org.yardfall.layer.Result;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Rejection;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.UnitSystem;
import org.yardfall.water.FlowPath;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;

/**
 * Draws the plan of a result: the ground, the water, what is there and the drain, from the ground
 * up, labels last. All sizes are points of the drawing.
 */
final class MapPainter {

  private static final double ARROW_SPACING = 70;
  private static final double LEAST_ARROW = 1.6;
  private static final double MOST_ARROW = 9;
  private static final int DEPTH_CELLS = 900;

  /** The rim of the water while every inlet is blocked. */
  static final Stroke BLOCKED = Ink.dashes(0.8, 6, 2, 1, 2);

  /** How a drawn line is drawn that does not work. */
  static final Stroke DRAWN = Ink.dashes(1, 2, 3);

  private final Graphics2D g;
  private final MapView view;
  private final Result result;
  private final UnitSystem units;

  private MapPainter(Graphics2D g, MapView view, Result result, UnitSystem units) {
    this.g = g;
    this.view = view;
    this.result = result;
    this.units = units;
  }

  /**
   * Draws the plan into a view, clipped to its frame.
   *
   * @param contours the contours shown
   * @param proposed the route shown with its stations, or null for none
   * @return the boxes of the labels placed
   */
  static LabelPlacer paint(
      Graphics2D graphics,
      MapView view,
      Result result,
      UnitSystem units,
      DrawnContours contours,
      Route proposed) {
    Graphics2D g = (Graphics2D) graphics.create();
    g.clip(view.frame());
    MapPainter painter = new MapPainter(g, view, result, units);
    painter.ground(contours);
    painter.water();
    painter.site();
    painter.drains(proposed);
    painter.flows();
    painter.outlets();
    LabelPlacer labels = new MapLabels(g, view, result, units).place(proposed, contours);
    g.dispose();
    return labels;
  }

  private void ground(DrawnContours contours) {
    for (Contour contour : contours.lines()) {
      boolean heavy = Math.floorMod(Math.round(contour.elevationM() / contours.stepM()), 5L) == 0;
      draw(contour.line(), Ink.CONTOUR, Ink.dashes(heavy ? 0.8 : 0.45, 4, 2));
    }
  }

  private void water() {
    for (LowSpot spot : result.water().lowSpots()) {
      if (spot.parentId().isEmpty()) {
        area(
            spot.outline(),
            Ink.faded(Ink.of("low_spots"), 0.12),
            Ink.of("low_spots"),
            Ink.dashes(0.7, 3, 2));
      }
    }
    result.standing().ifPresent(standing -> standing(standing, new DepthClasses(units)));
    BlockedWater.deeper(result).forEach(pond -> draw(pond.outline(), Ink.of("standing"), BLOCKED));
    for (FlowPath path : result.water().flowPaths()) {
      Color colour = Ink.of("standing");
      draw(path.line(), colour, path.undetermined() ? Ink.dashes(0.6, 1.5, 2) : Ink.pen(0.7));
      arrows(path.line(), colour);
    }
  }

  private void standing(StandingWater standing, DepthClasses classes) {
    List<Path2D> areas = new StandingDepths(result, standing, classes).areas(view, DEPTH_CELLS);
    for (int i = 0; i < areas.size(); i++) {
      g.setColor(Ink.faded(new Color(classes.rgb(i)), 0.75));
      g.fill(areas.get(i));
    }
    standing.ponds().forEach(pond -> draw(pond.outline(), Ink.of("standing"), Ink.pen(0.6)));
  }

  private void site() {
    for (Parcel parcel : result.site().parcels()) {
      draw(parcel.outline(), Ink.FAINT, Ink.pen(0.8));
    }
    result
        .site()
        .crossings()
        .forEach(slab -> area(slab.outline(), new Color(0xE2E2E2), Ink.FAINT, Ink.pen(0.5)));
    result
        .site()
        .buildings()
        .forEach(house -> area(house.outline(), new Color(0xBFBFBF), Ink.BLACK, Ink.pen(0.9)));
    for (Obstacle obstacle : result.site().obstacles()) {
      obstacle(obstacle);
    }
    result
        .site()
        .lot()
        .ifPresent(lot -> draw(lot.outline(), Ink.BLACK, Ink.dashes(1.6, 14, 3, 3, 3)));
  }

  private void obstacle(Obstacle obstacle) {
    Color colour = Ink.of("obstacles", "other");
    if (obstacle.clearanceM() > 0) {
      area(
          obstacle.shape().buffer(obstacle.clearanceM()),
          Ink.faded(colour, 0.10),
          colour,
          Ink.dashes(0.5, 2, 2));
    }
    if (obstacle.shape().getDimension() > 0) {
      draw(
          obstacle.shape(),
          Ink.BLACK,
          obstacle.shape().getDimension() == 1 ? Ink.dashes(0.9, 8, 2, 1.5, 2) : Ink.pen(0.6));
    } else {
      Point2D at = view.at(obstacle.shape().getCoordinate());
      g.setColor(Ink.BLACK);
      g.setStroke(Ink.pen(0.8));
      g.draw(new Line2D.Double(at.getX() - 3, at.getY(), at.getX() + 3, at.getY()));
      g.draw(new Line2D.Double(at.getX(), at.getY() - 3, at.getX(), at.getY() + 3));
    }
  }

  private void drains(Route proposed) {
    for (Rejection drawn : result.plan().rejectedAsDrawn()) {
      draw(path(drawn.vertices()), Ink.BLACK, DRAWN);
    }
    for (int i = result.routes().size() - 1; i >= 0; i--) {
      Route route = result.routes().get(i);
      if (!route.equals(proposed)) {
        lines(route).forEach(line -> draw(path(line), Ink.of(route.kind()), Ink.dashes(1.2, 6, 4)));
      }
    }
    if (proposed != null) {
      for (DrainLine line : lines(proposed)) {
        drain(line, Ink.of(proposed.kind()));
      }
    }
  }

  /** The drain in its colour between black edges, white within where it is bored. */
  private void drain(DrainLine line, Color colour) {
    Path2D path = path(line);
    draw(path, Ink.BLACK, Ink.pen(3.2));
    draw(path, colour, Ink.pen(2.0));
    List<Station> stations = line.stations();
    for (int i = 0; i + 1 < stations.size(); i++) {
      if (stations.get(i).span() == Station.Span.BORED) {
        Station a = stations.get(i);
        Station b = stations.get(i + 1);
        draw(
            new Line2D.Double(view.x(a.x()), view.y(a.y()), view.x(b.x()), view.y(b.y())),
            Ink.PAPER,
            Ink.dashes(1.4, 3, 3));
      }
    }
    for (Coordinate bend : line.vertices()) {
      Point2D at = view.at(bend);
      Shape dot = new Ellipse2D.Double(at.getX() - 2, at.getY() - 2, 4, 4);
      g.setColor(Ink.PAPER);
      g.fill(dot);
      draw(dot, Ink.BLACK, Ink.pen(0.8));
    }
  }

  static List<DrainLine> lines(Route route) {
    List<DrainLine> lines = new java.util.ArrayList<>(List.of(route.main()));
    route.branches().forEach(branch -> lines.add(branch.line()));
    return lines;
  }

  private Path2D path(DrainLine line) {
    return path(line.vertices());
  }

  private Path2D path(List<Coordinate> bends) {
    Path2D path = new Path2D.Double();
    for (Coordinate bend : bends) {
      if (path.getCurrentPoint() == null) {
        path.moveTo(view.x(bend.x), view.y(bend.y));
      } else {
        path.lineTo(view.x(bend.x), view.y(bend.y));
      }
    }
    return path;
  }

  /** Arrows across the property line, as wide as their volume. */
  private void flows() {
    double most = result.flows().stream().mapToDouble(BoundaryFlow::volumeM3).max().orElse(0);
    for (BoundaryFlow flow : result.flows()) {
      Color colour = Ink.of("inflow", flow.enters() ? "in" : "out");
      draw(flow.stretch(), Ink.faded(colour, 0.6), Ink.pen(2.2));
      double width = arrowWidth(flow.volumeM3(), most);
      Shape arrow = arrow(width, arrowLength(width), flow.enters());
      Point2D at = view.at(flow.at());
      AffineTransform place = AffineTransform.getTranslateInstance(at.getX(), at.getY());
      place.rotate(Math.toRadians(flow.bearingDeg()));
      Shape placed = place.createTransformedShape(arrow);
      g.setColor(colour);
      g.fill(placed);
      draw(placed, Ink.PAPER, Ink.pen(0.4));
    }
  }

  /** Width of an arrow's shaft in points: in proportion to the volume, thin ones still visible. */
  static double arrowWidth(double volumeM3, double mostM3) {
    return Math.max(LEAST_ARROW, mostM3 > 0 ? MOST_ARROW * volumeM3 / mostM3 : 0);
  }

  static double arrowLength(double width) {
    return 16 + 2 * width;
  }

  /** An arrow that points up; its tip, where water enters, or else its tail lies at the origin. */
  private static Shape arrow(double width, double length, boolean tip) {
    double head = width + 5;
    double top = tip ? 0 : -length;
    Path2D arrow = new Path2D.Double();
    arrow.moveTo(0, top);
    arrow.lineTo(head / 2 + 1, top + head);
    arrow.lineTo(width / 2, top + head);
    arrow.lineTo(width / 2, top + length);
    arrow.lineTo(-width / 2, top + length);
    arrow.lineTo(-width / 2, top + head);
    arrow.lineTo(-head / 2 - 1, top + head);
    arrow.closePath();
    return arrow;
  }

  private void outlets() {
    for (Outlet outlet : result.site().outlets()) {
      outlet(outlet);
    }
    result.plan().found().forEach(this::outlet);
  }

  private void outlet(Outlet outlet) {
    Point2D at = view.at(outlet.at());
    Path2D mark = new Path2D.Double();
    mark.moveTo(at.getX(), at.getY() + 4.5);
    mark.lineTo(at.getX() - 5, at.getY() - 4);
    mark.lineTo(at.getX() + 5, at.getY() - 4);
    mark.closePath();
    g.setColor(Ink.of("inflow", "in"));
    g.fill(mark);
    draw(mark, Ink.BLACK, Ink.pen(0.9));
  }

  private void arrows(LineString line, Color colour) {
    LengthIndexedLine index = new LengthIndexedLine(line);
    Envelope shown = view.ground();
    double spacing = ARROW_SPACING / view.pointsPerM();
    g.setColor(colour);
    for (double s = spacing / 2; s < line.getLength(); s += spacing) {
      Coordinate at = index.extractPoint(s);
      Coordinate before = index.extractPoint(Math.max(0, s - 4 / view.pointsPerM()));
      if (shown.contains(at)) {
        AffineTransform place = AffineTransform.getTranslateInstance(view.x(at.x), view.y(at.y));
        place.rotate(Math.atan2(-(at.y - before.y), at.x - before.x));
        Path2D head = new Path2D.Double();
        head.moveTo(2.5, 0);
        head.lineTo(-2.5, 2.2);
        head.lineTo(-2.5, -2.2);
        head.closePath();
        g.fill(place.createTransformedShape(head));
      }
    }
  }

  private void area(Geometry geometry, Color fill, Color rim, Stroke pen) {
    if (geometry.getEnvelopeInternal().intersects(view.ground())) {
      g.setColor(fill);
      g.fill(view.shape(geometry));
      draw(geometry, rim, pen);
    }
  }

  private void draw(Geometry geometry, Color colour, Stroke pen) {
    if (geometry.getEnvelopeInternal().intersects(view.ground())) {
      draw(view.shape(geometry), colour, pen);
    }
  }

  private void draw(Shape shape, Color colour, Stroke pen) {
    g.setColor(colour);
    g.setStroke(pen);
    g.draw(shape);
  }
}
