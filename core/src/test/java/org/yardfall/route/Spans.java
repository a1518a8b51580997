package org.yardfall.route;

import java.util.function.Function;

/** Drains whose stretches are dug, bored or solid as a test asks. */
public final class Spans {

  private Spans() {}

  /** The line with the span that begins at each of its stations. */
  public static DrainLine of(DrainLine line, Function<Station, Station.Span> span) {
    return new DrainLine(
        line.vertices(),
        line.stations().stream().map(station -> at(station, span.apply(station))).toList());
  }

  private static Station at(Station s, Station.Span span) {
    return new Station(
        s.stationM(),
        s.x(),
        s.y(),
        s.groundM(),
        s.invertM(),
        s.coverM(),
        s.depthM(),
        s.grade(),
        span);
  }
}
