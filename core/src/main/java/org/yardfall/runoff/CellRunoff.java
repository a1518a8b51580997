package org.yardfall.runoff;

import java.util.BitSet;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Surface.Kind;
import org.yardfall.water.DInfinity;
import org.yardfall.water.FlowField;
import org.yardfall.water.SurfaceWater;

/**
 * What a cell gives to the peak of the rational method: its area weighed by the coefficients of its
 * covers, and the time its water takes down its path.
 */
public final class CellRunoff {

  private final SurfaceWater water;
  private final FlowField flow;
  private final ElevationGrid ground;
  private final SurfaceCover cover;
  private final TimeOfConcentration.Settings settings;

  /** By cell how far water gets down its own bearing in metres; 0 where nobody asked yet. */
  private final float[] advanceM;

  /**
   * @param water the surface water
   * @param ground the ground by which slopes are taken, on the same grid
   * @param cover the covers of its cells
   * @param settings what the time of concentration leaves open
   */
  public CellRunoff(
      SurfaceWater water,
      ElevationGrid ground,
      SurfaceCover cover,
      TimeOfConcentration.Settings settings) {
    this.water = water;
    this.flow = water.flow();
    this.ground = ground;
    this.cover = cover;
    this.settings = settings;
    this.advanceM = new float[flow.frame().size()];
  }

  /** Area of a cell and of the roofs that drip on it, each times its coefficient, in m². */
  public double effectiveM2(int cell) {
    char group = cover.group();
    return cover.openM2(cell) * RationalMethod.coefficient(cover.at(cell), group, slope(cell))
        + cover.roofM2()[cell] * RationalMethod.coefficient(Kind.ROOF, group, 0);
  }

  private double slope(int cell) {
    int receiver = flow.receiver(cell);
    double fall = receiver < 0 ? 0 : ground.z()[cell] - ground.z()[receiver];
    return fall > 0 ? fall / advanceM(cell) : 0; // NaN counts as flat
  }

  private double advanceM(int cell) {
    if (advanceM[cell] == 0) {
      advanceM[cell] = (float) DInfinity.advanceM(water.filled(), flow, cell);
    }
    return advanceM[cell];
  }

  /**
   * The time from a cell down its path until it meets one of the given cells.
   *
   * <p>Lengths are {@link DInfinity#advanceM those of the way}, not of the zigzag of cells.
   *
   * @param head the cell; −1 for none, whose water is there at once
   */
  public TimeOfConcentration timeDown(int head, BitSet ends) {
    int n = 0;
    for (int c = head; c >= 0 && !ends.get(c); c = flow.receiver(c)) {
      n++;
    }
    double[] step = new double[n];
    double[] fall = new double[n];
    Kind[] kind = new Kind[n];
    double[] area = new double[n];
    int c = head;
    for (int i = 0; i < n; i++) {
      int next = flow.receiver(c);
      step[i] = advanceM(c);
      fall[i] = Math.max(0, water.filled()[c] - water.filled()[next]);
      kind[i] = cover.at(c);
      area[i] = water.areaM2()[c];
      c = next;
    }
    return TimeOfConcentration.along(step, fall, kind, area, settings);
  }
}
