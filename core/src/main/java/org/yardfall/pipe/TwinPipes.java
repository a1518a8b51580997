package org.yardfall.pipe;

/**
 * Several smaller pipes in place of one larger, as under a slab where there is no height for the
 * larger. At the same grade and head each carries in proportion to D^(8/3)/n (Manning).
 */
public final class TwinPipes {

  private TwinPipes() {}

  /**
   * What the smaller pipes carry together as a share of what the larger carries, all full at the
   * same grade: 1 or more means they do.
   *
   * @param count how many smaller pipes
   */
  public static double capacityRatio(int count, Pipe smaller, Pipe larger) {
    return count
        * Math.pow(smaller.insideM() / larger.insideM(), 8.0 / 3.0)
        * larger.n()
        / smaller.n();
  }

  /** How many of the smaller pipes carry what the larger does. */
  public static int needed(Pipe smaller, Pipe larger) {
    return (int) Math.ceil(1 / capacityRatio(1, smaller, larger) - 1e-9);
  }
}
