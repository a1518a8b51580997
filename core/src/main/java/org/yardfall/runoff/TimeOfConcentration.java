package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.yardfall.site.Surface.Kind;

/**
 * Time of concentration by the velocity method: the travel times of sheet flow, shallow
 * concentrated flow and channel flow along the longest path, summed (USDA NRCS, NEH 630 chapter 15,
 * 2010; SCS, TR-55, 1986, chapter 3).
 *
 * @param reaches the path upstream to downstream, each reach with its time
 * @param travelS sum of their times in seconds
 * @param seconds the time of concentration: that sum, or the least time allowed
 */
public record TimeOfConcentration(List<Reach> reaches, double travelS, double seconds) {

  private static final double FOOT_M = 0.3048;
  private static final double INCH_M = 0.0254;

  /** Keeps the list to itself. */
  public TimeOfConcentration {
    reaches = List.copyOf(reaches);
  }

  /** How water travels. */
  public enum Flow {
    SHEET,
    SHALLOW,
    CHANNEL
  }

  /**
   * A reach of the path.
   *
   * @param kind how the water travels
   * @param lengthM length in metres
   * @param slope slope used, m/m
   * @param factor Manning's n for sheet and channel flow; V/√slope in m/s for shallow flow
   * @param seconds travel time in seconds
   */
  public record Reach(Flow kind, double lengthM, double slope, double factor, double seconds) {}

  /**
   * What the method leaves open.
   *
   * @param sheetLimitM greatest length of sheet flow in metres: 100 ft in NEH 630 chapter 15
   *     (2010); 300 ft in TR-55 (1986)
   * @param leastS least time of concentration in seconds: 5 min in FHWA HEC-22 (example 7-3), 10
   *     min with some road agencies (from memory)
   * @param leastSlope slope taken where the ground is flatter, m/m, since flat ground would take
   *     for ever; common practice, no source
   * @param twoYear24hM rain of the two-year 24 h storm in metres
   * @param channel section of the channel, where there is one
   */
  public record Settings(
      double sheetLimitM,
      double leastS,
      double leastSlope,
      double twoYear24hM,
      Optional<Channel> channel) {

    /** The same for a storm, whose depth stands in where its two-year one is not known. */
    public static Settings of(Storm storm) {
      return of(storm.twoYear24hM().orElse(storm.depthM()));
    }

    /** The settings of NEH 630 chapter 15 with a least time of 5 minutes. */
    public static Settings of(double twoYear24hM) {
      return new Settings(100 * FOOT_M, 300, 0.001, twoYear24hM, Optional.empty());
    }
  }

  /**
   * A channel known from a survey.
   *
   * @param fromAreaM2 drained area in m² from which water runs in it
   * @param hydraulicRadiusM hydraulic radius at bank-full in metres
   * @param n Manning's n
   */
  public record Channel(double fromAreaM2, double hydraulicRadiusM, double n) {}

  /** The time of the given reaches, at least the given one. */
  public static TimeOfConcentration of(List<Reach> reaches, double leastS) {
    double sum = 0;
    for (Reach r : reaches) {
      sum += r.seconds();
    }
    return new TimeOfConcentration(reaches, sum, Math.max(leastS, sum));
  }

  /**
   * Sheet flow: t = 0.007 h · (nL)^0.8 / (P₂^0.5 s^0.4), L in feet, P₂ in inches (TR-55 worksheet
   * 3; NEH 630 chapter 15 has the same).
   *
   * @param lengthM length in metres, 0 or more
   * @param slope m/m, above 0
   * @param n Manning's n for sheet flow
   * @param twoYear24hM rain of the two-year 24 h storm in metres
   */
  public static Reach sheet(double lengthM, double slope, double n, double twoYear24hM) {
    double hours =
        0.007
            * Math.pow(n * lengthM / FOOT_M, 0.8)
            / (Math.sqrt(twoYear24hM / INCH_M) * Math.pow(slope, 0.4));
    return new Reach(Flow.SHEET, lengthM, slope, n, hours * 3600);
  }

