package org.yardfall.runoff;

import java.util.List;
import java.util.stream.Stream;
import org.yardfall.site.Assumption;

/**
 * What water comes onto the lot and from whom, what leaves it and onto whom, in the design storm.
 *
 * @param storm the design storm
 * @param inflow stretches of the property line where water comes in, largest volume first
 * @param outflow stretches where water leaves, largest volume first
 * @param balance the totals
 * @param own the lot's own runoff by cover, roof water counted where it comes down
 * @param assumptions what was assumed
 * @param warnings what limits the numbers, in words
 */
public record InflowLedger(
    Storm storm,
    List<BoundaryFlow> inflow,
    List<BoundaryFlow> outflow,
    Balance balance,
    CurveNumber.Runoff own,
    List<Assumption> assumptions,
    List<String> warnings) {

  /** Keeps the lists to itself. */
  public InflowLedger {
    inflow = List.copyOf(inflow);
    outflow = List.copyOf(outflow);
    assumptions = List.copyOf(assumptions);
    warnings = List.copyOf(warnings);
  }

  /** The same with further warnings. */
  InflowLedger withWarnings(List<String> further) {
    return new InflowLedger(
        storm,
        inflow,
        outflow,
        balance,
        own,
        assumptions,
        Stream.concat(warnings.stream(), further.stream()).toList());
  }

  /** Every stretch: what comes in, then what leaves. */
  public List<BoundaryFlow> all() {
    return Stream.concat(inflow.stream(), outflow.stream()).toList();
  }

  /**
   * The lot's water in m³: inflow + own rain = outflow + standing + infiltrated + drained + held
   * beyond + taken by inlets.
   *
   * @param inflowM3 runoff that comes onto the lot
   * @param ownRainM3 rain on the lot
   * @param outflowM3 water that leaves over the ground for good
   * @param standingM3 water left in the lot's low spots; 0 where standing water was not asked for
   * @param infiltratedM3 the lot's own rain that soaked in or was held back
   * @param drainedM3 water carried off by the drain
   * @param heldBeyondM3 water that leaves over the ground, would come back, and stays in a low spot
   *     beyond the line
   * @param inletM3 water that open catch basins take in the low spots in which they lie
   */
  public record Balance(
      double inflowM3,
      double ownRainM3,
      double outflowM3,
      double standingM3,
      double infiltratedM3,
      double drainedM3,
      double heldBeyondM3,
      double inletM3) {

    /** What does not add up, in m³: rounding only. */
    public double errorM3() {
      return inflowM3
          + ownRainM3
          - (outflowM3 + standingM3 + infiltratedM3 + drainedM3 + heldBeyondM3 + inletM3);
    }
  }
}
