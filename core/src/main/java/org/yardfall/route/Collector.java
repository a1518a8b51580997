package org.yardfall.route;

import java.util.List;
import org.locationtech.jts.geom.LineString;

/**
 * Where a drain should take its water in, before anything is known about how the water leaves.
 *
 * @param kind what the drain does
 * @param lines the collecting lines in metres of the working plane, longest first; their direction
 *     says nothing about the fall
 * @param code empty where there are lines to dig; else why there are none: {@code not-needed},
 *     {@code no-building} or {@code no-room}
 * @param why what the lot's water does that makes the drain needed, in words with numbers; where
 *     {@code lines} is empty, why it is not needed or not possible
 * @param serves ids of the inflows and low spots it takes
 * @param servedM2 area in m² whose water it takes
 */
record Collector(
    DrainKind kind,
    List<LineString> lines,
    String code,
    String why,
    List<String> serves,
    double servedM2) {

  /** Keeps the lists to itself. */
  Collector {
    lines = List.copyOf(lines);
    serves = List.copyOf(serves);
  }

  /** A drain that has something to take. */
  Collector(
      DrainKind kind, List<LineString> lines, String why, List<String> serves, double servedM2) {
    this(kind, lines, "", why, serves, servedM2);
  }

  /** A drain that has nothing to take, or no room. */
  static Collector none(DrainKind kind, String code, String why) {
    return new Collector(kind, List.of(), code, why, List.of(), 0);
  }

  /** The same with other lines. */
  Collector with(List<LineString> others) {
    return new Collector(kind, others, code, why, serves, servedM2);
  }

  /** Whether there is nothing to dig. */
  boolean isEmpty() {
    return lines.isEmpty();
  }

  /** Length of its lines in metres. */
  double lengthM() {
    return lines.stream().mapToDouble(LineString::getLength).sum();
  }
}
