package org.yardfall.layer;

import static org.yardfall.layer.Layer.Column.flag;
import static org.yardfall.layer.Layer.Column.integer;
import static org.yardfall.layer.Layer.Column.real;
import static org.yardfall.layer.Layer.Column.text;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.OverlandPath;
import org.yardfall.layer.Layer.Shape;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;

/** The layers of the proposed drains; their elevations are the pipe's inverts. */
final class DrainLayers {

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private DrainLayers() {}

  /** A line of a route; {@code part} is {@code main} or {@code B1}, {@code B2} … for a branch. */
  private record Part(Route route, String part, DrainLine line) {

    static List<Part> of(List<Route> routes) {
      List<Part> parts = new ArrayList<>();
      for (Route route : routes) {
        parts.add(new Part(route, "main", route.main()));
        for (int i = 0; i < route.branches().size(); i++) {
          parts.add(new Part(route, "B" + (i + 1), route.branches().get(i).line()));
        }
      }
      return parts;
    }

    List<StationOf> stations() {
      return line.stations().stream().map(station -> new StationOf(this, station)).toList();
    }
  }

  private record StationOf(Part part, Station station) {}

  static Layer drains(Result result) {
    return Layer.of(
        "drains",
        "Proposed drains, at the pipe's invert",
        Shape.LINE_Z,
        Part.of(result.routes()),
        part -> line(part.line()),
        List.of(
            text("id", part -> part.route().id()),
            text("part", Part::part),
            text("kind", part -> part.route().kind().word()),
            integer("rank", part -> part.route().rank()),
            text("outlet", part -> part.route().outletId()),
            real("length_m", 3, part -> part.line().lengthM()),
            real("fall_m", 3, part -> fall(part.line())),
            real("min_grade", 6, part -> part.route().minGrade()),
            real("max_grade", 6, part -> part.route().maxGrade()),
            real("mincover_m", 3, part -> part.route().minCoverM()),
            real("maxdepth_m", 3, part -> part.route().maxDepthM()),
            integer("breaks", part -> part.route().gradeBreaks()),
            real("dug_m3", 2, part -> part.route().excavationM3()),
            real("price", 2, part -> part.route().price()),
            text("stand_ins", part -> standIns(result, part.route()))));
  }

  /** What bears no price of the user's own, so that the price counts a stand-in for it. */
  private static String standIns(Result result, Route route) {
    return result
        .design(route)
        .map(design -> design.takeOff().missing().stream())
        .orElse(Stream.of())
        .map(Words::of)
        .collect(Collectors.joining(", "));
  }

  static Layer stations(Result result) {
    return Layer.of(
        "stations",
        "Stations of the proposed drains, at the pipe's invert",
        Shape.POINT_Z,
        Part.of(result.routes()).stream().flatMap(part -> part.stations().stream()).toList(),
        at -> GEOMETRIES.createPoint(invert(at.station())),
        List.of(
            text("route", at -> at.part().route().id()),
            text("part", at -> at.part().part()),
            real("station_m", 3, at -> at.station().stationM()),
            real("ground_m", 3, at -> at.station().groundM()),
            real("invert_m", 3, at -> at.station().invertM()),
            real("cover_m", 3, at -> at.station().coverM()),
            real("depth_m", 3, at -> at.station().depthM()),
            real("grade", 6, at -> at.station().grade()),
            text("span", at -> Words.of(at.station().span()))));
  }

  /** Where the water of a drain goes while it is blocked. */
  private record Overland(Route route, OverlandPath path) {}

  static Layer overland(Result result) {
    return Layer.of(
        "overland",
        "Where the water goes over the ground while a drain is blocked",
        Shape.LINE,
        result.routes().stream()
            .flatMap(
                route ->
                    result.design(route).flatMap(DrainDesign::overland).stream()
                        .map(path -> new Overland(route, path)))
            .toList(),
        way -> way.path().line(),
        List.of(
            text("route", way -> way.route().id()),
            real("area_m2", 2, way -> way.path().areaM2()),
            real("length_m", 2, way -> way.path().line().getLength()),
            text(
                "low_spots",
                way -> joined(way.path().pools().stream().map(OverlandPath.Pool::lowSpotId))),
            text(
                "parcels",
                way -> joined(way.path().parcels().stream().map(OverlandPath.Onto::parcelId))),
            text("openings", way -> joined(way.path().openings().stream())),
            flag("neighbour", way -> way.path().reachesNeighbour()),
            text("outlet", way -> way.path().outletId())));
  }

  private static String joined(Stream<String> ids) {
    return ids.filter(id -> !id.isEmpty()).collect(Collectors.joining(", "));
  }

  private static Geometry line(DrainLine line) {
    return GEOMETRIES.createLineString(
        line.stations().stream().map(DrainLayers::invert).toArray(Coordinate[]::new));
  }

  private static Coordinate invert(Station station) {
    return new Coordinate(station.x(), station.y(), station.invertM());
  }

  private static double fall(DrainLine line) {
    List<Station> stations = line.stations();
    return stations.get(0).invertM() - stations.get(stations.size() - 1).invertM();
  }
}
