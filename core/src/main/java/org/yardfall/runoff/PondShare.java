package org.yardfall.runoff;

import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
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
 * Hollows too small to be listed count as full. In one with an open inlet nothing stands that the
 * standing water does not name: all that arrives stays or goes down the inlet, and a drain through
 * it takes none of it.
 *
 * @param lowSpot by cell: index of the outermost low spot, or −1
 * @param stays share of arriving water that stays, by that index, 0 to 1
 * @param roomM3 what it can keep in m³, by that index; infinite where it does not spill
 * @param inletShare share of what stays that an open inlet takes, by that index; negative where
 *     there is no inlet in it
 * @param spots the low spots
 */
@SuppressWarnings("ArrayRecordComponent") // hot-loop arrays
record PondShare(
    int[] lowSpot, double[] stays, double[] roomM3, double[] inletShare, List<LowSpot> spots) {

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
    List<LowSpot> spots = water.lowSpots().stream().filter(l -> l.parentId().isEmpty()).toList();
    double[] roomM3 = new double[spots.size()];
    for (int i = 0; i < roomM3.length; i++) {
      for (int c : CellsWithin.of(water.flow().frame(), spots.get(i).outline())) {
        label[c] = i;
      }
      roomM3[i] = standing.isPresent() ? room(spots.get(i).id(), standing.get(), byId) : 0;
    }
    double[] standsM3 = roomM3.clone();
    double[] inletShare = new double[spots.size()];
    Arrays.fill(inletShare, NONE);
    for (Coordinate inlet : standing.map(StandingWater::inlets).orElse(List.of())) {
      int spot = label[water.flow().frame().index(inlet.x, inlet.y)];
      if (spot != NONE) {
        standsM3[spot] = standsM3(spots.get(spot).id(), standing.get(), byId);
        roomM3[spot] = Double.POSITIVE_INFINITY;
        inletShare[spot] = 0;
      }
    }
    Kept kept = Kept.of(water.flow(), order, runoffM3, label, roomM3);
    for (int i = 0; i < inletShare.length; i++) {
      if (inletShare[i] >= 0 && kept.keptM3[i] > 0) {
        inletShare[i] = Math.max(0, 1 - standsM3[i] / kept.keptM3[i]);
      }
    }
    return new PondShare(label, kept.stays, roomM3, inletShare, spots);
  }

  private static double standsM3(String id, StandingWater standing, Map<String, LowSpot> byId) {
    return standing.ponds().stream()
        .filter(pond -> root(pond.lowSpotId(), byId).equals(id))
        .mapToDouble(Pond::volumeM3)
        .sum();
  }

  /** What a low spot can keep in m³: what stands in it if it spills, else all it gets. */
  private static double room(String id, StandingWater standing, Map<String, LowSpot> byId) {
    double volume = 0;
    boolean wet = false;
    boolean spills = false;
    for (Pond pond : standing.ponds()) {
      if (root(pond.lowSpotId(), byId).equals(id)) {
        wet = true;
        volume += pond.volumeM3();
        spills |= pond.lowSpotId().equals(id) && pond.overflowM3() > 0;
      }
    }
    return !wet ? 0 : spills ? volume : Double.POSITIVE_INFINITY;
  }

  /**
   * The shares once a drain runs through some low spots: these keep only what lies below the lowest
   * ground along it.
   *
   * @param line the drain's cells
   * @param z ground by cell in metres
   */
  PondShare drainedBy(BitSet line, float[] z, FlowField flow, int[] order, double[] runoffM3) {
    double[] room = roomM3.clone();
    for (int c = line.nextSetBit(0); c >= 0; c = line.nextSetBit(c + 1)) {
      int spot = lowSpot[c];
      if (spot != NONE && inletShare[spot] < 0) {
        room[spot] = Math.min(room[spot], belowM3(spots.get(spot), z[c]));
      }
    }
    return keeping(room, flow, order, runoffM3);
  }

  /**
   * The shares once some low spots keep no more than a drain leaves in them.
   *
   * @param keepsM3 what each of those keeps in m³, by its id
   */
  PondShare keeping(Map<String, Double> keepsM3, FlowField flow, int[] order, double[] runoffM3) {
    double[] room = roomM3.clone();
    for (int i = 0; i < room.length; i++) {
      if (inletShare[i] < 0) {
        room[i] =
            Math.min(room[i], keepsM3.getOrDefault(spots.get(i).id(), Double.POSITIVE_INFINITY));
      }
    }
    return keeping(room, flow, order, runoffM3);
  }

  private PondShare keeping(double[] room, FlowField flow, int[] order, double[] runoffM3) {
    Kept kept = Kept.of(flow, order, runoffM3, lowSpot, room);
    return new PondShare(lowSpot, kept.stays, room, inletShare, spots);
  }

  /** The cells whose water comes to a drain: its own, and the lot's in the low spots it runs in. */
  BitSet reachedFrom(BitSet line, BitSet lot) {
    BitSet touched = new BitSet();
    line.stream()
        .map(c -> lowSpot[c])
        .filter(spot -> spot != NONE && inletShare[spot] < 0)
        .forEach(touched::set);
    BitSet cells = (BitSet) line.clone();
    for (int c = lot.nextSetBit(0); c >= 0; c = lot.nextSetBit(c + 1)) {
      if (lowSpot[c] != NONE && touched.get(lowSpot[c])) {
        cells.set(c);
      }
    }
    return cells;
  }

  /** Volume of a low spot below a level, from its stage table. */
  private static double belowM3(LowSpot spot, double levelM) {
    LowSpot.Stage last = new LowSpot.Stage(spot.bottomM(), 0, 0);
    for (LowSpot.Stage s : spot.stages()) {
      if (s.levelM() >= levelM) {
        double rise = s.levelM() - last.levelM();
        double share = rise > 0 ? Math.max(0, (levelM - last.levelM()) / rise) : 0;
        return last.volumeM3() + share * (s.volumeM3() - last.volumeM3());
      }
      last = s;
    }
    return levelM <= spot.bottomM() ? 0 : last.volumeM3();
  }

  /**
   * What each keeps of what arrives; how much arrives does not hang on whose water is kept.
   *
   * @param stays share of what arrives
   * @param keptM3 volume in m³
   */
  @SuppressWarnings("ArrayRecordComponent") // as above
  private record Kept(double[] stays, double[] keptM3) {

    static Kept of(FlowField flow, int[] order, double[] runoffM3, int[] label, double[] roomM3) {
      double[] left = roomM3.clone();
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
      return new Kept(stays, kept);
    }

    private static double keep(
        double amount, int spot, double[] left, double[] arriving, double[] kept) {
      double keeps = Math.min(amount, left[spot]);
      arriving[spot] += amount;
      left[spot] -= keeps;
      kept[spot] += keeps;
      return keeps;
    }
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

  /** Share of what stays in a cell's low spot that an open inlet in it takes; 0 elsewhere. */
  double inletShareAt(int cell) {
    return lowSpot[cell] == NONE ? 0 : Math.max(0, inletShare[lowSpot[cell]]);
  }

  /** Share that stays of water that comes to a cell from another, or from the sky (−1). */
  double staysOf(int from, int cell) {
    int spot = lowSpot[cell];
    return spot == NONE || (from >= 0 && lowSpot[from] == spot) ? 0 : stays[spot];
  }
}
