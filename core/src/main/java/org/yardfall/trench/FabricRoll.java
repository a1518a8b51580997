package org.yardfall.trench;

import java.util.List;

/**
 * Rolls in which drainage fabric is sold, and how a girth of trench is covered from them ({@code
 * common practice, no source}: widths of 3, 4, 6, 8, 12.5 and 15 ft, 100 ft or more long).
 *
 * @param widthM width in metres
 * @param lengthM length in metres
 */
public record FabricRoll(double widthM, double lengthM) {

  private static final double FOOT = 0.3048;

  /** Lap in metres where one roll ends and the next begins, and between strips side by side. */
  public static final double END_LAP_M = 0.30;

  /** Rolls sold, narrowest first. */
  public static final List<FabricRoll> SOLD =
      List.of(
          new FabricRoll(3 * FOOT, 100 * FOOT),
          new FabricRoll(4 * FOOT, 100 * FOOT),
          new FabricRoll(6 * FOOT, 100 * FOOT),
          new FabricRoll(8 * FOOT, 100 * FOOT),
          new FabricRoll(12.5 * FOOT, 100 * FOOT),
          new FabricRoll(15 * FOOT, 100 * FOOT));

  /**
   * Rolls of one width for a trench.
   *
   * @param roll the roll
   * @param strips strips side by side that cover the girth
   * @param rolls rolls to buy
   */
  public record Order(FabricRoll roll, int strips, int rolls) {

    /** Area bought in m². */
    public double areaM2() {
      return rolls * roll.widthM() * roll.lengthM();
    }
  }

  /**
   * The rolls for a trench: the narrowest width that goes round in one piece, else strips of the
   * widest.
   *
   * @param girthM greatest girth in metres of stone and lap
   * @param lengthM length of trench in metres
   */
  public static Order cover(double girthM, double lengthM) {
    FabricRoll roll =
        SOLD.stream()
            .filter(r -> r.widthM() >= girthM)
            .findFirst()
            .orElse(SOLD.get(SOLD.size() - 1));
    int strips =
        girthM <= roll.widthM()
            ? 1
            : (int) Math.ceil((girthM - END_LAP_M) / (roll.widthM() - END_LAP_M) - 1e-9);
    // Every roll but the last of a strip loses a lap to the next.
    double perStrip =
        Math.max(1, Math.ceil((lengthM - END_LAP_M) / (roll.lengthM() - END_LAP_M) - 1e-9));
    return new Order(roll, strips, (int) (strips * perStrip));
  }
}
