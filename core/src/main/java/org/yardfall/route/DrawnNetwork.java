package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.locationtech.jts.geom.Point;
import org.yardfall.site.Outlet;
import org.yardfall.site.PinnedLine;

/**
 * A line that the user drew to an outlet, with the drawn lines that end on it: its branches.
 *
 * @param main the line that leads to the outlet
 * @param branches lines with an end on it, in the order in which they were drawn
 */
record DrawnNetwork(PinnedLine main, List<PinnedLine> branches) {

  /**
   * A line drawn to within this distance of what it leads to, in metres, was meant to end there.
   */
  static final double MEANT_M = 0.5;

  /** Keeps the list to itself. */
  DrawnNetwork {
    branches = List.copyOf(branches);
  }

  /**
   * The networks of drawn lines. A line that reaches no outlet and has an end on one that does is
   * that one's branch, of the one with its own id before any other; every other line stands alone.
   */
  static List<DrawnNetwork> of(List<PinnedLine> drawn, List<Outlet> outlets) {
    Map<PinnedLine, List<PinnedLine>> networks = new LinkedHashMap<>();
    List<PinnedLine> reaching = drawn.stream().filter(line -> reaches(line, outlets)).toList();
    for (PinnedLine line : drawn) {
      if (reaching.contains(line) || parent(line, reaching).isEmpty()) {
        networks.put(line, new ArrayList<>());
      }
    }
    for (PinnedLine line : drawn) {
      if (!networks.containsKey(line)) {
        networks.get(parent(line, reaching).orElseThrow()).add(line);
      }
    }
    return networks.entrySet().stream()
        .map(e -> new DrawnNetwork(e.getKey(), e.getValue()))
        .toList();
  }

  private static boolean reaches(PinnedLine line, List<Outlet> outlets) {
    return outlets.stream()
        .map(outlet -> line.line().getFactory().createPoint(outlet.at()))
        .anyMatch(
            at ->
                line.line().getStartPoint().distance(at) <= MEANT_M
                    || line.line().getEndPoint().distance(at) <= MEANT_M);
  }

  private static Optional<PinnedLine> parent(PinnedLine line, List<PinnedLine> reaching) {
    return reaching.stream()
        .filter(other -> toEnd(line, other) <= MEANT_M)
        .min(
            Comparator.comparing((PinnedLine other) -> !other.id().equals(line.id()))
                .thenComparingDouble(other -> toEnd(line, other)));
  }

  private static double toEnd(PinnedLine line, PinnedLine other) {
    Point start = line.line().getStartPoint();
    return Math.min(other.line().distance(start), other.line().distance(line.line().getEndPoint()));
  }
}
