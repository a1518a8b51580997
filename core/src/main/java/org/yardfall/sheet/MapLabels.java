package org.yardfall.sheet;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.util.Comparator;
import java.util.List;
import org.locationtech.jts.algorithm.locate.SimplePointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.yardfall.layer.Result;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.Building;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.UnitSystem;
import org.yardfall.water.StandingWater;

/** Letters the plan, the most important first: stations, outlets, inflow, names, levels. */
final class MapLabels {

  /** Of the low spots and of the ponds, so many are named: the largest; all stand in the tables. */
  private static final int MOST_NAMED = 24;

  private static final double STATION = 6;
  private static final double NAME = 7;
  private static final double LEVEL = 5.5;
  private static final int ID = 18;
  private static final double LEAST_FLOW_SHARE = 0.01;
  private static final double[] ALONG = {0.5, 0.3, 0.7, 0.2, 0.8, 0.4, 0.6};
  private static final GeometryFactory GEOMETRIES = new GeometryFactory();
  private static final double[][] CORNERS = {
    {0.12, 0.88}, {0.88, 0.88}, {0.12, 0.12}, {0.88, 0.12}, {0.3, 0.7}, {0.7, 0.7}, {0.3, 0.3}
  };

  private final Graphics2D g;
  private final MapView view;
  private final Result result;
  private final UnitSystem units;
  private final LabelPlacer labels;

  MapLabels(Graphics2D g, MapView view, Result result, UnitSystem units) {
    this.g = g;
    this.view = view;
    this.result = result;
    this.units = units;
    Rectangle2D f = view.frame();
    this.labels =
        new LabelPlacer(
            g,
            new Rectangle2D.Double(
                f.getX() + 3, f.getY() + 3, f.getWidth() - 6, f.getHeight() - 6));
  }

  LabelPlacer place(Route proposed, DrawnContours contours) {
    if (proposed != null) {
      MapPainter.lines(proposed).forEach(this::keepFree);
    }
    result
        .site()
        .lot()
        .ifPresent(lot -> keepFree(lot.outline().getExteriorRing().getCoordinates()));
    result.site().outlets().forEach(outlet -> keepFree(outlet.at(), 6));
    double most = result.flows().stream().mapToDouble(BoundaryFlow::volumeM3).max().orElse(0);
    result.flows().forEach(flow -> keepFree(flow, most));
    if (proposed != null) {
      List<DrainLine> lines = MapPainter.lines(proposed);
      for (int i = 0; i < lines.size(); i++) {
        stations(lines.get(i), i == 0 ? "" : "B" + i + " ");
      }
    }
    outlets();
    flows();
    alternatives(proposed);
    ponds();
    spots();
    names();
    contours(contours);
    return labels;
  }

  private void keepFree(DrainLine line) {
    List<Coordinate> bends = line.vertices();
    for (int i = 0; i + 1 < bends.size(); i++) {
      labels.keepFree(new Line2D.Double(view.at(bends.get(i)), view.at(bends.get(i + 1))), 2.5);
    }
  }

  /** The property line, on which no label lies. */
  private void keepFree(Coordinate[] line) {
    for (int i = 0; i + 1 < line.length; i++) {
      labels.keepFree(new Line2D.Double(view.at(line[i]), view.at(line[i + 1])), 1.2);
    }
  }

  /** Where the arrow of a flow lies. */
  private void keepFree(BoundaryFlow flow, double mostM3) {
    double width = MapPainter.arrowWidth(flow.volumeM3(), mostM3);
    double back = MapPainter.arrowLength(width) * (flow.enters() ? -1 : 1);
    double turn = Math.toRadians(flow.bearingDeg());
    Point2D at = view.at(flow.at());
    labels.keepFree(
        new Line2D.Double(
            at.getX(),
            at.getY(),
            at.getX() + back * Math.sin(turn),
            at.getY() - back * Math.cos(turn)),
        2 + width / 2);
  }

  private void keepFree(Coordinate place, double half) {
    Point2D at = view.at(place);
    labels.keepFree(new Rectangle2D.Double(at.getX() - half, at.getY() - half, 2 * half, 2 * half));
  }

  /** Stations and inverts at the ends and bends, and where the grade changes. */
  private void stations(DrainLine line, String prefix) {
    List<Station> stations = line.stations();
    for (int i = 0; i < stations.size(); i++) {
      Station s = stations.get(i);
      if (shown(s.x(), s.y()) && LinePoints.isMarked(stations, i)) {
        labels.beside(
            view.x(s.x()),
            view.y(s.y()),
            STATION,
            Ink.BLACK,
            prefix + Stationing.station(s.stationM(), units),
            "inv " + Stationing.bare(s.invertM(), units));
      }
    }
  }