  /**
   * Shallow concentrated flow: V = k·√s.
   *
   * @param velocityMS k in m/s, see {@link #shallowVelocityMS(Kind)}
   */
  public static Reach shallow(double lengthM, double slope, double velocityMS) {
    return new Reach(
        Flow.SHALLOW, lengthM, slope, velocityMS, lengthM / (velocityMS * Math.sqrt(slope)));
  }

  /** Channel flow by Manning's equation, V = R^(2/3)·√s / n in SI. */
  public static Reach channel(double lengthM, double slope, double n, double hydraulicRadiusM) {
    double v = Math.pow(hydraulicRadiusM, 2.0 / 3) * Math.sqrt(slope) / n;
    return new Reach(Flow.CHANNEL, lengthM, slope, n, lengthM / v);
  }

  /**
   * Manning's n of sheet flow over a cover: smooth surfaces (concrete, asphalt, gravel, bare soil)
   * 0.011, dense grass 0.24, woods with light underbrush 0.40 (TR-55 table 3-1).
   */
  public static double sheetN(Kind kind) {
    return switch (kind) {
      case ROOF, PAVEMENT, GRAVEL, BARE -> 0.011;
      case LAWN -> 0.24;
      case WOODS -> 0.40;
    };
  }

  /**
   * k of V = k·√s in m/s: pavement 20.328 ft/s and unpaved 16.135 (TR-55, appendix F); nearly bare
   * 9.965, short grass 6.962, woodland 5.032 (NEH 630 table 15-3; from memory, within 3 % of the k
   * of FHWA HEC-22 table 3-3).
   */
  public static double shallowVelocityMS(Kind kind) {
    return FOOT_M
        * switch (kind) {
          case ROOF, PAVEMENT -> 20.328;
          case GRAVEL -> 16.135;
          case BARE -> 9.965;
          case LAWN -> 6.962;
          case WOODS -> 5.032;
        };
  }

  /**
   * The time along a traced path: sheet flow from its head up to the limit, with the mean roughness
   * of the covers it runs over; then shallow flow, a reach for each run of one cover; then the
   * channel, if one is known, from where enough ground drains into it.
   *
   * @param stepM length of each step in metres
   * @param fallM fall over each step in metres
   * @param cover cover at each step
   * @param areaM2 area that drains through each step in m²; used only for a channel
   */
  public static TimeOfConcentration along(
      double[] stepM, double[] fallM, Kind[] cover, double[] areaM2, Settings settings) {
    List<Reach> reaches = new ArrayList<>();
    int i = 0;
    double length = 0;
    double fall = 0;
    double roughness = 0;
    double left = 0; // the part of a step beyond the sheet-flow limit
    while (i < stepM.length && left == 0 && !inChannel(areaM2[i], settings)) {
      double part = Math.min(stepM[i], settings.sheetLimitM() - length);
      left = stepM[i] - part;
      length += part;
      fall += stepM[i] > 0 ? fallM[i] * part / stepM[i] : 0;
      roughness += sheetN(cover[i]) * part;
      i += left > 0 ? 0 : 1;
    }
    if (length > 0) {
      reaches.add(
          sheet(
              length,
              Math.max(settings.leastSlope(), fall / length),
              roughness / length,
              settings.twoYear24hM()));
    }
    while (i < stepM.length) {
      boolean channel = inChannel(areaM2[i], settings);
      double k = shallowVelocityMS(cover[i]);
      length = 0;
      fall = 0;
      do {
        double part = left > 0 ? left : stepM[i];
        fall += stepM[i] > 0 ? fallM[i] * part / stepM[i] : 0;
        length += part;
        left = 0;
        i++;
      } while (i < stepM.length
          && inChannel(areaM2[i], settings) == channel
          && (channel || shallowVelocityMS(cover[i]) == k));
      if (length > 0) {
        double slope = Math.max(settings.leastSlope(), fall / length);
        reaches.add(
            channel
                ? channel(
                    length,
                    slope,
                    settings.channel().orElseThrow().n(),
                    settings.channel().orElseThrow().hydraulicRadiusM())
                : shallow(length, slope, k));
      }
    }
    return of(reaches, settings.leastS());
  }

  private static boolean inChannel(double areaM2, Settings settings) {
    return settings.channel().isPresent() && areaM2 >= settings.channel().get().fromAreaM2();
  }
}
