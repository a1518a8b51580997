package org.yardfall.water;

import java.util.Arrays;
import org.yardfall.elevation.ElevationGrid;

/**
 * The water level of a pond by its volume, its bed being given by cells. Exact for the grid: a cell
 * is under water as a whole once the level is above it.
 */
final class PondTable {

  private final float[] bed;
  private final double[] heightSum;
  private final double cellAreaM2;

  private PondTable(float[] bed, double cellAreaM2) {
    this.bed = bed;
    this.cellAreaM2 = cellAreaM2;
    heightSum = new double[bed.length + 1]; // above the lowest cell, so that little cancels
    for (int i = 0; i < bed.length; i++) {
      heightSum[i + 1] = heightSum[i] + ((double) bed[i] - bed[0]);
    }
  }

  static PondTable of(ElevationGrid ground, int[] cells) {
    float[] bed = new float[cells.length];
    for (int i = 0; i < bed.length; i++) {
      bed[i] = ground.z()[cells[i]];
    }
    Arrays.sort(bed);
    return new PondTable(bed, ground.frame().cellAreaM2());
  }

  /** The level in metres at which the pond holds a volume. */
  double levelM(double volumeM3) {
    int low = 1;
    int high = bed.length;
    while (low < high) { // the fewest cells whose pond, full to the next cell, holds as much
      int mid = (low + high) >>> 1;
      if (mid * ((double) bed[mid] - bed[0]) - heightSum[mid] >= volumeM3 / cellAreaM2) {
        high = mid;
      } else {
        low = mid + 1;
      }
    }
    return bed[0] + (volumeM3 / cellAreaM2 + heightSum[low]) / low;
  }
}
