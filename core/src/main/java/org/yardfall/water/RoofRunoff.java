package org.yardfall.water;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Where the water of the roofs comes down: at the downspouts in equal shares, or evenly along the
 * drip line, the cells round the footprint.
 */
public final class RoofRunoff {

  @SuppressWarnings("ArrayRecordComponent") // never leaves this class
  private record Roof(int[] cells, int[] drip) {}

  private final List<Roof> roofs = new ArrayList<>();

  RoofRunoff() {}

  /** A ground without roofs. */
  public static RoofRunoff none() {
    return new RoofRunoff();
  }

  /**
   * Adds a roof.
   *
   * @param cells its cells
   * @param drip the cells that get its water in equal shares, one as often as it is given; where
   *     there are none the water stays on the roof and takes its own way
   */
  void add(int[] cells, int[] drip) {
    if (cells.length > 0 && drip.length > 0) {
      roofs.add(new Roof(cells.clone(), drip.clone()));
    }
  }

  /** Number of roofs. */
  public int count() {
    return roofs.size();
  }

  /** The cells of all roofs, roof by roof. */
  public int[] cells() {
    return roofs.stream().flatMapToInt(r -> Arrays.stream(r.cells)).toArray();
  }

  /**
   * Moves what falls on the roofs to their downspouts or drip lines.
   *
   * @param amountByCell rain, runoff or area by cell, in any unit that adds up; kept
   * @return the amounts on the ground, with the same sum
   */
  public double[] spread(double[] amountByCell) {
    double[] ground = amountByCell.clone();
    move(ground);
    return ground;
  }

  /** As {@link #spread}, in place. */
  void move(double[] ground) {
    for (Roof roof : roofs) {
      double sum = 0;
      for (int c : roof.cells) {
        sum += ground[c];
        ground[c] = 0;
      }
      for (int c : roof.drip) {
        ground[c] += sum / roof.drip.length;
      }
    }
  }
}
