package org.yardfall.runoff;

import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Surface.Kind;
import org.yardfall.water.FlowField;
import org.yardfall.water.SurfaceWater;

/** Adds up what drains to a set of cells: area, covers, runoff and the rational peak. */
final class ContributionFinder {

  private static final int SKY = -1;
  private static final double KEEPS_ALL = 1 - 1e-9;

  private final SurfaceWater water;
  private final FlowField flow;
  private final GridFrame frame;
  private final ElevationGrid ground;
  private final SurfaceCover cover;
  private final PondShare ponds;
  private final Storm storm;
  private final TimeOfConcentration.Settings settings;
  private final IntFunction<String> parcelId;
  private final Upstream upstream;

  ContributionFinder(
      SurfaceWater water,
      ElevationGrid ground,
      SurfaceCover cover,
      PondShare ponds,
      Storm storm,
      TimeOfConcentration.Settings settings,
      IntFunction<String> parcelId) {
    this.water = water;
    this.flow = water.flow();
    this.frame = flow.frame();
    this.ground = ground;
    this.cover = cover;
    this.ponds = ponds;
    this.storm = storm;
    this.settings = settings;
    this.parcelId = parcelId;
    this.upstream = new Upstream(flow);
  }

  /** The same with other shares kept by the low spots. */
  ContributionFinder with(PondShare other) {
    return new ContributionFinder(water, ground, cover, other, storm, settings, parcelId);
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
    Map<Kind, Double> byCover = new EnumMap<>(Kind.class);
    Map<String, Double> byParcel = new TreeMap<>();
    double[] sums = new double[2]; // area, coefficient times area
    boolean[] cut = new boolean[1];
    int head =
        upstream.walk(
            cells,
            (from, to) -> admit.test(from) && ponds.staysOf(from, to) < KEEPS_ALL,
            c -> cover.openM2(c) > 0 && ponds.staysOf(SKY, c) < KEEPS_ALL,
            c -> {
              if (ponds.staysOf(SKY, c) >= KEEPS_ALL) {
                return;
              }
              add(byCover, c);
              byParcel.merge(parcelId.apply(c), cover.areaM2(c), Double::sum);
              sums[0] += cover.areaM2(c);
              sums[1] += coefficientTimesAreaM2(c);
              cut[0] |= water.edge().get(c);
            });
    TimeOfConcentration time = time(head, cells);
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

  private double coefficientTimesAreaM2(int cell) {
    char group = cover.group();
    return cover.openM2(cell) * RationalMethod.coefficient(cover.at(cell), group, slope(cell))
        + cover.roofM2()[cell] * RationalMethod.coefficient(Kind.ROOF, group, 0);
  }

  private double slope(int cell) {
    int r = flow.receiver(cell);
    double fall = r < 0 ? 0 : ground.z()[cell] - ground.z()[r];
    return fall > 0 ? fall / stepM(cell, r) : 0; // NaN counts as flat
  }

  private double stepM(int a, int b) {
    int d = Math.abs(a - b);
    return d == 1 || d == frame.cols() ? frame.cellM() : frame.cellM() * Math.sqrt(2);
  }

  private TimeOfConcentration time(int head, int[] ends) {
    int n = 0;
    if (head >= 0) {
      BitSet end = new BitSet();
      Arrays.stream(ends).forEach(end::set);
      for (int c = head; !end.get(c); c = flow.receiver(c)) {
        n++;
      }
    }
    double[] step = new double[n];
    double[] fall = new double[n];
    Kind[] kind = new Kind[n];
    double[] area = new double[n];
    int c = head;
    for (int i = 0; i < n; i++) {
      int r = flow.receiver(c);
      step[i] = stepM(c, r);
      fall[i] = Math.max(0, water.filled()[c] - water.filled()[r]);
      kind[i] = cover.at(c);
      area[i] = water.areaM2()[c];
      c = r;
    }
    return TimeOfConcentration.along(step, fall, kind, area, settings);
  }
}
