package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.elevation.ElevationGrid;

/**
 * A line as its stations and vertices state it, looked at every few centimetres against the raw
 * ground. Made for the audit alone; the search knows nothing of it.
 */
final class AuditedLine {

  /**
   * A place along the line.
   *
   * @param stationM distance from the upper end in metres
   * @param at the place by the vertices
   * @param groundM raw ground there in metres, NaN where not known
   * @param invertM invert there in metres, straight between stations
   * @param span how the stretch around it is built
   */
  record Place(double stationM, Coordinate at, double groundM, double invertM, Station.Span span) {}

  private static final GeometryFactory FACTORY = new GeometryFactory();

  final List<Coordinate> vertices;
  final List<Station> stations;
  final List<Place> places = new ArrayList<>();
  final LineString plan;
  final double lengthM;

  AuditedLine(DrainLine line, ElevationGrid ground) {
    vertices = line.vertices();
    stations = line.stations();
    plan = FACTORY.createLineString(vertices.toArray(Coordinate[]::new));
    lengthM = plan.getLength();
    double every = Math.min(0.1, ground.frame().cellM() / 4);
    for (int i = 0; i + 1 < stations.size(); i++) {
      Station a = stations.get(i);
      Station b = stations.get(i + 1);
      double run = b.stationM() - a.stationM();
      int parts = Math.max(1, (int) Math.ceil(run / every));
      for (int p = i == 0 ? 0 : 1; p <= parts; p++) {
        double share = (double) p / parts;
        double station = a.stationM() + share * run;
        Coordinate at = at(station);
        places.add(
            new Place(
                station,
                at,
                groundAt(ground, at),
                a.invertM() + share * (b.invertM() - a.invertM()),
                a.span()));
      }
    }
  }

  /** The place of a station by the vertices. */
  Coordinate at(double stationM) {
    double left = stationM;
    for (int i = 1; i < vertices.size(); i++) {
      Coordinate a = vertices.get(i - 1);
      Coordinate b = vertices.get(i);
      double length = Math.hypot(b.x - a.x, b.y - a.y);
      if (left <= length || i == vertices.size() - 1) {
        double share = length == 0 ? 0 : left / length;
        return new Coordinate(a.x + share * (b.x - a.x), a.y + share * (b.y - a.y));
      }
      left -= length;
    }
    return vertices.get(0);
  }

  /** The invert at a station, below a drop where there is one. */
  double invertAt(double stationM) {
    int at = 0;
    while (at + 2 < stations.size() && stations.get(at + 1).stationM() <= stationM + 1e-6) {
      at++;
    }
    Station a = stations.get(at);
    Station b = stations.get(at + 1);
    double run = b.stationM() - a.stationM();
    double share = run > 0 ? Math.min(1, (stationM - a.stationM()) / run) : 1;
    return a.invertM() + share * (b.invertM() - a.invertM());
  }

  /** Raw ground between the four nearest cell centres; NaN where any that counts is not known. */
  static double groundAt(ElevationGrid grid, Coordinate p) {
    double col = (p.x - grid.frame().westM()) / grid.frame().cellM();
    double row = (grid.frame().northM() - p.y) / grid.frame().cellM();
    if (col < 0 || row < 0 || col >= grid.frame().cols() || row >= grid.frame().rows()) {
      return Double.NaN;
    }
    double sum = 0;
    for (int dr = 0; dr < 2; dr++) {
      for (int dc = 0; dc < 2; dc++) {
        double c0 = Math.floor(col - 0.5);
        double r0 = Math.floor(row - 0.5);
        double fc = col - 0.5 - c0;
        double fr = row - 0.5 - r0;
        double weight = (dc == 0 ? 1 - fc : fc) * (dr == 0 ? 1 - fr : fr);
        if (weight > 0) {
          int c = (int) Math.max(0, Math.min(grid.frame().cols() - 1, c0 + dc));
          int r = (int) Math.max(0, Math.min(grid.frame().rows() - 1, r0 + dr));
          sum += weight * grid.z()[r * grid.frame().cols() + c];
        }
      }
    }
    return sum;
  }
}
