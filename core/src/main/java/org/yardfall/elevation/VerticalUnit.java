package org.yardfall.elevation;

import java.util.Locale;
import java.util.Optional;
import org.yardfall.site.WorkingCrs;

/**
 * The unit of a raster's elevations.
 *
 * @param metres metres per unit
 * @param name the unit's name
 * @param readFrom where it was read
 */
record VerticalUnit(double metres, String name, String readFrom) {

  /** A unit given in metres; its name is found by its length. */
  static VerticalUnit ofMetres(double metres, String readFrom) {
    String name;
    if (metres == 1) {
      name = "metre";
    } else if (metres == WorkingCrs.INTERNATIONAL_FOOT_M) {
      name = "international foot";
    } else if (Math.abs(metres - WorkingCrs.US_SURVEY_FOOT_M) < 1e-12) {
      return new VerticalUnit(WorkingCrs.US_SURVEY_FOOT_M, "US survey foot", readFrom);
    } else {
      name = metres + " m";
    }
    return new VerticalUnit(metres, name, readFrom);
  }

  /**
   * What to say where a unit that was stated overrules another that the file names itself.
   *
   * @param name the file
   * @param own the file's own unit
   * @param of what it is the unit of, for the sentence
   * @param statedM the stated unit in metres
   */
  static Optional<String> overruled(
      String name, Optional<VerticalUnit> own, String of, double statedM) {
    return own.filter(unit -> Math.abs(unit.metres() / statedM - 1) > 1e-9)
        .map(
            unit ->
                name
                    + " names the "
                    + unit.name()
                    + " as "
                    + of
                    + "; the stated "
                    + ofMetres(statedM, "").name()
                    + " is used instead");
  }

  /** A unit by its EPSG code; those in which elevations are recorded. */
  static Optional<VerticalUnit> ofEpsg(int code, String readFrom) {
    return switch (code) {
      case 9001 -> Optional.of(ofMetres(1, readFrom));
      case 9002 -> Optional.of(ofMetres(WorkingCrs.INTERNATIONAL_FOOT_M, readFrom));
      case 9003 -> Optional.of(ofMetres(WorkingCrs.US_SURVEY_FOOT_M, readFrom));
      case 1025 -> Optional.of(ofMetres(0.001, readFrom));
      case 1033 -> Optional.of(ofMetres(0.01, readFrom));
      default -> Optional.empty();
    };
  }

  /** A unit by a word as programs write it beside a band; "foot" alone is the international one. */
  static Optional<VerticalUnit> ofWord(String word, String readFrom) {
    String plain =
        word.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s_.-]+", " ").replace("'", "");
    return switch (plain) {
      case "m", "metre", "metres", "meter", "meters", "mtr" -> Optional.of(ofMetres(1, readFrom));
      case "dm", "decimetre", "decimetres", "decimeter", "decimeters" ->
          Optional.of(ofMetres(0.1, readFrom));
      case "cm", "centimetre", "centimetres", "centimeter", "centimeters" ->
          Optional.of(ofMetres(0.01, readFrom));
      case "mm", "millimetre", "millimetres", "millimeter", "millimeters" ->
          Optional.of(ofMetres(0.001, readFrom));
      case "ft",
          "foot",
          "feet",
          "international foot",
          "international feet",
          "foot international",
          "ft international" ->
          Optional.of(ofMetres(WorkingCrs.INTERNATIONAL_FOOT_M, readFrom));
      case "us ft",
          "ftus",
          "ft us",
          "us foot",
          "us feet",
          "us survey foot",
          "us survey feet",
          "survey foot",
          "survey feet",
          "u s survey foot",
          "u s survey feet",
          "foot us",
          "ussurveyfoot",
          "usft",
          "sft" ->
          Optional.of(ofMetres(WorkingCrs.US_SURVEY_FOOT_M, readFrom));
      default -> Optional.empty();
    };
  }
}
