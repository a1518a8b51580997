package org.yardfall.drain;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.yardfall.water.FlowField;

/**
 * Where water that a stretch cannot take in runs on to: down the flow field from where most of it
 * leaves the stretch, to the next stretch or low spot of the drain. Stretches in one low spot
 * belong together, since its water stands over all of them. O(n) in the cells of the grid.
 */
final class DrainOverflow {

  private static final int NONE = -1;

  private final List<List<Integer>> after;

  private DrainOverflow(List<List<Integer>> after) {
    this.after = after;
  }

  /**
   * The ways on.
   *
   * @param stretches how many stretches there are
   * @param pools for each low spot the stretches in it
   * @param marks by cell the stretch it lies at, or the number of stretches and that of the low
   *     spot it lies in; negative elsewhere
   * @param areaM2 area that drains through each cell in m²
   */
  static DrainOverflow of(
      int stretches, List<List<Integer>> pools, int[] marks, FlowField flow, double[] areaM2) {
    int[] group = groups(stretches, pools);
    int[] exit = new int[stretches];
    Arrays.fill(exit, NONE);
    for (int cell = 0; cell < marks.length; cell++) {
      if (marks[cell] >= 0) {
        int own = group[marks[cell]];
        int next = flow.receiver(cell);
        boolean leaves = next < 0 || marks[next] < 0 || group[marks[next]] != own;
        if (leaves && (exit[own] == NONE || areaM2[cell] > areaM2[exit[own]])) {
          exit[own] = cell;
        }
      }
    }
    List<List<Integer>> members = new ArrayList<>();
    for (int s = 0; s < stretches; s++) {
      members.add(new ArrayList<>());
    }
    for (int s = 0; s < stretches; s++) {
      members.get(group[s]).add(s);
    }
    List<List<Integer>> after = new ArrayList<>();
    for (int s = 0; s < stretches; s++) {
      int cell = exit[group[s]];
      while (cell >= 0 && (marks[cell] < 0 || group[marks[cell]] == group[s])) {
        cell = flow.receiver(cell);
      }
      after.add(cell < 0 ? List.of() : List.copyOf(members.get(group[marks[cell]])));
    }
    return new DrainOverflow(after);
  }

  /** By stretch, then by low spot, the lowest stretch of those that belong together. */
  private static int[] groups(int stretches, List<List<Integer>> pools) {
    int[] group = new int[stretches + pools.size()];
    Arrays.setAll(group, i -> i);
    boolean changed = true;
    while (changed) {
      changed = false;
      for (List<Integer> pool : pools) {
        int least = pool.stream().mapToInt(s -> group[s]).min().orElseThrow();
        for (int s : pool) {
          changed |= group[s] != least;
          group[s] = least;
        }
      }
    }
    for (int p = 0; p < pools.size(); p++) {
      group[stretches + p] = group[pools.get(p).get(0)];
    }
    return group;
  }

  /** The stretches that water comes to next once it has run over a stretch; empty where none. */
  List<Integer> after(int stretch) {
    return after.get(stretch);
  }
}
