package org.yardfall.layer;

import static org.yardfall.layer.Layer.Column.flag;
import static org.yardfall.layer.Layer.Column.integer;
import static org.yardfall.layer.Layer.Column.real;
import static org.yardfall.layer.Layer.Column.text;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.OverlandPath;
import org.yardfall.drain.TakeOff;
import org.yardfall.layer.Layer.Shape;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;

/** The layers of the proposed drains; their elevations are the pipe's inverts. */
final class DrainLayers {

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private DrainLayers() {}

  /**
   * A line of a route, the main line first; {@code part} is {@code main} or {@code B1}, {@code B2}
   * … for a branch.
   */
  private record Part(Route route, int index, DrainLine line) {

    static List<Part> of(List<Route> routes) {
      List<Part> parts = new ArrayList<>();
      for (Route route : routes) {
        parts.add(new Part(route, 0, route.main()));
        for (int i = 0; i < route.branches().size(); i++) {
          parts.add(new Part(route, i + 1, route.branches().get(i).line()));
        }
      }
      return parts;
    }

    String part() {
      return name(index);
    }

    /** Name of the line that this one joins; empty for the main line. */
    String joins() {
      return index == 0 ? "" : name(route.branches().get(index - 1).joins());
    }

    private static String name(int line) {
      return line == 0 ? "main" : "B" + line;
    }

    List<StationOf> stations() {
      return line.stations().stream().map(station -> new StationOf(this, station)).toList();
    }
  }

  private record StationOf(Part part, Station station) {}

  /**
   * A feature for each line; {@code joins} is the {@code part} that it ends on. Length, fall and
   * soil dug are the line's own; grades, cover, depth, breaks, price and what is named {@code
   * route_…} are of its whole route, the same on each of its lines.
   */
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
            text("joins", Part::joins),
            text("kind", part -> part.route().kind().word()),
            integer("rank", part -> part.route().rank()),
            text("outlet", part -> part.route().outletId()),
            real("length_m", 3, part -> part.line().lengthM()),
            real("fall_m", 3, part -> fall(part.line())),
            real("dug_m3", 4, part -> bill(result, part, b -> b.dugByLineM3().get(part.index()))),
            real("min_grade", 6, part -> part.route().minGrade()),
            real("max_grade", 6, part -> part.route().maxGrade()),
            real("mincover_m", 3, part -> part.route().minCoverM()),
            real("maxdepth_m", 3, part -> part.route().maxDepthM()),
            integer("breaks", part -> part.route().gradeBreaks()),
            real("route_m", 3, part -> part.route().lengthM()),
            real("route_m3", 4, part -> bill(result, part, TakeOff::dugM3)),
            real("price", 2, part -> bill(result, part, b -> b.priced() ? b.total() : null)),
            text("no_price", part -> bill(result, part, DrainLayers::unpriced))));
  }

  /** A figure of the bill of a line's route; null where the route was not made buildable. */
  private static <T> T bill(Result result, Part part, Function<TakeOff, T> figure) {
    return result.design(part.route()).map(design -> figure.apply(design.takeOff())).orElse(null);
  }

  /** What bears no price of the user's own, and so no amount in the bill. */
  private static String unpriced(TakeOff bill) {
    return bill.missing().stream().map(Words::of).collect(Collectors.joining(", "));
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
