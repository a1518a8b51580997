package org.yardfall.runoff;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.yardfall.water.CellsWithin;
import org.yardfall.water.FlowField;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;
import org.yardfall.water.StandingWater.Pond;
import org.yardfall.water.SurfaceWater;

/**
 * How much of the water that arrives in a low spot stays there.
 *
 * <p>A flow field runs over the filled surface and so passes every low spot as if it were full.
 * What stays is what stands in the outermost low spot of each nest, since inside it the filled
 * surface has no directions of its own; one that does not spill keeps all. What is kept is taken
 * from every arrival in the same share, so that no neighbour's water is kept before another's.
 * Hollows too small to be listed count as full.
 *
 * @param lowSpot by cell: index of the outermost low spot, or −1
 * @param stays share of arriving water that stays, by that index, 0 to 1
 */
@SuppressWarnings("ArrayRecordComponent") // hot-loop arrays
record PondShare(int[] lowSpot, double[] stays) {

  private static final int NONE = -1;

  /**
   * The shares of a storm's standing water; none stays where it is not given.
   *
   * @param order the cells, each before its receiver
   * @param runoffM3 runoff that starts on each cell in m³
   */
  static PondShare of(
      SurfaceWater water, Optional<StandingWater> standing, int[] order, double[] runoffM3) {
    int[] label = new int[order.length];
    Arrays.fill(label, NONE);
    Map<String, LowSpot> byId = new HashMap<>();
    water.lowSpots().forEach(l -> byId.put(l.id(), l));
    Map<String, Double> room = new TreeMap<>();
    for (Pond pond : standing.map(StandingWater::ponds).orElse(List.of())) {
      String root = root(pond.lowSpotId(), byId);
      room.merge(root, pond.volumeM3(), Double::sum);
    }
    room.replaceAll((id, m3) -> holdsAll(id, standing) ? Double.POSITIVE_INFINITY : m3);
    double[] left = new double[room.size()];
    int i = 0;
    for (Map.Entry<String, Double> e : room.entrySet()) {
      int index = i++;
      left[index] = e.getValue();
      if (byId.containsKey(e.getKey())) {
        for (int c : CellsWithin.of(water.flow().frame(), byId.get(e.getKey()).outline())) {
          label[c] = index;
        }
      }
    }
    return new PondShare(label, shares(water.flow(), order, runoffM3, label, left));
  }

  private static boolean holdsAll(String root, Optional<StandingWater> standing) {
    return standing.orElseThrow().ponds().stream()
        .noneMatch(p -> p.lowSpotId().equals(root) && p.overflowM3() > 0);
  }

  /** What each keeps of what arrives; how much arrives does not hang on whose water is kept. */
  private static double[] shares(
      FlowField flow, int[] order, double[] runoffM3, int[] label, double[] left) {
    double[] arriving = new double[left.length];
    double[] kept = new double[left.length];
    double[] through = new double[order.length];
    for (int c : order) {
      if (flow.toward()[c] == FlowField.UNKNOWN) {
        continue;
      }
      int spot = label[c];
      double own = runoffM3[c];
      through[c] += spot == NONE ? own : own - keep(own, spot, left, arriving, kept);
      int r = flow.receiver(c);
      if (r >= 0) {
        int next = label[r];
        through[r] +=
            next == NONE || next == spot
                ? through[c]
                : through[c] - keep(through[c], next, left, arriving, kept);
      }
    }
    double[] stays = new double[left.length];
    Arrays.setAll(stays, k -> arriving[k] > 0 ? kept[k] / arriving[k] : 0);
    return stays;
  }

  private static double keep(
      double amount, int spot, double[] left, double[] arriving, double[] kept) {
    double keeps = Math.min(amount, left[spot]);
    arriving[spot] += amount;
    left[spot] -= keeps;
    kept[spot] += keeps;
    return keeps;
  }

  private static String root(String id, Map<String, LowSpot> byId) {
    String at = id;
    LowSpot spot = byId.get(at);
    while (spot != null && !spot.parentId().isEmpty()) {
      at = spot.parentId();
      spot = byId.get(at);
    }
    return at;
  }

  /** Share that stays of water that comes to a cell from another, or from the sky (−1). */
  double staysOf(int from, int cell) {
    int spot = lowSpot[cell];
    return spot == NONE || (from >= 0 && lowSpot[from] == spot) ? 0 : stays[spot];
  }
}
