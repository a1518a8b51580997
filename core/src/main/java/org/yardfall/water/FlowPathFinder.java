package org.yardfall.water;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Assumption;

/**
 * Flow paths: where the water of a large enough area runs together. A path begins where that area
 * is first reached, or where a low spot spills; at a junction the one with the larger area goes on
 * and the other ends there; a path ends where it leaves the known ground or in the deepest cell of
 * a low spot that holds its water.
 */
final class FlowPathFinder {

  private static final double LEAST_AREA_M2 = 100;
  private static final int LEAST_AREA_CELLS = 50;
  private static final double LEAST_SHARE = 1 / 200.0;
  private static final int SHORTEST_CELLS = 10;
  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  /** The rest of the way from where a path enters a low spot. */
  interface Pond {

    /** The low spot, not within another, that holds its water and a cell; 0 for none. */
    int at(int cell);

    /** Makes ready the ways in some low spots, given once each. */
    void open(int[] nodes);

    /** The cells from one where water enters a low spot made ready to its deepest. */
    List<Integer> inward(int cell);
  }

  private final FlowField flow;
  private final double[] areaM2;
  private final Pond pond;
  private final double leastM2;

  FlowPathFinder(FlowField flow, double[] areaM2, int knownCells, Pond pond) {
    this.flow = flow;
    this.areaM2 = areaM2;
    this.pond = pond;
    double cellM2 = flow.frame().cellAreaM2();
    leastM2 =
        Math.max(
            Math.max(LEAST_AREA_M2, LEAST_AREA_CELLS * cellM2), LEAST_SHARE * knownCells * cellM2);
  }

  /** How large an area makes a path. */
  Assumption assumption() {
    return new Assumption(
        "flow paths",
        String.format(
            Locale.ROOT,
            "drawn from a contributing area of %.0f m2 on, down the slope to one of"
                + " eight neighbours, not spread over two by D-infinity; branches of fewer"
                + " than %d cells are not drawn; they end in low spots that keep %.0f mm of runoff"
                + " from all their ground and run through lesser ones",
            leastM2,
            SHORTEST_CELLS,
            Contributing.KEPT_M * 1000),
        "common practice, no source");
  }

  /** The cells of each path down to its junction, its low spot or its end, largest area first. */
  List<List<Integer>> ways() {
    Map<Integer, Integer> main = mainUpstream();
    List<List<Integer>> ways = new ArrayList<>();
    for (int c = 0; c < areaM2.length; c++) {
      if (isPath(c)) {
        int next = flow.receiver(c);
        boolean ends = next < 0 || !isPath(next) || main.get(next) != c;
        if (ends) {
          ways.add(trace(c, main));
        }
      }
    }
    ways.removeIf(w -> w.size() < SHORTEST_CELLS && joins(last(w)));
    ways.sort(
        Comparator.<List<Integer>>comparingDouble(w -> -areaM2[last(w)])
            .thenComparing(w -> w.get(0)));
    return ways;
  }

  /**
   * The paths along some ways, in their order.
   *
   * @param edge cells that water from beyond the known ground can reach
   * @param undetermined cells whose direction is not known
   */
  List<FlowPath> along(List<List<Integer>> ways, BitSet edge, BitSet undetermined) {
    pond.open(ways.stream().mapToInt(this::enters).filter(n -> n != 0).distinct().toArray());
    List<FlowPath> paths = new ArrayList<>();
    for (List<Integer> way : ways) {
      int last = last(way);
      long unsure = way.stream().filter(undetermined::get).count();
      List<Integer> whole = new ArrayList<>(way);
      int next = flow.receiver(last);
      if (enters(way) != 0) {
        whole.addAll(pond.inward(next));
      } else if (next >= 0) {
        whole.add(next);
      }
      if (whole.size() > 1) {
        paths.add(
            new FlowPath(
                "F" + (paths.size() + 1),
                line(whole),
                areaM2[last],
                edge.get(last),
                2 * unsure > way.size()));
      }
    }
    return paths;
  }

  private static int last(List<Integer> way) {
    return way.get(way.size() - 1);
  }

  /** The low spot that a way ends in; 0 for none. */
  private int enters(List<Integer> way) {
    int next = flow.receiver(last(way));
    return next < 0 ? 0 : pond.at(next);
  }

  private boolean isPath(int c) {
    return areaM2[c] >= leastM2 && pond.at(c) == 0;
  }

  private boolean joins(int last) {
    int next = flow.receiver(last);
    return next >= 0 && isPath(next);
  }

  private Map<Integer, Integer> mainUpstream() {
    Map<Integer, Integer> main = new HashMap<>();
    for (int c = 0; c < areaM2.length; c++) {
      if (isPath(c)) {
        int from = c;
        int next = flow.receiver(c);
        if (next >= 0) {
          main.merge(next, from, (a, b) -> areaM2[b] > areaM2[a] ? b : a);
        }
      }
    }
    return main;
  }

  private List<Integer> trace(int last, Map<Integer, Integer> main) {
    List<Integer> way = new ArrayList<>();
    for (Integer c = last; c != null; c = main.get(c)) {
      way.add(c);
    }
    Collections.reverse(way);
    return way;
  }

  /** A line through the cells' centres, without the vertices on straight runs. */
  private LineString line(List<Integer> cells) {
    GridFrame frame = flow.frame();
    List<Coordinate> vertices = new ArrayList<>();
    for (int i = 0; i < cells.size(); i++) {
      boolean straight =
          i > 0
              && i < cells.size() - 1
              && cells.get(i) - cells.get(i - 1) == cells.get(i + 1) - cells.get(i);
      if (!straight) {
        vertices.add(frame.centre(cells.get(i)));
      }
    }
    return GEOMETRY.createLineString(vertices.toArray(Coordinate[]::new));
  }
}
