package org.yardfall.water;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import org.yardfall.elevation.ElevationGrid;

/**
 * The way from a low spot's rim to its deepest cell over the lowest inner sills: a priority-flood
 * (Barnes, Lehman &amp; Mulla 2014) from the deepest cell up, each cell keeping whence it was
 * reached. Made when a path first asks for it.
 */
final class PondPaths implements FlowPathFinder.Pond {

  private record Reached(float level, long order, int cell) implements Comparable<Reached> {
    @Override
    public int compareTo(Reached other) {
      int byLevel = Float.compare(level, other.level);
      return byLevel != 0 ? byLevel : Long.compare(order, other.order);
    }
  }

  private final ElevationGrid ground;
  private final DepressionHierarchy depressions;
  private final Contributing contributing;
  private final NodeCells cells;
  private final float[] filled;
  private final Map<Integer, Map<Integer, Integer>> downByNode = new HashMap<>();

  PondPaths(
      ElevationGrid ground,
      DepressionHierarchy depressions,
      Contributing contributing,
      NodeCells cells,
      float[] filled) {
    this.ground = ground;
    this.depressions = depressions;
    this.contributing = contributing;
    this.cells = cells;
    this.filled = filled;
  }

  @Override
  public int at(int cell) {
    if (!(filled[cell] > ground.z()[cell])) {
      return 0;
    }
    int root = depressions.root(depressions.pitOf(cell));
    return contributing.holds(root) ? root : 0;
  }

  @Override
  public List<Integer> inward(int node, int cell) {
    Map<Integer, Integer> down = downByNode.computeIfAbsent(node, this::flood);
    List<Integer> way = new ArrayList<>();
    for (Integer c = cell; c != null; c = down.get(c)) {
      way.add(c);
    }
    return way;
  }

  private Map<Integer, Integer> flood(int node) {
    Map<Integer, Integer> down = new HashMap<>();
    Map<Integer, Boolean> held = new HashMap<>();
    for (int c : cells.of(node)) {
      held.put(c, true);
    }
    int[] offset = Neighbours.offsets(ground.frame().cols());
    int deepest = depressions.bottomCell(node);
    PriorityQueue<Reached> open = new PriorityQueue<>();
    open.add(new Reached(ground.z()[deepest], 0, deepest));
    held.remove(deepest);
    long order = 0;
    while (!open.isEmpty()) {
      Reached from = open.remove();
      for (int k : Neighbours.SIDES_FIRST) {
        int n = from.cell + offset[k];
        if (held.remove(n) != null) {
          down.put(n, from.cell);
          open.add(new Reached(Math.max(from.level, ground.z()[n]), ++order, n));
        }
      }
    }
    return down;
  }
}
