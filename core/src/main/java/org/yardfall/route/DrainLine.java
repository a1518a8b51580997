package org.yardfall.route;

import java.util.List;
import org.locationtech.jts.geom.Coordinate;

/**
 * One unbranched line of pipe, upstream to downstream.
 *
 * @param vertices its bends, first and last point included, in metres of the working plane
 * @param stations its stations, at least at every vertex and grade break
 */
public record DrainLine(List<Coordinate> vertices, List<Station> stations) {

  /** Keeps the lists to itself. */
  public DrainLine {
    vertices = List.copyOf(vertices);
    stations = List.copyOf(stations);
  }

  /** Plan length in metres. */
  public double lengthM() {
    return stations.get(stations.size() - 1).stationM();
  }
}
