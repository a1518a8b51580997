package org.yardfall.site;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/**
 * Restates the metric quantities of a sentence in the units of a reader in the United States: a
 * number, a space and a unit symbol, as the stages write them. A figure keeps about as much
 * precision as it was written with; a length below a foot becomes inches. Where a sentence says a
 * quantity in both systems, {@code 2 ft (0.6 m)} or {@code 3.05 m (10 ft)}, only the reader's is
 * left. Grain sizes below a hundredth of a metre stay in millimetres, in which sieves are named.
 *
 * <p>Factors: exact by the definition of the international foot and pound (1959).
 */
final class QuantityRestater {

  private static final double FOOT_M = WorkingCrs.INTERNATIONAL_FOOT_M;
  private static final double INCH_M = 0.0254;
  private static final double POUND_KG = 0.45359237;
  private static final double SHORT_TON_T = 0.90718474;

  /** The unit of a volume of water. */
  static final Unit WATER = new Unit("ft³", FOOT_M * FOOT_M * FOOT_M);

  /** The unit of a volume of earth or stone. */
  static final Unit EARTH = new Unit("yd³", 27 * FOOT_M * FOOT_M * FOOT_M);

  private static final String NUMBER = "[-+−]?\\d[\\d,]*(?:\\.\\d+)?(?:[eE][-+]?\\d+)?";
  private static final String METRIC =
      "(?:m³/s|t/m³|kg/m³|l/s|m/s|m²|m2|m³|m3|km|cm|mm|m|t)(?![\\p{L}\\d²³/])";
  private static final String US = "(?:in|ft²|ft³|ft|yd³|yd|lb/ft³)(?![\\p{L}\\d²³/])";
  private static final String START = "(?<![\\p{L}\\d.,])";

  /** Both systems at once: the groups are the reader's part, one way round or the other. */
  private static final Pattern TWICE =
      Pattern.compile(
          "%1$s(?:%2$s × )?%2$s %3$s \\(((?:%2$s × )?%2$s %4$s)\\)"
                  .formatted(START, NUMBER, METRIC, US)
              + "|%1$s(%2$s %4$s) \\(%2$s %3$s\\)".formatted(START, NUMBER, METRIC, US));

  private static final Pattern QUANTITY =
      Pattern.compile(
          "%s(?:(%s)( to | × | and | or ))?(%s) (%s)( per (?:metre|m)(?![\\p{L}\\d²³/]))?"
                  .formatted(START, NUMBER, NUMBER, METRIC)
              + "|%s(%s) per (m²|m2|m³|m3|m|t)(?![\\p{L}\\d²³/])".formatted(START, NUMBER));

  private static final Pattern SQUARED = Pattern.compile("(?<=\\d) m([23])(?![\\p{L}\\d/])");

  private static final Map<String, Unit> UNITS =
      Map.ofEntries(
          Map.entry("km", new Unit("ft", FOOT_M / 1000)),
          Map.entry("m²", new Unit("ft²", FOOT_M * FOOT_M)),
          Map.entry("m2", new Unit("ft²", FOOT_M * FOOT_M)),
          Map.entry("m³/s", new Unit("ft³/s", FOOT_M * FOOT_M * FOOT_M)),
          Map.entry("l/s", new Unit("ft³/s", 1000 * FOOT_M * FOOT_M * FOOT_M)),
          Map.entry("t", new Unit("ton", SHORT_TON_T)),
          Map.entry("t/m³", new Unit("lb/ft³", POUND_KG / 1000 / (FOOT_M * FOOT_M * FOOT_M))),
          Map.entry("kg/m³", new Unit("lb/ft³", POUND_KG / (FOOT_M * FOOT_M * FOOT_M))));

  /** A unit and its size in the metric one. */
  record Unit(String symbol, double size) {}

  private final Unit volume;

  private QuantityRestater(Unit volume) {
    this.volume = volume;
  }

  /** The sentence with squares and cubes set as such. */
  static String squared(String sentence) {
    return SQUARED.matcher(sentence).replaceAll(m -> m.group(1).equals("2") ? " m²" : " m³");
  }

  /** The sentence restated, its volumes in the given unit. */
  static String toUs(String sentence, Unit volume) {
    String once =
        TWICE.matcher(sentence).replaceAll(m -> m.group(1) != null ? m.group(1) : m.group(2));
    return QUANTITY.matcher(once).replaceAll(new QuantityRestater(volume)::restated);
  }

  private String restated(MatchResult m) {
    if (m.group(6) != null) {
      return priced(m.group(6), m.group(7));
    }
    String metric = m.group(4);
    Unit unit = unit(metric, m.group(1) == null ? m.group(3) : larger(m.group(1), m.group(3)));
    if (unit == null) {
      return m.group();
    }
    String range = m.group(1) == null ? "" : figure(m.group(1), unit) + m.group(2);
    if (m.group(5) == null) {
      return range + figure(m.group(3), unit) + " " + unit.symbol();
    }
    Unit perFoot = new Unit(unit.symbol(), unit.size() / FOOT_M);
    return range + figure(m.group(3), perFoot) + " " + unit.symbol() + " per ft";
  }

  /** A price of a unit: the dearer the smaller the unit is. */
  private String priced(String price, String metric) {
    Unit unit = metric.equals("m") ? new Unit("ft", FOOT_M) : named(metric);
    return figure(price, new Unit(unit.symbol(), 1 / unit.size())) + " per " + unit.symbol();
  }

  /** The unit that suits a number of a metric unit; null where the metric one stays. */
  private Unit unit(String metric, String number) {
    double value = Math.abs(value(number).doubleValue());
    double metres =
        switch (metric) {
          case "m" -> 1;
          case "cm" -> 0.01;
          case "mm" -> 0.001;
          default -> Double.NaN;
        };
    if (metric.equals("mm") && value < 10) {
      return null;
    }
    if (metric.equals("m/s")) {
      return value < 0.001 ? new Unit("in/h", INCH_M / 3600) : new Unit("ft/s", FOOT_M);
    }
    if (Double.isNaN(metres)) {
      return named(metric);
    }
    boolean inches = value * metres < FOOT_M && (!metric.equals("m") || value(number).scale() >= 2);
    return inches ? new Unit("in", INCH_M / metres) : new Unit("ft", FOOT_M / metres);
  }

  private Unit named(String metric) {
    return metric.equals("m³") || metric.equals("m3") ? volume : UNITS.get(metric);
  }

  private static String larger(String a, String b) {
    return value(a).abs().compareTo(value(b).abs()) > 0 ? a : b;
  }

  private static BigDecimal value(String number) {
    return new BigDecimal(number.replace(",", "").replace('−', '-'));
  }

  /** The number in a unit, its last digit worth about as much as the last digit written. */
  private static String figure(String number, Unit unit) {
    BigDecimal written = value(number);
    BigDecimal value = new BigDecimal(written.doubleValue() / unit.size());
    // A digit of tenths of the unit is worth as much as half to five of what was written.
    double worth = Math.pow(10, -written.scale()) / unit.size();
    int most = unit.symbol().equals("in") ? 2 : 3;
    int decimals = Math.min(most, (int) -Math.round(Math.log10(worth)));
    BigDecimal rounded =
        decimals >= 0
            ? value.setScale(decimals, RoundingMode.HALF_UP)
            : value.round(new MathContext(Math.max(3, written.precision())));
    if (rounded.signum() != 0 && rounded.precision() < 2 && rounded.scale() > 0) {
      rounded = value.round(new MathContext(2));
    }
    return rounded.signum() == 0 ? "0" : rounded.toPlainString();
  }
}
