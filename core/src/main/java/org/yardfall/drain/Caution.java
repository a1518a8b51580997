package org.yardfall.drain;

import org.yardfall.site.UnitSystem;

/**
 * What the builder of a drain must be told where a condition is met. It never replaces local code
 * or licensed practice.
 *
 * @param code short code, lower case with hyphens
 * @param line the line concerned, {@code main}, {@code branch 1} …, or empty for the whole drain
 * @param stationM station in metres, NaN for the whole drain
 * @param valueM the length, depth or distance in metres that triggered it; NaN where none did
 * @param thresholdM what it was held against in metres; NaN where none is
 * @param words what to mind, in sentences
 */
public record Caution(
    String code, String line, double stationM, double valueM, double thresholdM, String words) {

  /** A caution for the whole drain. */
  static Caution general(String code, String words) {
    return new Caution(code, "", Double.NaN, Double.NaN, Double.NaN, words);
  }

  /** The caution as the one line that a person reads, with its place and number. */
  public String sentence(UnitSystem units) {
    return Double.isNaN(stationM) ? words : place(units) + ": " + words;
  }

  /** The words without the closing bow to code and practice, for a list that says it once. */
  public String briefly() {
    return words.endsWith(CautionFinder.DEFER)
        ? words.substring(0, words.length() - CautionFinder.DEFER.length())
        : words;
  }

  /** Where on its line it holds, and the number that triggered it. */
  public String place(UnitSystem units) {
    StringBuilder text = new StringBuilder(line + " station " + units.length(stationM));
    boolean inside = valueM == 0 && thresholdM == 0; // what is entered needs no distance
    if (!Double.isNaN(valueM) && !inside) {
      text.append(" (").append(units.length(valueM));
      if (!Double.isNaN(thresholdM)) {
        text.append(valueM < thresholdM ? ", less than " : ", not less than ")
            .append(units.length(thresholdM));
      }
      text.append(")");
    }
    return text.toString();
  }
}
