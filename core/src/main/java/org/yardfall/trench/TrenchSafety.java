package org.yardfall.trench;

import java.util.ArrayList;
import java.util.List;

/**
 * Depths from which a trench asks for more than a shovel. The thresholds are those of the United
 * States' rule for construction work, 29 CFR 1926 Subpart P; elsewhere the local rule holds, which
 * may ask for more and sooner. Below every threshold a trench may still cave in: soil that is
 * loose, wet, dug before or loaded from the side does.
 */
public final class TrenchSafety {

  private static final double FOOT = 0.3048;

  /** Depth in metres from which a way out within 25 ft is needed: 4 ft, 1926.651(c)(2). */
  public static final double EGRESS_M = 4 * FOOT;

  /** Depth in metres from which the sides are protected: 5 ft, 1926.652(a)(1). */
  public static final double PROTECTION_M = 5 * FOOT;

  /** Depth in metres from which an engineer designs the protection: 20 ft, 1926.652. */
  public static final double ENGINEER_M = 20 * FOOT;

  private TrenchSafety() {}

  /**
   * What a depth asks for.
   *
   * @param code short code, lower case with hyphens
   * @param thresholdM depth in metres from which it is asked
   * @param words what is asked, in a sentence
   */
  public record Duty(String code, double thresholdM, String words) {}

  /** What a trench dug to a depth in metres asks for, the mildest first. */
  public static List<Duty> at(double dugDepthM) {
    List<Duty> duties = new ArrayList<>();
    duties.add(
        new Duty(
            "spoil-back",
            0,
            "Keep spoil, stone and machines at least 2 ft (0.6 m) back from the edge"
                + " (29 CFR 1926.651(j)(2) in the United States, your local rule elsewhere)."));
    add(
        duties,
        dugDepthM,
        EGRESS_M,
        "trench-egress",
        "At 4 ft (1.2 m) and deeper a ladder, stair or ramp is needed within 25 ft (7.6 m) of"
            + " everyone in the trench (29 CFR 1926.651(c)(2) in the United States, your local rule"
            + " elsewhere).");
    add(
        duties,
        dugDepthM,
        PROTECTION_M,
        "trench-protection",
        "At 5 ft (1.5 m) and deeper nobody enters without sloped sides, shoring or a shield, and a"
            + " competent person inspects daily and after rain (29 CFR 1926.651(k), 1926.652(a)(1) in"
            + " the United States, your local rule elsewhere); shallower trenches too where there is"
            + " any sign of a cave-in.");
    add(
        duties,
        dugDepthM,
        ENGINEER_M,
        "trench-engineer",
        "Deeper than 20 ft (6.1 m) a registered professional engineer designs the protection"
            + " (29 CFR 1926.652 in the United States, your local rule elsewhere).");
    return List.copyOf(duties);
  }

  private static void add(
      List<Duty> duties, double depthM, double thresholdM, String code, String words) {
    if (depthM >= thresholdM) {
      duties.add(new Duty(code, thresholdM, words));
    }
  }
}
