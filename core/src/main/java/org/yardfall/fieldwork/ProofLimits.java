package org.yardfall.fieldwork;

import java.util.List;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.DrainLimits;

/**
 * What a laid pipe is held against.
 *
 * @param held where on the pipe the rod was held
 * @param pipeInsideM inside diameter of the pipe in metres
 * @param pipeOutsideM outside diameter of the pipe in metres
 * @param levelM greatest difference of an invert from the plan in metres, either way
 * @param offsetM greatest distance of the pipe from its line in metres
 * @param minCoverM least cover in metres, as planned
 * @param bellyM greatest depth of water left standing in the pipe in metres
 * @param noiseM what the shots themselves may be out by in metres: a rise of less is no adverse
 *     grade
 * @param gapM greatest distance between shots in metres; a longer stretch counts as not shown
 * @param blunderM difference from the neighbouring shots in metres from which a shot is taken for a
 *     blunder and not for pipe
 */
public record ProofLimits(
    Held held,
    double pipeInsideM,
    double pipeOutsideM,
    double levelM,
    double offsetM,
    double minCoverM,
    double bellyM,
    double noiseM,
    double gapM,
    double blunderM) {

  /** Where on the pipe the rod was held. */
  public enum Held {
    /** Inside, on the bottom. */
    INVERT,
    /** Outside, on the top. */
    TOP
  }

  private static final String NO_SOURCE = "common practice, no source";

  /** Refuses limits that nothing could meet. */
  public ProofLimits {
    if (!(pipeInsideM > 0) || !(pipeOutsideM >= pipeInsideM)) {
      throw new BadInputException(
          "drain.pipe",
          "the pipe's outside diameter must be no less than its inside diameter, both above 0",
          "correct the diameters");
    }
    for (double limit : new double[] {levelM, offsetM, bellyM, gapM, blunderM}) {
      if (!(limit > 0)) {
        throw new BadInputException(
            "proof",
            "a limit of the as-built check is not above 0",
            "give every limit as a length");
      }
    }
    if (!(noiseM >= 0) || !(blunderM > 2 * noiseM)) {
      throw new BadInputException(
          "proof", "the shots' own error must be far below a blunder", "correct the two");
    }
  }

  /**
   * The usual limits for a drain planned within the given ones: 20 mm of level, 0.10 m of line, a
   * belly of 10 mm, shots good to 5 mm and no farther apart than a 10 ft length of pipe, rod held
   * on the invert.
   */
  public static ProofLimits of(DrainLimits drain) {
    return new ProofLimits(
        Held.INVERT,
        drain.pipeInsideM(),
        drain.pipeOutsideM(),
        0.020,
        0.10,
        drain.minCoverM(),
        0.010,
        0.005,
        3.10,
        0.10);
  }

  /** The same with the rod held elsewhere. */
  public ProofLimits on(Held where) {
    return with(where, levelM, offsetM);
  }

  /** The same with other tolerances of level and line. */
  public ProofLimits within(double level, double offset) {
    return with(held, level, offset);
  }

  private ProofLimits with(Held where, double level, double offset) {
    return new ProofLimits(
        where, pipeInsideM, pipeOutsideM, level, offset, minCoverM, bellyM, noiseM, gapM, blunderM);
  }

  /** From where the rod stands down to the invert in metres. */
  public double rodToInvertM() {
    return held == Held.INVERT ? 0 : (pipeInsideM + pipeOutsideM) / 2;
  }

  /** Where the usual limits come from. */
  public static List<Assumption> sources() {
    return List.of(
        new Assumption(
            "proof.level",
            "20 mm",
            "Tauranga City Council, Infrastructure Development Code, CS-9.4 (20 mm, or 5 % of the"
                + " diameter if less, which no laser shows on a small pipe)"),
        new Assumption(
            "proof.adverse-grade",
            "no point lower than any downstream",
            "Tauranga City Council, Infrastructure Development Code, CS-9.4"),
        new Assumption("proof.offset", "0.10 m", NO_SOURCE),
        new Assumption("proof.belly", "10 mm of standing water", NO_SOURCE),
        new Assumption("proof.noise", "5 mm", NO_SOURCE),
        new Assumption("proof.gap", "3.1 m, a shot on every 10 ft length of pipe", NO_SOURCE),
        new Assumption("proof.blunder", "0.10 m off the neighbouring shots", NO_SOURCE));
  }
}
