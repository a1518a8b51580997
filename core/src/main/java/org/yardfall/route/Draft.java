package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;

/**
 * A drain laid from its collecting lines to an outlet, not yet audited or ranked.
 *
 * @param outletId the outlet it reaches
 * @param main the line that ends at the outlet
 * @param branches lines that join it or each other, each after the line that it joins
 * @param cost its cost as the search measures it, with the inverts as laid
 * @param unserved collecting lines, or parts of them, that could not be joined
 * @param notes what its builder should know: drops, rounding, smaller pipes, in words
 */
public record Draft(
    String outletId,
    DrainLine main,
    List<Route.Branch> branches,
    double cost,
    List<LineString> unserved,
    List<String> notes) {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** Keeps the lists to itself. */
  public Draft {
    branches = List.copyOf(branches);
    unserved = List.copyOf(unserved);
    notes = List.copyOf(notes);
  }

  /** The stretches that take water in: neither bored nor of solid pipe. */
  List<LineString> open() {
    List<LineString> open = new ArrayList<>();
    Stream.concat(Stream.of(main), branches.stream().map(Route.Branch::line))
        .forEach(
            line -> {
              for (int i = 0; i + 1 < line.stations().size(); i++) {
                Station up = line.stations().get(i);
                Station down = line.stations().get(i + 1);
                if (up.span() == Station.Span.OPEN) {
                  open.add(
                      FACTORY.createLineString(
                          new Coordinate[] {
                            new Coordinate(up.x(), up.y()), new Coordinate(down.x(), down.y())
                          }));
                }
              }
            });
    return open;
  }

  /** Length in metres of the collecting lines that could not be joined. */
  double unservedM() {
    return unserved.stream().mapToDouble(LineString::getLength).sum();
  }
}
