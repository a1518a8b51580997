package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.stream.Collectors;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.StormInput;
import org.yardfall.site.UnitSystem;

/**
 * The design storm: how much rain, in how long, and how hard its shorter bursts are.
 *
 * @param depthM rain depth in metres, above 0
 * @param durationS the duration of that depth in seconds, above 0
 * @param returnPeriodYears return period in years, where known
 * @param twoYear24hM rain of the two-year 24 h storm in metres, where the table holds it
 * @param bursts mean intensity by duration within the storm
 * @param assumptions what was assumed
 */
public record Storm(
    double depthM,
    double durationS,
    OptionalDouble returnPeriodYears,
    OptionalDouble twoYear24hM,
    IntensityTable bursts,
    List<Assumption> assumptions) {

  private static final double DAY_S = 86_400;

  /**
   * Burst depths of the NRCS type II storm as shares of its 24 h depth, by duration in seconds
   * (USDA NRCS, NEH 630 chapter 4; TR-55 appendix B). Up to three hours they agree with the
   * ordinates of its mass curve to 0.003, at six to 0.006; that of twelve hours with a published
   * fit of it (Haan, Barfield & Hayes 1994) to 0.002.
   */
  private static final double[][] TYPE_II = {
    {300, 0.114}, {600, 0.201}, {900, 0.270}, {1800, 0.380}, {3600, 0.454},
    {7200, 0.538}, {10_800, 0.595}, {21_600, 0.707}, {43_200, 0.841}, {86_400, 1}
  };

  /** Keeps the list to itself. */
  public Storm {
    assumptions = List.copyOf(assumptions);
  }

  /**
   * The storm that the user gave.
   *
   * <p>A table gives the intensities of its return period as they stand; its depth is that of the
   * stated duration, else of 24 h, else of the longest duration it has. A depth alone says nothing
   * of its bursts: their shape is then assumed, and said.
   *
   * @throws BadInputException if the depth or duration is not above 0, the table cannot be used, or
   *     its return period is not told
   */
  public static Storm of(StormInput input) {
    return input.table() == null ? ofDepth(input) : ofTable(input);
  }

  private static Storm ofDepth(StormInput input) {
    double depthM =
        positive(input.depthM(), "storm.depth", "a rain depth above 0, as in 65 mm or 2.5 in");
    double durationS =
        positive(input.durationS(), "storm.duration", "a duration above 0, as in 24 h");
    return new Storm(
        depthM,
        durationS,
        years(input),
        OptionalDouble.empty(),
        typeII(depthM, durationS),
        List.of(
            new Assumption(
                "storm.table",
                "short bursts have the shape of the NRCS type II 24 h storm; an intensity table"
                    + " from the official rainfall atlas would replace this",
                "USDA NRCS, NEH 630 chapter 4, type II distribution")));
  }

  private static Storm ofTable(StormInput input) {
    SortedMap<Double, IntensityTable> tables = IntensityTableReader.read(input.table());
    String file = String.valueOf(input.table().getFileName());
    String has =
        tables.keySet().stream().map(IntensityTableReader::years).collect(Collectors.joining(", "));
    if (years(input).isEmpty() && tables.size() > 1) {
      throw new BadInputException(
          "storm.return-period", "not given, and " + file + " has " + has, "choose one of them");
    }
    double period = years(input).orElse(tables.firstKey());
    IntensityTable table = tables.get(period);
    if (table == null) {
      throw new BadInputException(
          "storm.return-period",
          IntensityTableReader.years(period) + " is not in " + file + ", which has " + has,
          "choose one of them");
    }
    List<Assumption> assumptions = new ArrayList<>();
    double durationS;
    if (input.durationS().isPresent()) {
      durationS = positive(input.durationS(), "storm.duration", "a duration above 0, as in 24 h");
      if (!table.covers(durationS)) {
        assumptions.add(
            new Assumption(
                "storm.duration",
                "outside the table's durations: its nearest two lines are continued",
                "log-log extrapolation of " + file));
      }
    } else {
      durationS = table.covers(DAY_S) ? DAY_S : table.longestS();
      assumptions.add(
          new Assumption(
              "storm.duration",
              durationS / 3600 + " h for the volume of runoff",
              durationS == DAY_S
                  ? "24 h, the duration for which the curve numbers were made (TR-55, 1986)"
                  : "the longest duration in " + file));
    }
    IntensityTable two = tables.get(2.0);
    OptionalDouble twoYear =
        two != null && two.covers(DAY_S)
            ? OptionalDouble.of(two.intensityMS(DAY_S) * DAY_S)
            : OptionalDouble.empty();
    return new Storm(
        table.intensityMS(durationS) * durationS,
        durationS,
        OptionalDouble.of(period),
        twoYear,
        table,
        assumptions);
  }

  private static IntensityTable typeII(double depthM, double durationS) {
    double[] t = new double[TYPE_II.length];
    double[] i = new double[TYPE_II.length];
    for (int k = 0; k < t.length; k++) {
      t[k] = TYPE_II[k][0];
      i[k] = TYPE_II[k][1] / t[k];
    }
    IntensityTable shape = IntensityTable.of(t, i);
    // The shape scaled so that the stated depth falls in the stated duration; longer than a day, a
    // day's bursts are taken as hard as the whole depth would make them, which is on the safe side.
    double whole = Math.min(durationS, DAY_S);
    double scale = depthM / (shape.intensityMS(whole) * whole);
    for (int k = 0; k < i.length; k++) {
      i[k] *= scale;
    }
    return IntensityTable.of(t, i);
  }

  /** Mean intensity in m/s of the hardest burst of a duration in seconds. */
  public double intensityMS(double seconds) {
    return bursts.intensityMS(seconds);
  }

  /** What it is in words: {@code the 10-year storm of 85 mm in 24 h}. */
  public String words(UnitSystem units) {
    String rarity =
        returnPeriodYears.isPresent()
            ? IntensityTableReader.plain(returnPeriodYears.getAsDouble()) + "-year storm"
            : "design storm";
    double hours = durationS / 3600;
    return "the "
        + rarity
        + " of "
        + units.rain(depthM)
        + " in "
        + (hours < 1
            ? IntensityTableReader.plain(durationS / 60) + " min"
            : IntensityTableReader.plain(hours) + " h");
  }

  private static OptionalDouble years(StormInput input) {
    if (input.returnPeriodYears().isPresent()) {
      positive(input.returnPeriodYears(), "storm.return-period", "a period in years, as in 10");
    }
    return input.returnPeriodYears();
  }

  private static double positive(OptionalDouble value, String key, String mend) {
    if (value.isEmpty()) {
      throw new BadInputException(key, "not given", "give " + mend);
    }
    double v = value.getAsDouble();
    if (!(v > 0) || Double.isInfinite(v)) {
      throw new BadInputException(key, v + " is not above 0", "give " + mend);
    }
    return v;
  }
}
