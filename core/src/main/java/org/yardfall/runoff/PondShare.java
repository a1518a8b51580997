package org.yardfall.runoff;

import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;
import org.yardfall.water.StandingWater.Pond;
import org.yardfall.water.SurfaceWater;

/**
 * How much of the water that arrives in a low spot stays there.
 *
 * <p>A flow field runs over the filled surface and so passes every low spot as if it were full. The
 * share that stays is what its pond holds out of what it holds and spills, for the outermost low
 * spot of each nest: inside it the filled surface has no directions of its own.
 *
 * @param lowSpot by cell: index of the outermost low spot, or −1
 * @param stays share of arriving water that stays, by that index, 0 to 1
 */
@SuppressWarnings("ArrayRecordComponent") // hot-loop arrays
record PondShare(int[] lowSpot, double[] stays) {

  /** The shares of a storm's standing water; none stays where it is not given. */
  static PondShare of(SurfaceWater water, Optional<StandingWater> standing) {
    int[] label = new int[water.flow().frame().size()];
    Arrays.fill(label, -1);
    if (standing.isEmpty()) {
      return new PondShare(label, new double[0]);
    }
    Map<String, LowSpot> byId = new HashMap<>();
    water.lowSpots().forEach(l -> byId.put(l.id(), l));
    Map<String, Pond> ponds = new LinkedHashMap<>();
    standing.get().ponds().forEach(p -> ponds.put(p.lowSpotId(), p));
    Map<String, Double> held = new LinkedHashMap<>();
    for (Pond pond : standing.get().ponds()) {
      String root = root(pond.lowSpotId(), byId);
      Pond whole = ponds.get(root);
      // where the outermost low spot is a pond itself, those inside it are under its water
      if (whole == null || root.equals(pond.lowSpotId())) {
        double share = whole == null ? 1 : pond.volumeM3() / (pond.volumeM3() + pond.overflowM3());
        held.put(root, Double.isNaN(share) ? 0 : share);
      }
    }
    double[] stays = new double[held.size()];
    int i = 0;
    for (Map.Entry<String, Double> e : held.entrySet()) {
      int index = i++;
      stays[index] = e.getValue();
      LowSpot spot = byId.get(e.getKey());
      if (spot != null) {
        CellFill.fill(spot.outline(), water.flow().frame(), c -> label[c] = index);
      }
    }
    return new PondShare(label, stays);
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
    return spot < 0 || (from >= 0 && lowSpot[from] == spot) ? 0 : stays[spot];
  }
}
