package org.yardfall.fieldwork;

import java.util.List;
import org.yardfall.trench.TrenchSection;

/**
 * The pipe of a stretch of a line.
 *
 * @param fromM station of the stretch's upper end in metres
 * @param toM station of its lower end in metres
 * @param words what lies in it: {@code 2 × 4 in solid Schedule 40 PVC}
 * @param outsideM outside diameter in metres
 * @param insideM inside diameter in metres
 */
public record LaidPipe(double fromM, double toM, String words, double outsideM, double insideM) {

  private static final double SAME_M = 1e-3;

  /** The trench's section with this pipe in it. */
  TrenchSection in(TrenchSection section) {
    return section.withPipe(outsideM, insideM);
  }

  /**
   * The pipe downstream of a station, at the lower end the last; null where none is known.
   *
   * @param pipes the stretches of a line, downstream
   */
  static LaidPipe at(List<LaidPipe> pipes, double stationM) {
    LaidPipe found = null;
    for (LaidPipe pipe : pipes) {
      if (found == null || pipe.fromM() <= stationM + SAME_M) {
        found = pipe;
      }
    }
    return found;
  }
}
