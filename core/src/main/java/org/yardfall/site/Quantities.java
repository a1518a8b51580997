package org.yardfall.site;

import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads quantities as people write them, into SI: {@code 18 in}, {@code 2 ft 6 in}, {@code 6'},
 * {@code 1 %}, {@code 1/8 in/ft}, {@code 0.2 in/h}, {@code 24 h}. Numbers have a decimal point.
 *
 * <p>A foot is the international foot (0.3048 m); the US survey foot (1200/3937 m) is written
 * {@code ftUS}.
 *
 * <p>Every method throws {@link IllegalArgumentException} with a sentence fit for a user where the
 * text is no such quantity; sign and range are the caller's business.
 */
public final class Quantities {

  private static final double INCH_M = 0.0254;
  private static final double FOOT_M = WorkingCrs.INTERNATIONAL_FOOT_M;

  /** Lengths in metres. */
  private static final Map<String, Double> LENGTHS =
      Map.ofEntries(
          Map.entry("", 1.0),
          Map.entry("m", 1.0),
          Map.entry("metre", 1.0),
          Map.entry("metres", 1.0),
          Map.entry("meter", 1.0),
          Map.entry("meters", 1.0),
          Map.entry("km", 1000.0),
          Map.entry("cm", 0.01),
          Map.entry("mm", 0.001),
          Map.entry("um", 1e-6),
          Map.entry("µm", 1e-6),
          Map.entry("ft", FOOT_M),
          Map.entry("foot", FOOT_M),
          Map.entry("feet", FOOT_M),
          Map.entry("'", FOOT_M),
          Map.entry("ftus", WorkingCrs.US_SURVEY_FOOT_M),
          Map.entry("us-ft", WorkingCrs.US_SURVEY_FOOT_M),
          Map.entry("in", INCH_M),
          Map.entry("inch", INCH_M),
          Map.entry("inches", INCH_M),
          Map.entry("\"", INCH_M),
          Map.entry("yd", 3 * FOOT_M));

  /** Times in seconds. */
  private static final Map<String, Double> TIMES =
      Map.ofEntries(
          Map.entry("s", 1.0),
          Map.entry("sec", 1.0),
          Map.entry("min", 60.0),
          Map.entry("h", 3600.0),
          Map.entry("hr", 3600.0),
          Map.entry("hour", 3600.0),
          Map.entry("hours", 3600.0),
          Map.entry("d", 86400.0),
          Map.entry("day", 86400.0),
          Map.entry("days", 86400.0));

  private static final String NUMBER = "[-+−]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][-+]?\\d+)?";

  /** A number, a fraction or both, then a unit: {@code 5 1/2 in}. */
  private static final Pattern TERM =
      Pattern.compile(
          "\\s*(?:("
              + NUMBER
              + ")(?![\\d.]*/)(?:\\s+(?=\\d+\\s*/))?)?(?:(\\d+)\\s*/\\s*(\\d+))?"
              + "\\s*([\\p{L}µ'\"%²³-]*[23]?)\\s*");

  private Quantities() {}

  /** A length in metres; a bare number is metres. */
  public static double lengthM(String text) {
    return lengthM(text, 1.0);
  }

  /** A length in metres; a bare number is in units of the given size in metres. */
  public static double lengthM(String text, double bareM) {
    return length(text, bareM, 1.0);
  }

  /** A length in millimetres; a bare number is metres all the same. */
  static double lengthMm(String text) {
    return length(text, 1.0, 0.001);
  }

  /** A length in units of the given size; a number already in that unit is not rounded. */
  private static double length(String text, double bareM, double inM) {
    Matcher term = TERM.matcher(text);
    double sum = 0;
    boolean negative = text.strip().startsWith("-");
    double smallest = Double.POSITIVE_INFINITY;
    int from = 0;
    int terms = 0;
    while (from < text.length()) {
      if (!term.region(from, text.length()).lookingAt() || term.end() == from) {
        throw notA("length", text, "such as 0.6 m, 18 in or 2 ft 6 in");
      }
      double value = number(term, text, "length");
      double unit =
          (term.group(4).isEmpty() ? bareM : unit(LENGTHS, term.group(4), text, "length")) / inM;
      if (terms > 0 && (unit >= smallest || value < 0 || term.group(4).isEmpty())) {
        throw notA("length", text, "such as 0.6 m, 18 in or 2 ft 6 in");
      }
      double part = product(value, unit);
      sum += negative && terms > 0 ? -part : part;
      smallest = unit;
      from = term.end();
      terms++;
    }
    if (terms == 0) {
      throw notA("length", text, "such as 0.6 m, 18 in or 2 ft 6 in");
    }
    return sum;
  }

  /** The size in metres of a unit of length. */
  public static double lengthUnitM(String unit) {
    if (unit.isBlank()) {
      throw notA("unit of length", unit, "such as m, ft or ftUS");
    }
    return unit(LENGTHS, unit.strip(), unit, "length");
  }

  /**
   * A name of the unit of length of the given size in metres.
   *
   * @throws IllegalArgumentException if no unit has that size
   */
  static String lengthUnitName(double metres) {
    return LENGTHS.entrySet().stream()
        .filter(e -> e.getValue() == metres && !e.getKey().isEmpty())
        .map(Map.Entry::getKey)
        .min(Comparator.comparingInt(String::length).thenComparing(Comparator.naturalOrder()))
        .orElseThrow(() -> new IllegalArgumentException("no unit of length is " + metres + " m"));
  }

  /** A grade as rise over run: {@code 1 %}, {@code 0.01}, {@code 1/8 in/ft}, {@code 1:100}. */
  public static double grade(String text) {
    String form = "such as 1 %, 0.01 or 1/8 in/ft";
    String trimmed = text.strip();
    int colon = trimmed.indexOf(':');
    if (colon > 0) {
      return plain(trimmed.substring(0, colon), text) / plain(trimmed.substring(colon + 1), text);
    }
    Matcher per =
        Pattern.compile("(.*[\\p{L}'\"])\\s*(?:/|per)\\s*([\\d.]*\\s*[\\p{L}'\"]+)")
            .matcher(trimmed);
    if (per.matches()) {
      String run = per.group(2).matches("[\\d.].*") ? per.group(2) : "1 " + per.group(2);
      return lengthM(per.group(1)) / lengthM(run);
    }
    Matcher term = TERM.matcher(trimmed);
    if (!term.matches()) {
      throw notA("grade", text, form);
    }
    double value = number(term, text, "grade");
    return switch (term.group(4).toLowerCase(Locale.ROOT)) {
      case "" -> value;
      case "%", "percent" -> value / 100;
      default -> throw notA("grade", text, form);
    };
  }

  /** A velocity in m/s, such as a conductivity: {@code 1 mm/h}; the unit must be given. */
  public static double velocityMS(String text) {
    Matcher m =
        Pattern.compile("\\s*(" + NUMBER + ")\\s*([\\p{L}µ]+)\\s*/\\s*([\\p{L}]+)\\s*")
            .matcher(text);
    if (!m.matches()) {
      throw notA("velocity", text, "with its unit, such as 1 mm/h or 0.2 in/h");
    }
    return plain(m.group(1), text)
        * unit(LENGTHS, m.group(2), text, "length")
        / unit(TIMES, m.group(3), text, "time");
  }

  /** A time in seconds; the unit must be given. */
  public static double timeS(String text) {
    Matcher term = TERM.matcher(text);
    if (!term.matches() || term.group(4).isEmpty()) {
      throw notA("time", text, "with its unit, such as 24 h or 30 min");
    }
    return number(term, text, "time") * unit(TIMES, term.group(4), text, "time");
  }

  /** A plain number without a unit, or a percentage. */
  public static double share(String text) {
    return grade(text);
  }

  /** A plain number without a unit. */
  public static double number(String text) {
    return plain(text, text);
  }

  /** Coordinates separated by commas or blanks. */
  public static double[] numbers(String text) {
    return List.of(text.strip().split("\\s*,\\s*|\\s+")).stream()
        .mapToDouble(part -> plain(part, text))
        .toArray();
  }

  /** The product rounded once, as on paper: 6 in are 0.1524 m to the last digit. */
  private static double product(double value, double unit) {
    return BigDecimal.valueOf(value).multiply(BigDecimal.valueOf(unit)).doubleValue();
  }

  private static double plain(String part, String text) {
    if (!part.strip().matches(NUMBER)) {
      throw notA("number", text, "with a decimal point, such as 12.5");
    }
    return finite(new BigDecimal(part.strip().replace('−', '-')).doubleValue(), text);
  }

  private static double number(Matcher term, String text, String what) {
    if (term.group(1) == null && term.group(2) == null) {
      throw notA(what, text, "with a number");
    }
    double whole = term.group(1) == null ? 0 : plain(term.group(1), text);
    if (term.group(2) == null) {
      return whole;
    }
    double fraction = plain(term.group(2), text) / plain(term.group(3), text);
    return finite(whole < 0 ? whole - fraction : whole + fraction, text);
  }

  private static double finite(double value, String text) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("'" + text + "' is not a finite number");
    }
    return value;
  }

  private static double unit(Map<String, Double> units, String unit, String text, String what) {
    Double size = units.get(unit.toLowerCase(Locale.ROOT));
    if (size == null) {
      throw new IllegalArgumentException(
          "'" + text.strip() + "' has the unknown unit of " + what + " '" + unit + "'");
    }
    return size;
  }

  private static IllegalArgumentException notA(String what, String text, String form) {
    return new IllegalArgumentException(
        "'" + text.strip() + "' is not a " + what + "; write it " + form);
  }
}
