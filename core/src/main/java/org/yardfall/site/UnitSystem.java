package org.yardfall.site;

import java.util.Locale;

/**
 * The units in which people read results. It changes what is shown, never what is computed.
 *
 * <p>Feet are international feet (0.3048 m); at the lengths of a yard the survey foot reads the
 * same.
 */
public enum UnitSystem {
  /** Metres, square metres, cubic metres, litres per second. */
  METRIC("m", 1, "m²", 1, "m³", 1, "l/s", 0.001, "mm", 0.001, "t", 1),
  /** Feet, square feet, cubic yards of earth, cubic feet of water, cubic feet per second. */
  US(
      "ft",
      0.3048,
      "ft²",
      0.3048 * 0.3048,
      "yd³",
      0.764554857984,
      "ft³/s",
      0.028316846592,
      "in",
      0.0254,
      "ton",
      0.90718474);

  private final String lengthUnit;
  private final double lengthM;
  private final String areaUnit;
  private final double areaM2;
  private final String volumeUnit;
  private final double volumeM3;
  private final String flowUnit;
  private final double flowM3s;
  private final String smallUnit;
  private final double smallM;
  private final String massUnit;
  private final double massT;

  UnitSystem(
      String lengthUnit,
      double lengthM,
      String areaUnit,
      double areaM2,
      String volumeUnit,
      double volumeM3,
      String flowUnit,
      double flowM3s,
      String smallUnit,
      double smallM,
      String massUnit,
      double massT) {
    this.lengthUnit = lengthUnit;
    this.lengthM = lengthM;
    this.areaUnit = areaUnit;
    this.areaM2 = areaM2;
    this.volumeUnit = volumeUnit;
    this.volumeM3 = volumeM3;
    this.flowUnit = flowUnit;
    this.flowM3s = flowM3s;
    this.smallUnit = smallUnit;
    this.smallM = smallM;
    this.massUnit = massUnit;
    this.massT = massT;
  }

  /** A plan length or a depth, given in metres, with its unit: {@code 12.3 m}, {@code 40.4 ft}. */
  public String length(double metres) {
    return number(metres / lengthM, this == US ? 1 : 2) + " " + lengthUnit;
  }

  /** An elevation or a difference of elevations, given in metres, to the hundredth. */
  public String elevation(double metres) {
    return number(metres / lengthM, 2) + " " + lengthUnit;
  }

  /** A small length given in metres, in millimetres or inches. */
  public String small(double metres) {
    return number(metres / smallM, this == US ? 1 : 0) + " " + smallUnit;
  }

  /**
   * A depth of rain given in metres, as atlases print it: to 0.1 mm or 0.01 in where it is not
   * round.
   */
  public String rain(double metres) {
    String figure = number(metres / smallM, this == US ? 2 : 1);
    return figure.replaceFirst("\\.?0+$", "") + " " + smallUnit;
  }

  /** An area given in m². */
  public String area(double squareMetres) {
    return number(squareMetres / areaM2, 0) + " " + areaUnit;
  }

  /** A volume of water given in m³: water is sold and led off by the cubic foot, not the yard. */
  public String water(double cubicMetres) {
    if (this == METRIC) {
      return volume(cubicMetres);
    }
    double cubicFeet = cubicMetres / (lengthM * lengthM * lengthM);
    return number(cubicFeet, cubicFeet < 100 ? 1 : 0) + " ft³";
  }

  /** A volume of earth or stone given in m³. */
  public String volume(double cubicMetres) {
    return number(cubicMetres / volumeM3, cubicMetres / volumeM3 < 100 ? 1 : 0) + " " + volumeUnit;
  }

  /** A flow given in m³/s. */
  public String flow(double cubicMetresPerSecond) {
    return number(cubicMetresPerSecond / flowM3s, this == US ? 3 : 2) + " " + flowUnit;
  }

  /** A small flow given in m³/s, by the day. */
  public String seep(double cubicMetresPerSecond) {
    return water(cubicMetresPerSecond * 86_400) + " a day";
  }

  /** A mass given in tonnes of 1000 kg; US: short tons. */
  public String mass(double tonnes) {
    return number(tonnes / massT, 1) + " " + massUnit;
  }

  /** A grade given as metres per metre, in per cent. */
  public static String grade(double metresPerMetre) {
    return number(metresPerMetre * 100, 2) + " %";
  }

  /**
   * A sentence with its quantities in these units. The stages write metric figures into their
   * sentences; what a person reads passes through here.
   *
   * @see QuantityRestater
   */
  public String restate(String sentence) {
    return this == METRIC
        ? QuantityRestater.squared(sentence)
        : QuantityRestater.toUs(sentence, QuantityRestater.WATER);
  }

  /** As {@link #restate}, where the sentence's volumes are of earth or stone. */
  public String restateEarth(String sentence) {
    return this == METRIC
        ? QuantityRestater.squared(sentence)
        : QuantityRestater.toUs(sentence, QuantityRestater.EARTH);
  }

  /** Metres per unit of plan length. */
  public double metresPerLengthUnit() {
    return lengthM;
  }

  /** The unit of plan lengths: {@code m} or {@code ft}. */
  public String lengthUnit() {
    return lengthUnit;
  }

  /** The system named {@code metric} or {@code us}. */
  public static UnitSystem named(String word) {
    return switch (word.toLowerCase(Locale.ROOT)) {
      case "metric" -> METRIC;
      case "us" -> US;
      default ->
          throw new BadInputException("--units", "'" + word + "' is unknown", "give metric or us");
    };
  }

  private static String number(double value, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
    // A rounded nothing has no sign.
    return text.startsWith("-") && text.chars().noneMatch(c -> c >= '1' && c <= '9')
        ? text.substring(1)
        : text;
  }
}
