package org.yardfall.fieldwork;

/**
 * One check of a laid pipe.
 *
 * @param name what was checked: {@code level, line, adverse grade, belly, missing cover, complete,
 *     shots agree}
 * @param passed whether it holds everywhere
 * @param worstM the worst value met in metres
 * @param limitM the limit it was held against in metres
 * @param at where the worst is; null where nothing was met
 */
public record ProofCheck(String name, boolean passed, double worstM, double limitM, Where at) {

  /**
   * A place on the pipe.
   *
   * @param line the line: {@code main}, {@code branch 1} …
   * @param shotId the shot; empty for a stretch
   * @param fromM its station in metres, or where the stretch begins
   * @param toM its station, or where the stretch ends
   */
  public record Where(String line, String shotId, double fromM, double toM) {}

  /** Where the worst is, in words; empty where nothing was met. */
  public String where(FieldUnits units) {
    if (at == null) {
      return "";
    }
    return at.shotId().isEmpty()
        ? "%s, stations %s to %s"
            .formatted(Prover.spoken(at.line()), units.station(at.fromM()), units.station(at.toM()))
        : "shot %s, %s, station %s"
            .formatted(at.shotId(), Prover.spoken(at.line()), units.station(at.fromM()));
  }
}
