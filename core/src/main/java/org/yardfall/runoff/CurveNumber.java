package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Surface.Kind;

/**
 * Runoff depth by the NRCS curve number: Q = (P − Iₐ)² / (P − Iₐ + S) above Iₐ = 0.2 S, with S =
 * 25.4 mm · (1000/CN − 10) (USDA SCS, TR-55, June 1986, eq. 2-1 to 2-4; NEH 630 chapter 10).
 *
 * <p>Depths are computed surface by surface and summed, never by a weighted curve number: that
 * differs from the sum wherever surfaces differ; in common rains it leaves runoff out (Q is convex
 * in CN there), in very heavy ones it adds a little.
 */
public final class CurveNumber {

  /** Where the table's numbers stand. */
  public static final String SOURCE =
      "USDA SCS, TR-55 (June 1986), tables 2-2a and 2-2c, good condition, average antecedent runoff"
          + " condition";

  private static final double INCH_M = 0.0254;

  private CurveNumber() {}

  /**
   * Curve number of a cover on a hydrologic soil group: lawn as open space in good condition, bare
   * as newly graded ground, woods in good condition.
   *
   * @param group {@code 'A'} to {@code 'D'}
   */
  public static double of(Kind kind, char group) {
    int soil = group(group);
    double[] row =
        switch (kind) {
          case ROOF, PAVEMENT -> new double[] {98, 98, 98, 98};
          case GRAVEL -> new double[] {76, 85, 89, 91};
          case LAWN -> new double[] {39, 61, 74, 80};
          case WOODS -> new double[] {30, 55, 70, 77};
          case BARE -> new double[] {77, 86, 91, 94};
        };
    return row[soil];
  }

  /** Curve numbers of every cover on a soil group, some of them given in place of the table's. */
  public static Map<Kind, Double> byCover(char group, Map<Kind, Double> given) {
    Map<Kind, Double> numbers = new EnumMap<>(Kind.class);
    for (Kind kind : Kind.values()) {
      numbers.put(kind, given.getOrDefault(kind, of(kind, group)));
    }
    return numbers;
  }

  static int group(char group) {
    if (group < 'A' || group > 'D') {
      throw new BadInputException(
          "soil.group", "'" + group + "' is not a hydrologic soil group", "give A, B, C or D");
    }
    return group - 'A';
  }

  /**
   * Potential retention S in metres.
   *
   * @throws BadInputException if the curve number is outside 30 to 100
   */
  public static double retentionM(double curveNumber) {
    if (!(curveNumber >= 30 && curveNumber <= 100)) {
      throw new BadInputException(
          "curve number", curveNumber + " is outside 30 to 100", "take one from TR-55 table 2-2");
    }
    return INCH_M * (1000 / curveNumber - 10);
  }

  /** Runoff depth in metres from a rain depth in metres, 0 or more. */
  public static double runoffDepthM(double rainM, double curveNumber) {
    if (!(rainM >= 0)) {
      throw new IllegalArgumentException("rain of " + rainM + " m");
    }
    double s = retentionM(curveNumber);
    double excess = rainM - 0.2 * s;
    return excess <= 0 ? 0 : excess * excess / (excess + s);
  }

  /**
   * The runoff of several covers, each by its own curve number.
   *
   * @param areaM2 area by cover in m²
   * @param curveNumber curve number by cover
   * @param rainM rain depth in metres
   */
  public static Runoff runoff(
      Map<Kind, Double> areaM2, Map<Kind, Double> curveNumber, double rainM) {
    List<Part> parts = new ArrayList<>();
    double total = 0;
    double volume = 0;
    for (Map.Entry<Kind, Double> e : new TreeMap<>(areaM2).entrySet()) {
      double cn = curveNumber.get(e.getKey());
      Part part = new Part(e.getKey(), e.getValue(), cn, runoffDepthM(rainM, cn));
      parts.add(part);
      total += part.areaM2();
      volume += part.volumeM3();
    }
    return new Runoff(parts, total, volume);
  }

  /**
   * Runoff of one cover.
   *
   * @param kind the cover
   * @param areaM2 its area in m²
   * @param curveNumber its curve number
   * @param depthM its runoff depth in metres
   */
  public record Part(Kind kind, double areaM2, double curveNumber, double depthM) {
    /** Its runoff volume in m³. */
    public double volumeM3() {
      return areaM2 * depthM;
    }
  }

  /**
   * Runoff of several covers.
   *
   * @param parts cover by cover
   * @param areaM2 area in m²
   * @param volumeM3 the sum of their volumes in m³
   */
  public record Runoff(List<Part> parts, double areaM2, double volumeM3) {

    /** Keeps the list to itself. */
    public Runoff {
      parts = List.copyOf(parts);
    }
  }
}
