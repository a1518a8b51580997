package org.yardfall.sheet;

import java.util.Locale;
import org.yardfall.site.UnitSystem;

/** How a crew reads a station, a depth and a scale ({@code common practice, no source}). */
final class Stationing {

  private static final double FOOT_M = 0.3048;
  private static final int EIGHTHS_PER_FOOT = 96;

  private Stationing() {}

  /** A station: {@code 1+25.3} in stations of 100 ft, {@code 0+038.1} in stations of 1000 m. */
  static String station(double metres, UnitSystem units) {
    boolean feet = units == UnitSystem.US;
    long tenths = Math.round(metres / units.metresPerLengthUnit() * 10);
    long whole = feet ? 1000 : 10_000;
    return String.format(
        Locale.ROOT,
        feet ? "%d+%02d.%d" : "%d+%03d.%d",
        tenths / whole,
        tenths % whole / 10,
        tenths % 10);
  }

  /** A depth as it is measured in a trench: feet, inches and eighths, or metres. */
  static String depth(double metres, UnitSystem units) {
    if (units == UnitSystem.METRIC) {
      return units.length(metres);
    }
    long eighths = Math.round(Math.abs(metres) / FOOT_M * EIGHTHS_PER_FOOT);
    long feet = eighths / EIGHTHS_PER_FOOT;
    long inches = eighths % EIGHTHS_PER_FOOT / 8;
    long rest = eighths % 8;
    String fraction =
        rest == 0
            ? ""
            : rest % 4 == 0 ? " 1/2" : rest % 2 == 0 ? " " + rest / 2 + "/4" : " " + rest + "/8";
    return (metres < 0 && eighths > 0 ? "-" : "") + feet + "'-" + inches + fraction + "\"";
  }

  /** A number in the unit of length, without the unit, to the hundredth. */
  static String bare(double metres, UnitSystem units) {
    String text = units.elevation(metres);
    return text.substring(0, text.indexOf(' '));
  }
}
