package org.yardfall.runoff;

import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;
import org.yardfall.site.Surface.Kind;
import org.yardfall.water.SurfaceWater;

/** Adds up what drains to a set of cells: area, covers, runoff and the rational peak. */
final class ContributionFinder {

  private static final int SKY = -1;
  private static final double KEEPS_ALL = 1 - 1e-9;

  private final SurfaceWater water;
  private final SurfaceCover cover;
  private final CellRunoff runoff;
  private final PondShare ponds;
  private final Storm storm;
  private final IntFunction<String> parcelId;
  private final Upstream upstream;

  ContributionFinder(
      SurfaceWater water,
      SurfaceCover cover,
      CellRunoff runoff,
      PondShare ponds,
      Storm storm,
      IntFunction<String> parcelId) {
    this.water = water;
    this.cover = cover;
    this.runoff = runoff;
    this.ponds = ponds;
    this.storm = storm;
    this.parcelId = parcelId;
    this.upstream = new Upstream(water.flow());
  }

  /** The same with other shares kept by the low spots. */
  ContributionFinder with(PondShare other) {
    return new ContributionFinder(water, cover, runoff, other, storm, parcelId);
  }

  /**
   * What drains to the given cells in the storm, those included. What lies above a low spot that
   * keeps all it gets is left out; one that spills lets everything pass, which does not flatter the
   * peak.
   *
   * @param cells where it gathers
   * @param admit cells above them that count; what lies above one that does not is left out
   */
  Contribution of(int[] cells, IntPredicate admit) {
    return of(cells, admit, c -> true);
  }

  /**
   * As {@link #of(int[], IntPredicate)}, of some cells only.
   *
   * @param counts cells whose own water counts; what lies above the others may count all the same
   */
  Contribution of(int[] cells, IntPredicate admit, IntPredicate counts) {
    Map<Kind, Double> byCover = new EnumMap<>(Kind.class);
    Map<String, Double> byParcel = new TreeMap<>();
    double[] sums = new double[2]; // area, coefficient times area
    boolean[] cut = new boolean[1];
    int head =
        upstream.walk(
            cells,
            (from, to) -> admit.test(from) && ponds.staysOf(from, to) < KEEPS_ALL,
            c -> counts.test(c) && cover.openM2(c) > 0 && ponds.staysOf(SKY, c) < KEEPS_ALL,
            c -> {
              if (!counts.test(c) || ponds.staysOf(SKY, c) >= KEEPS_ALL) {
                return;
              }
              add(byCover, c);
              byParcel.merge(parcelId.apply(c), cover.areaM2(c), Double::sum);
              sums[0] += cover.areaM2(c);
              sums[1] += runoff.effectiveM2(c);
              cut[0] |= water.edge().get(c);
            });
    BitSet ends = new BitSet();
    Arrays.stream(cells).forEach(ends::set);
    TimeOfConcentration time = runoff.timeDown(head, ends);
    double intensity = storm.intensityMS(time.seconds());
    double coefficient =
        sums[0] > 0
            ? RationalMethod.composite(
                sums[1], sums[0], RationalMethod.frequencyFactor(storm.returnPeriodYears()))
            : 0;
    return new Contribution(
        sums[0],
        cut[0],
        byParcel,
        CurveNumber.runoff(byCover, cover.group(), storm.depthM()),
        time,
        intensity,
        coefficient,
        RationalMethod.peakM3S(coefficient, intensity, sums[0]));
  }

  /** Adds a cell's own cover and the roofs that drip on it. */
  void add(Map<Kind, Double> byCover, int cell) {
    if (cover.openM2(cell) > 0) {
      byCover.merge(cover.at(cell), cover.openM2(cell), Double::sum);
    }
    if (cover.roofM2()[cell] > 0) {
      byCover.merge(Kind.ROOF, cover.roofM2()[cell], Double::sum);
    }
  }
}
