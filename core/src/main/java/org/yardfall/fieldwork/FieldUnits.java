package org.yardfall.fieldwork;

import java.util.Locale;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Quantities;
import org.yardfall.site.UnitSystem;
import org.yardfall.site.WorkingCrs;

/**
 * How a crew writes lengths and elevations: in metres, in feet and hundredths, or in feet, inches
 * and eighths. The foot may be the international or the US survey foot; at an elevation of 5000 ft
 * the two differ by a hundredth.
 *
 * @param form how a length is written
 * @param unitM the unit in metres: 1, 0.3048 or 1200/3937
 */
public record FieldUnits(Form form, double unitM) {

  /** Metres with millimetres. */
  public static final FieldUnits METRES = new FieldUnits(Form.METRES, 1);

  /** International feet with hundredths. */
  public static final FieldUnits FEET = new FieldUnits(Form.FEET, WorkingCrs.INTERNATIONAL_FOOT_M);

  /** International feet, inches and eighths of an inch. */
  public static final FieldUnits FEET_INCHES =
      new FieldUnits(Form.FEET_INCHES, WorkingCrs.INTERNATIONAL_FOOT_M);

  private static final int EIGHTHS_PER_INCH = 8;
  private static final int EIGHTHS_PER_FOOT = 12 * EIGHTHS_PER_INCH;

  /** How a length is written. */
  public enum Form {
    METRES,
    FEET,
    FEET_INCHES
  }

  /**
   * The units by name: {@code m}, {@code ft} (feet and hundredths), {@code ft-in} (feet, inches and
   * eighths), {@code ftUS} and {@code ftUS-in} (the same in US survey feet).
   *
   * @throws BadInputException if there are no such units
   */
  public static FieldUnits named(String word) {
    return switch (word.strip().toLowerCase(Locale.ROOT)) {
      case "m" -> METRES;
      case "ft" -> FEET;
      case "ft-in" -> FEET_INCHES;
      case "ftus" -> FEET.inFeetOf(WorkingCrs.US_SURVEY_FOOT_M);
      case "ftus-in" -> FEET_INCHES.inFeetOf(WorkingCrs.US_SURVEY_FOOT_M);
      default ->
          throw new BadInputException(
              "units", "'" + word + "' is unknown", "give m, ft, ft-in, ftUS or ftUS-in");
    };
  }

  /**
   * As a reader of the given units writes lengths: metres, or feet and hundredths, in US survey
   * feet where the working CRS is.
   */
  public static FieldUnits of(UnitSystem units, WorkingCrs crs) {
    if (units == UnitSystem.METRIC) {
      return METRES;
    }
    return crs.metresPerUnit() == WorkingCrs.US_SURVEY_FOOT_M
        ? FEET.inFeetOf(WorkingCrs.US_SURVEY_FOOT_M)
        : FEET;
  }

  /** The same form with a foot of the given length in metres; metres stay metres. */
  public FieldUnits inFeetOf(double footM) {
    return form == Form.METRES ? this : new FieldUnits(form, footM);
  }

  /** A length or elevation given in metres, without its unit's name where it is a plain number. */
  public String length(double metres) {
    return switch (form) {
      case METRES -> fixed(metres, 3);
      case FEET -> fixed(metres / unitM, 2);
      case FEET_INCHES -> feetInches(metres / unitM);
    };
  }

  /** A distance along the line, given in metres, to the centimetre or the tenth of a foot. */
  public String station(double metres) {
    return form == Form.METRES ? fixed(metres, 2) : fixed(metres / unitM, 1);
  }

  /** A plan coordinate, given in metres, to the millimetre or the hundredth of a foot. */
  public String coordinate(double metres) {
    return form == Form.METRES ? fixed(metres, 3) : fixed(metres / unitM, 2);
  }

  /** The unit's name: {@code m}, {@code ft} or {@code ftUS}. */
  public String unit() {
    if (form == Form.METRES) {
      return "m";
    }
    return unitM == WorkingCrs.US_SURVEY_FOOT_M ? "ftUS" : "ft";
  }

  /** A length with its unit, for a sentence. */
  public String words(double metres) {
    return form == Form.FEET_INCHES ? length(metres) : length(metres) + " " + unit();
  }

  /** A volume given in m³: litres, or US gallons of 231 cubic inches. */
  public String volume(double cubicMetres) {
    return form == Form.METRES
        ? fixed(cubicMetres * 1000, 1) + " l"
        : fixed(cubicMetres / 0.003785411784, 1) + " gal";
  }

  /**
   * A reading as written by the crew, in metres; a bare number is in this unit, and {@code 5 ft 3
   * 1/8 in} is understood.
   *
   * @throws BadInputException if the text is no length
   */
  public double metres(String what, String text) {
    try {
      return Quantities.lengthM(text, unitM);
    } catch (IllegalArgumentException e) {
      throw new BadInputException(what, e.getMessage(), "");
    }
  }

  private static String feetInches(double feet) {
    long eighths = Math.round(Math.abs(feet) * EIGHTHS_PER_FOOT);
    long inches = eighths % EIGHTHS_PER_FOOT / EIGHTHS_PER_INCH;
    long part = eighths % EIGHTHS_PER_INCH;
    StringBuilder text = new StringBuilder(feet < 0 && eighths > 0 ? "-" : "");
    text.append(eighths / EIGHTHS_PER_FOOT).append("' ").append(inches);
    if (part > 0) {
      long common = Long.lowestOneBit(part);
      text.append(' ').append(part / common).append('/').append(EIGHTHS_PER_INCH / common);
    }
    return text.append('"').toString();
  }

  /** A number with the given decimals; a rounded nothing has no sign. */
  static String fixed(double value, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
    return text.startsWith("-") && text.chars().noneMatch(c -> c >= '1' && c <= '9')
        ? text.substring(1)
        : text;
  }
}
