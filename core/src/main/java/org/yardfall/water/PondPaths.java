package org.yardfall.water;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.yardfall.elevation.ElevationGrid;

/**
 * The way from a low spot's rim to its deepest cell over the lowest inner sills: a priority-flood
 * (Barnes, Lehman &amp; Mulla 2014) from the deepest cell up, each cell keeping whence it was
 * reached. On all cores, a low spot on each.
 */
final class PondPaths implements FlowPathFinder.Pond {

  /** A cell of a low spot that the flood has not reached yet. */
  private static final byte DRY = 9;

  /** The deepest cell. */
  private static final byte DEEPEST = 10;

  private final ElevationGrid ground;
  private final DepressionHierarchy depressions;
  private final Contributing contributing;
  private final NodeCells cells;
  private final float[] filled;
  private final int[] offset;

  /** By cell: 1 + the direction whence it was reached; 0 in low spots not made ready. */
  private byte[] down = new byte[0];

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
    this.offset = Neighbours.offsets(ground.frame().cols());
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
  public void open(int[] nodes) {
    if (nodes.length > 0) {
      down = new byte[filled.length];
      Arrays.stream(nodes).parallel().forEach(node -> flood(node, depressions.bottomCell(node)));
    }
  }

  @Override
  public List<Integer> inward(int cell) {
    List<Integer> way = new ArrayList<>();
    int c = cell;
    // A part of the pond joined to the deepest only at spill level is not reached from there.
    while (down[c] != DEEPEST && down[c] != DRY) {
      way.add(c);
      c += offset[down[c] - 1];
    }
    way.add(c);
    return way;
  }

  private void flood(int node, int deepest) {
    int[] held = cells.of(node);
    for (int c : held) {
      down[c] = DRY;
    }
    int[] reached = new int[held.length];
    LeastFirst open = new LeastFirst();
    down[deepest] = DEEPEST;
    reached[0] = deepest;
    int size = 1;
    open.add(ground.z()[deepest], 0);
    // What lies no higher than the water waits in line rather than in the heap, behind all in the
    // heap that is as high; so the order is that of a heap alone.
    int[] line = new int[held.length];
    int first = 0;
    int last = 0;
    float water = Float.NEGATIVE_INFINITY;
    while (first < last || !open.isEmpty()) {
      int from;
      if (first < last && (open.isEmpty() || open.leastHeight() > water)) {
        from = reached[line[first++]];
      } else {
        water = open.leastHeight();
        from = reached[open.remove()];
      }
      for (int k : Neighbours.SIDES_FIRST) {
        int n = from + offset[k];
        if (down[n] == DRY) {
          down[n] = (byte) (1 + Neighbours.opposite(k));
          if (ground.z()[n] <= water) {
            line[last++] = size;
          } else {
            open.add(ground.z()[n], size);
          }
          reached[size++] = n;
        }
      }
    }
  }
}
