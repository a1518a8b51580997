package org.yardfall.pipe;

/**
 * The trade's rule of thumb for pipe size, shown beside the computed one: 4 in, and 6 in from about
 * 200 ft of run upstream ({@code common practice, no source}).
 */
public final class TradeRule {

  /** Upstream run in metres from which the trade lays 6 in pipe: 200 ft. */
  public static final double SIX_INCH_RUN_M = 60.96;

  private TradeRule() {}

  /** Nominal size in inches for a length of drain upstream in metres. */
  public static int nominalIn(double upstreamM) {
    return upstreamM >= SIX_INCH_RUN_M ? 6 : 4;
  }
}