  /** The ids of the other routes on their lines, where there is room. */
  private void alternatives(Route proposed) {
    for (Route route : result.routes()) {
      if (route.equals(proposed)) {
        continue;
      }
      Coordinate[] bends = route.main().vertices().toArray(Coordinate[]::new);
      LengthIndexedLine line = new LengthIndexedLine(GEOMETRIES.createLineString(bends));
      for (double share : ALONG) {
        Coordinate at = line.extractPoint(share * line.getEndIndex());
        Color colour = Ink.of(route.kind()).darker();
        if (shown(at.x, at.y)
            && labels.centred(view.x(at.x), view.y(at.y), STATION, colour, route.id())) {
          break;
        }
      }
    }
  }

  private void outlets() {
    for (Outlet outlet : result.site().outlets()) {
      if (shown(outlet.at().x, outlet.at().y)) {
        String level =
            outlet.invertM().isPresent()
                ? "inv " + Stationing.bare(outlet.invertM().getAsDouble(), units)
                : "invert not given";
        labels.beside(
            view.x(outlet.at().x),
            view.y(outlet.at().y),
            NAME,
            Ink.BLACK,
            SheetFont.drawable(outlet.id(), ID) + ", " + outlet.kind().word().replace('-', ' '),
            level);
      }
    }
  }

  private void flows() {
    double most = result.flows().stream().mapToDouble(BoundaryFlow::volumeM3).max().orElse(0);
    for (BoundaryFlow flow : result.flows()) {
      // What is too little to name stands in the ledger.
      if (flow.volumeM3() >= LEAST_FLOW_SHARE * most && shown(flow.at().x, flow.at().y)) {
        String whose =
            flow.neighbour().isEmpty() ? "" : " " + SheetFont.drawable(flow.neighbour(), ID);
        labels.beside(
            view.x(flow.at().x),
            view.y(flow.at().y),
            STATION,
            Ink.of("inflow", flow.enters() ? "in" : "out").darker(),
            flow.id()
                + (flow.enters() ? " in" : " out")
                + (whose.isEmpty() ? "" : (flow.enters() ? " from" : " to") + whose),
            (flow.atLeast() ? "≥ " : "") + units.water(flow.volumeM3()));
      }
    }
  }

  private void names() {
    result.site().lot().ifPresent(this::lot);
    for (Building building : result.site().buildings()) {
      name(building.outline(), SheetFont.drawable(building.id(), ID), STATION);
    }
    for (Parcel parcel : result.site().parcels()) {
      if (result.site().lot().map(lot -> !lot.equals(parcel)).orElse(true)) {
        name(parcel.outline(), "parcel " + id(parcel), NAME);
      }
    }
    for (Obstacle obstacle : result.site().obstacles()) {
      Coordinate at = visible(obstacle.shape());
      if (at != null) {
        labels.beside(
            view.x(at.x), view.y(at.y), LEVEL, Ink.DIM, SheetFont.drawable(obstacle.id(), ID));
      }
    }
    result
        .site()
        .crossings()
        .forEach(slab -> name(slab.outline(), SheetFont.drawable(slab.id(), ID), LEVEL));
  }

  private static String id(Parcel parcel) {
    return SheetFont.drawable(parcel.id(), ID);
  }

  /** The lot's name in the first of its corners that has room. */
  private void lot(Parcel lot) {
    Envelope e = lot.outline().getEnvelopeInternal();
    for (double[] share : CORNERS) {
      Coordinate at =
          new Coordinate(
              e.getMinX() + share[0] * e.getWidth(), e.getMinY() + share[1] * e.getHeight());
      if (SimplePointInAreaLocator.containsPointInPolygon(at, lot.outline())
          && labels.centred(view.x(at.x), view.y(at.y), 9, Ink.BLACK, "lot " + id(lot))) {
        return;
      }
    }
    name(lot.outline(), "lot " + id(lot), 9);
  }

  /** A name inside an area, or beside its middle where that is taken. */
  private void name(Polygon area, String name, double size) {
    Coordinate at = visible(area);
    if (at != null
        && !name.isBlank()
        && !labels.centred(view.x(at.x), view.y(at.y), size, Ink.DIM, name)) {
      labels.beside(view.x(at.x), view.y(at.y), size, Ink.DIM, name);
    }
  }

