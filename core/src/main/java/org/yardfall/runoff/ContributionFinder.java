package org.yardfall.runoff;

import java.util.Arrays;
import java.util.BitSet;
import java.util.function.IntPredicate;
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
  private final ParcelCells parcels;
  private final Upstream upstream;

  ContributionFinder(
      SurfaceWater water,
      SurfaceCover cover,
      CellRunoff runoff,
      PondShare ponds,
      Storm storm,
      ParcelCells parcels,
      Upstream upstream) {
    this.water = water;
    this.cover = cover;
    this.runoff = runoff;
    this.ponds = ponds;
    this.storm = storm;
    this.parcels = parcels;
    this.upstream = upstream;
  }

  /** The same with other shares kept by the low spots. */
  ContributionFinder with(PondShare other) {
    return new ContributionFinder(water, cover, runoff, other, storm, parcels, upstream);
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
    GroundSum sum = none();
    int head =
        walk(cells, admit, c -> counts.test(c) && cover.openM2(c) > 0 && runsOff(c), counts, sum);
    BitSet ends = new BitSet();
    Arrays.stream(cells).forEach(ends::set);
    TimeOfConcentration time = runoff.timeDown(head, ends);
    double intensity = storm.intensityMS(time.seconds());
    double coefficient = coefficient(sum);
    return new Contribution(
        sum.areaM2(),
        sum.isCut(),
        sum.byParcelM2(),
        runoff(sum),
        time,
        intensity,
        coefficient,
        RationalMethod.peakM3S(coefficient, intensity, sum.areaM2()));
  }

  /** The ground of {@link #of(int[], IntPredicate)} alone, whatever time its water takes. */
  GroundSum ground(int[] cells, IntPredicate admit) {
    GroundSum sum = none();
    walk(cells, admit, c -> false, c -> true, sum);
    return sum;
  }

  private int walk(
      int[] cells,
      IntPredicate admit,
      IntPredicate farthestFrom,
      IntPredicate counts,
      GroundSum sum) {
    return upstream.walk(
        cells,
        (from, to) -> admit.test(from) && ponds.staysOf(from, to) < KEEPS_ALL,
        farthestFrom,
        c -> {
          if (counts.test(c) && runsOff(c)) {
            sum.add(c);
          }
        });
  }

  private boolean runsOff(int cell) {
    return ponds.staysOf(SKY, cell) < KEEPS_ALL;
  }

  /** Composite coefficient of some ground in the storm. */
  double coefficient(GroundSum sum) {
    return sum.areaM2() > 0
        ? RationalMethod.composite(
            sum.effectiveM2(),
            sum.areaM2(),
            RationalMethod.frequencyFactor(storm.returnPeriodYears()))
        : 0;
  }

  /** Runoff of some ground in the storm. */
  CurveNumber.Runoff runoff(GroundSum sum) {
    return CurveNumber.runoff(sum.byCoverM2(), cover.curveNumber(), storm.depthM());
  }

  /** A sum of ground without any yet. */
  GroundSum none() {
    return new GroundSum(cover, runoff, parcels, water.edge());
  }
}
