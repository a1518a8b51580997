package org.yardfall.fieldwork;

import java.util.List;
import org.yardfall.elevation.Shot;
import org.yardfall.route.Route;
import org.yardfall.site.BadInputException;

/**
 * A laid pipe held against its plan, shot by shot.
 *
 * @param route the planned route
 * @param limits what the pipe was held against
 * @param shots the shots that count, by line and station
 * @param strays shots too far from every line to be of the pipe; not used
 * @param blunders shots that their neighbours contradict; not used, and to be shot again
 * @param bellies where water would stand, however little, by line and station
 * @param gaps stretches that no shot shows, by line and station
 * @param checks every check made, passed or not
 * @param notes what was odd, in words
 */
public record AsBuiltProof(
    Route route,
    ProofLimits limits,
    List<ProofShot> shots,
    List<Shot> strays,
    List<Blunder> blunders,
    List<Belly> bellies,
    List<Gap> gaps,
    List<ProofCheck> checks,
    List<String> notes) {

  /** Keeps the lists to itself. */
  public AsBuiltProof {
    shots = List.copyOf(shots);
    strays = List.copyOf(strays);
    blunders = List.copyOf(blunders);
    bellies = List.copyOf(bellies);
    gaps = List.copyOf(gaps);
    checks = List.copyOf(checks);
    notes = List.copyOf(notes);
  }

  /**
   * Holds shots on the laid pipe against the plan. O(shots × stations).
   *
   * @param route the planned route
   * @param shots shots on the pipe, in any order; on the working plane and the plan's datum
   * @param limits the limits
   * @throws BadInputException if the shots cannot be of this pipe: none or one, all far from the
   *     line, northing and easting in the wrong order, other units, another datum
   */
  public static AsBuiltProof of(Route route, List<Shot> shots, ProofLimits limits) {
    return new Prover(route, shots, limits).prove();
  }

  /** Whether every check passed. */
  public boolean passed() {
    return checks.stream().allMatch(ProofCheck::passed);
  }

  /** Every shot with its figures as CSV. */
  public String csv(FieldUnits units) {
    return ProofText.csv(this, units);
  }

  /** The proof on one page with every number: HTML, black on white. */
  public String page(FieldUnits units) {
    return ProofText.page(this, units);
  }

  /** The profile as built over planned: an SVG drawing. */
  public String profile(FieldUnits units) {
    return ProfileDrawing.svg(this, units);
  }
}