  /** A place inside the part of a shape that the drawing shows; null where it shows none. */
  private Coordinate visible(Geometry shape) {
    Geometry part = shape.intersection(shape.getFactory().toGeometry(view.ground()));
    return part.isEmpty() ? null : part.getInteriorPoint().getCoordinate();
  }

  /** A pond's depth, and what it would be with the inlets blocked. */
  private String[] standing(StandingWater.Pond pond, List<StandingWater.Pond> blocked) {
    String name = pond.lowSpotId() + " stands";
    String depth = Stationing.depth(pond.depthM(), units) + " deep";
    return blocked.stream()
        .filter(each -> each.lowSpotId().equals(pond.lowSpotId()))
        .map(each -> "inlets blocked: " + Stationing.depth(each.depthM(), units))
        .map(more -> new String[] {name, depth, more})
        .findFirst()
        .orElse(new String[] {name, depth});
  }

  private void ponds() {
    List<StandingWater.Pond> blocked = BlockedWater.deeper(result);
    List<StandingWater.Pond> largest =
        result.standing().map(StandingWater::ponds).orElse(List.of()).stream()
            .filter(pond -> pond.outline().getEnvelopeInternal().intersects(view.ground()))
            .sorted(Comparator.comparingDouble(pond -> -pond.volumeM3()))
            .limit(MOST_NAMED)
            .toList();
    for (StandingWater.Pond pond : largest) {
      Coordinate at = visible(pond.outline());
      if (at != null) {
        labels.beside(
            view.x(at.x), view.y(at.y), STATION, Ink.of("standing"), standing(pond, blocked));
        keepFree(at, 6);
      }
    }
  }

  /** Ground levels at the lot's corners and in the low spots. */
  private void spots() {
    result
        .site()
        .lot()
        .ifPresent(
            lot -> {
              Coordinate[] corners = lot.outline().getExteriorRing().getCoordinates();
              for (int i = 0; i + 1 < corners.length; i++) {
                spot(corners[i]);
              }
            });
    result.water().lowSpots().stream()
        .filter(spot -> spot.parentId().isEmpty())
        .filter(spot -> shown(spot.deepest().x, spot.deepest().y))
        .sorted(Comparator.comparingDouble(spot -> -spot.volumeM3()))
        .limit(MOST_NAMED)
        .forEach(spot -> spot(spot.deepest()));
  }

  private void spot(Coordinate place) {
    double level = result.terrain().ground().bilinear(place.x, place.y);
    if (shown(place.x, place.y) && !Double.isNaN(level)) {
      Point2D at = view.at(place);
      if (labels.beside(at.getX(), at.getY(), LEVEL, Ink.GROUND, Stationing.bare(level, units))) {
        g.setColor(Ink.GROUND);
        g.fill(new Ellipse2D.Double(at.getX() - 1, at.getY() - 1, 2, 2));
      }
    }
  }

  private void contours(DrawnContours contours) {
    contours.lines().stream()
        .filter(c -> c.line().getLength() * view.pointsPerM() > 60)
        .sorted(Comparator.comparingDouble(c -> -c.line().getLength()))
        .limit(60)
        .forEach(
            contour -> {
              LengthIndexedLine index = new LengthIndexedLine(contour.line());
              String text = level(contour.elevationM(), contours.stepM());
              for (double share : new double[] {0.5, 0.3, 0.7}) {
                Coordinate at = index.extractPoint(share * contour.line().getLength());
                if (shown(at.x, at.y)
                    && !isBuilt(at)
                    && labels.centred(view.x(at.x), view.y(at.y), LEVEL, Ink.CONTOUR, text)) {
                  break;
                }
              }
            });
  }

  /** Whether a building stands there: what the ground does under it is of no use. */
  private boolean isBuilt(Coordinate place) {
    return result.site().buildings().stream()
        .anyMatch(house -> SimplePointInAreaLocator.containsPointInPolygon(place, house.outline()));
  }

  private String level(double levelM, double stepM) {
    String text = Stationing.bare(levelM, units);
    boolean tenths =
        Math.abs(
                Math.rint(stepM / units.metresPerLengthUnit() * 10)
                        * 0.1
                        * units.metresPerLengthUnit()
                    - stepM)
            < 1e-9;
    return tenths ? text.substring(0, text.length() - 1) : text;
  }

  private boolean shown(double x, double y) {
    return view.ground().contains(x, y);
  }
}
