package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateArrays;
import org.locationtech.jts.geom.GeometryFactory;

/**
 * Contours of a grid by marching squares: within each square of four cell centres a level runs
 * straight between the sides that it crosses (Lorensen & Cline 1987, in two dimensions). A centre
 * counts as above a level where its elevation is the level or more, so that a level through a
 * centre is crossed once and level ground has no contour. Where two opposite corners are above, the
 * mean of the four says how they are joined. Squares with an unknown corner have none. Takes time
 * in proportion to cells and crossings.
 */
public final class Contours {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final ElevationGrid grid;
  private final int cols;
  private final double intervalM;

  /** For every level, pairs of crossed sides: 2·cell for the one to the east, else to the south. */
  private final TreeMap<Long, Pairs> levels = new TreeMap<>();

  private Contours(ElevationGrid grid, double intervalM) {
    this.grid = grid;
    this.cols = grid.frame().cols();
    this.intervalM = intervalM;
  }

  private static final class Pairs {
    private int[] sides = new int[16];
    private int size;

    void add(int from, int to) {
      if (size + 2 > sides.length) {
        sides = Arrays.copyOf(sides, 2 * sides.length);
      }
      sides[size++] = from;
      sides[size++] = to;
    }
  }

  /**
   * The contours at every whole multiple of an interval, from the lowest level up.
   *
   * @param grid the ground
   * @param intervalM vertical distance between contours in metres, above 0; for contours in feet a
   *     multiple of 0.3048 m
   */
  public static List<Contour> of(ElevationGrid grid, double intervalM) {
    if (!(intervalM > 0) || Double.isInfinite(intervalM)) {
      throw new IllegalArgumentException("contour interval of " + intervalM + " m");
    }
    Contours contours = new Contours(grid, intervalM);
    contours.march();
    List<Contour> lines = new ArrayList<>();
    for (Map.Entry<Long, Pairs> level : contours.levels.entrySet()) {
      contours.join(level.getKey() * intervalM, level.getValue(), lines);
    }
    return lines;
  }

  private void march() {
    for (int row = 0; row + 1 < grid.frame().rows(); row++) {
      for (int col = 0; col + 1 < cols; col++) {
        int cell = row * cols + col;
        float nw = grid.z()[cell];
        float ne = grid.z()[cell + 1];
        float sw = grid.z()[cell + cols];
        float se = grid.z()[cell + cols + 1];
        double low = Math.min(Math.min(nw, ne), Math.min(sw, se));
        double high = Math.max(Math.max(nw, ne), Math.max(sw, se));
        if (!(low < high)) {
          continue; // level, or a corner is NaN
        }
        for (long k = (long) Math.floor(low / intervalM); k * intervalM <= high; k++) {
          square(cell, nw, ne, sw, se, k);
        }
      }
    }
  }

  private void square(int cell, float nw, float ne, float sw, float se, long k) {
    double level = k * intervalM;
    boolean northWest = nw >= level;
    boolean northEast = ne >= level;
    boolean southWest = sw >= level;
    boolean southEast = se >= level;
    int north = 2 * cell;
    int south = 2 * (cell + cols);
    int west = 2 * cell + 1;
    int east = 2 * (cell + 1) + 1;
    int[] crossed = new int[4];
    int count = 0;
    if (northWest != northEast) {
      crossed[count++] = north;
    }
    if (northEast != southEast) {
      crossed[count++] = east;
    }
    if (southEast != southWest) {
      crossed[count++] = south;
    }
    if (southWest != northWest) {
      crossed[count++] = west;
    }
    if (count == 0) {
      return;
    }
    Pairs pairs = levels.computeIfAbsent(k, key -> new Pairs());
    if (count == 2) {
      pairs.add(crossed[0], crossed[1]);
    } else {
      boolean middle = ((double) nw + ne + sw + se) / 4 >= level;
      if (middle == northWest) { // the north-western and south-eastern corners are joined
        pairs.add(north, east);
        pairs.add(south, west);
      } else {
        pairs.add(north, west);
        pairs.add(east, south);
      }
    }
  }

  /**
   * Joins the pairs of a level into lines: open ones first, then rings, each from its first pair.
   */
  private void join(double level, Pairs pairs, List<Contour> lines) {
    Map<Integer, int[]> at = new java.util.HashMap<>();
    int count = pairs.size / 2;
    for (int i = 0; i < 2 * count; i++) {
      int pair = i / 2;
      at.merge(pairs.sides[i], new int[] {pair, -1}, (old, added) -> new int[] {old[0], added[0]});
    }
    boolean[] done = new boolean[count];
    for (int i = 0; i < 2 * count; i++) {
      if (!done[i / 2] && at.get(pairs.sides[i])[1] < 0) {
        follow(pairs.sides[i], i / 2, level, pairs, at, done, lines);
      }
    }
    for (int pair = 0; pair < count; pair++) {
      if (!done[pair]) {
        follow(pairs.sides[2 * pair], pair, level, pairs, at, done, lines);
      }
    }
  }

  private void follow(
      int start,
      int first,
      double level,
      Pairs pairs,
      Map<Integer, int[]> at,
      boolean[] done,
      List<Contour> lines) {
    List<Coordinate> line = new ArrayList<>();
    int side = start;
    int pair = first;
    line.add(point(side, level));
    while (pair >= 0 && !done[pair]) {
      done[pair] = true;
      side = pairs.sides[2 * pair] == side ? pairs.sides[2 * pair + 1] : pairs.sides[2 * pair];
      line.add(point(side, level));
      int[] both = at.get(side);
      pair = both[0] == pair ? both[1] : both[0];
    }
    Coordinate[] vertices = CoordinateArrays.removeRepeatedPoints(line.toArray(Coordinate[]::new));
    if (vertices.length > 1) {
      lines.add(new Contour(level, FACTORY.createLineString(vertices)));
    }
  }

  private Coordinate point(int side, double level) {
    int cell = side / 2;
    boolean eastward = side % 2 == 0;
    int col = cell % cols;
    int row = cell / cols;
    double from = grid.z()[cell];
    double to = grid.z()[eastward ? cell + 1 : cell + cols];
    double share = (level - from) / (to - from);
    GridFrame frame = grid.frame();
    return new Coordinate(
        frame.x(col) + (eastward ? share * frame.cellM() : 0),
        frame.y(row) - (eastward ? 0 : share * frame.cellM()));
  }
}
