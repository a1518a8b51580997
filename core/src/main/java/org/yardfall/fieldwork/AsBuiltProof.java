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
 * @param winter what the pipe was held against of frost
 * @param keepsWater where water stays that frost may reach
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
    Winter winter,
    List<Winter.Place> keepsWater,
    List<ProofCheck> checks,
    List<String> notes) {

  /** Keeps the lists to itself. */
  public AsBuiltProof {
    shots = List.copyOf(shots);
    strays = List.copyOf(strays);
    blunders = List.copyOf(blunders);
    bellies = List.copyOf(bellies);
    gaps = List.copyOf(gaps);
    keepsWater = List.copyOf(keepsWater);
    checks = List.copyOf(checks);
    notes = List.copyOf(notes);
  }

  /** As below, with nothing known of frost and of the pipe's end. */
  public static AsBuiltProof of(Route route, List<Shot> shots, ProofLimits limits) {
    return of(route, shots, limits, Winter.UNKNOWN);
  }

  /**
   * Holds shots on the laid pipe against the plan. O(shots × stations).
   *
   * @param route the planned route
   * @param shots shots on the pipe, in any order; on the working plane and the plan's datum
   * @param limits the limits
   * @param winter the frost and the outlet
   * @throws BadInputException if the shots cannot be of this pipe: none or one, all far from the
   *     line, northing and easting in the wrong order, other units, another datum
   */
  public static AsBuiltProof of(Route route, List<Shot> shots, ProofLimits limits, Winter winter) {
    return new Prover(route, shots, limits, winter).prove();
  }

  /** Whether every check passed. */
  public boolean passed() {
    return checks.stream().allMatch(ProofCheck::passed);
  }

  /** What the winter does to it, in sentences; nothing where no water stays in it. */
  public List<String> winterSentences(FieldUnits units) {
    return keepsWater.stream().map(place -> winter.sentence(place, units)).toList();
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
