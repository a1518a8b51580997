package org.yardfall.site;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

/** Reads the soil and the storm; what is not given is assumed and said. */
final class GroundSections {

  private static final String STORM_SOURCE =
      "assumed, no source; replace it by your place's design storm from the official rainfall atlas";

  /** Soil grains are never larger than this; a larger one has lost its unit. */
  private static final double LARGEST_GRAIN_MM = 100;

  /**
   * More than the most that ever fell in a day, 1.825 m (WMO world record of 1966; from memory).
   */
  private static final double MOST_RAIN_M_PER_DAY = 2;

  private GroundSections() {}

  static Soil soil(YamlSection section, List<Assumption> assumptions) {
    char group = 'D';
    Optional<String> given = section.text("group").map(g -> g.toUpperCase(Locale.ROOT));
    if (given.isEmpty()) {
      assumptions.add(
          new Assumption(
              "soil.group",
              "D",
              "the safe side: of the groups of NEH 630 chapter 7 the one with most runoff"));
    } else if (given.get().matches("[ABCD]")) {
      group = given.get().charAt(0);
    } else {
      section.problem(
          "group", "'" + given.get() + "' is no hydrologic soil group", "give A, B, C or D");
    }
    OptionalDouble conductivity = section.quantity("conductivity", Quantities::velocityMS);
    if (conductivity.isPresent() && conductivity.getAsDouble() < 0) {
      section.problem("conductivity", "it cannot be negative", "");
    }
    OptionalDouble waterTable = section.quantity("water-table", Quantities::lengthM);
    Soil.GrainSizes fractions = fractions(section.section("fractions"), assumptions);
    Soil.GrainSizes grains = grains(section.section("grains"));
    if (grains != null && fractions != null) {
      section.problem("fractions", "the grains are given twice", "keep grains or fractions");
    }
    grains = grains == null ? fractions : grains;
    OptionalDouble rock = depth(section, "rock-depth");
    OptionalDouble frost = depth(section, "frost-depth");
    OptionalDouble tableDepth = section.quantity("water-table-depth", Quantities::lengthM);
    if (tableDepth.isPresent() && tableDepth.getAsDouble() < 0) {
      section.problem("water-table-depth", "it cannot be negative", "");
    }
    if (tableDepth.isPresent() && waterTable.isPresent()) {
      section.problem(
          "water-table-depth", "the water table is given twice", "keep its elevation or its depth");
    }
    OptionalDouble base = depth(section, "impermeable-depth");
    Soil.FilterClass filterClass = filterClass(section, grains != null, assumptions);
    Soil.Relief relief = relief(section, conductivity);
    Map<Surface.Kind, Double> curveNumbers = curveNumbers(section.section("curve-numbers"));
    section.refuseUnknownKeys();
    return new Soil(
        group,
        conductivity,
        grains,
        waterTable,
        rock,
        frost,
        tableDepth,
        base,
        filterClass,
        relief,
        curveNumbers);
  }

  /** Curve numbers in place of the table's, by cover. */
  private static Map<Surface.Kind, Double> curveNumbers(YamlSection section) {
    Map<Surface.Kind, Double> given = new EnumMap<>(Surface.Kind.class);
    for (Surface.Kind cover : Surface.Kind.values()) {
      String word = Words.of(cover);
      OptionalDouble number = section.quantity(word, Quantities::number);
      if (number.isEmpty()) {
        continue;
      }
      given.put(cover, number.getAsDouble());
      if (!(number.getAsDouble() >= Soil.LEAST_CURVE_NUMBER && number.getAsDouble() <= 100)) {
        section.problem(
            word,
            "a curve number lies between 30 and 100",
            "take one from TR-55 table 2-2 for this cover, soil group and condition");
      }
    }
    section.refuseUnknownKeys();
    return given;
  }

  /**
   * The filter's class; it is assumed only where grains are known, since else nothing is checked.
   */
  private static Soil.FilterClass filterClass(
      YamlSection section, boolean checked, List<Assumption> assumptions) {
    Optional<String> word = section.text("filter-class");
    Optional<Soil.FilterClass> given = word.flatMap(w -> Words.find(Soil.FilterClass.class, w));
    if (word.isPresent() && given.isEmpty()) {
      section.problem(
          "filter-class",
          "there is no filter class '" + word.get() + "'",
          Words.mend(Soil.FilterClass.class, word.get()));
    } else if (word.isEmpty() && checked) {
      assumptions.add(
          new Assumption(
              "soil.filter-class",
              "less-critical",
              "a blocked or silted yard drain is dug up and mended; where a failure would harm a"
                  + " building or people, or where flow is strong or reverses, FHWA's geosynthetics"
                  + " manual asks for critical"));
    }
    return given.orElse(Soil.FilterClass.LESS_CRITICAL);
  }

  private static Soil.Relief relief(YamlSection soil, OptionalDouble conductivity) {
    YamlSection section = soil.section("relief");
    OptionalDouble depth = depth(section, "table-depth");
    OptionalDouble discharge = section.quantity("discharge", Quantities::velocityMS);
    section.refuseUnknownKeys();
    if (section.isEmpty()) {
      return null;
    }
    checkPositive(section, "discharge", discharge);
    if (depth.isEmpty() || discharge.isEmpty()) {
      section.problem("", "table-depth and discharge belong together", "give both");
      return null;
    }
    if (conductivity.isEmpty()) {
      section.problem("", "the spacing of relief drains needs soil.conductivity", "give it");
    }
    return new Soil.Relief(depth.getAsDouble(), discharge.getAsDouble());
  }

  private static OptionalDouble depth(YamlSection section, String key) {
    OptionalDouble depth = section.quantity(key, Quantities::lengthM);
    if (depth.isPresent() && depth.getAsDouble() <= 0) {
      section.problem(key, "it must be more than 0", "");
    }
    return depth;
  }

  /** A soil of which only the fractions are known, as from a soil survey. */
  private static Soil.GrainSizes fractions(YamlSection section, List<Assumption> assumptions) {
    double gravel = section.quantity("gravel", Quantities::share).orElse(0);
    OptionalDouble sand = section.quantity("sand", Quantities::share);
    OptionalDouble silt = section.quantity("silt", Quantities::share);
    OptionalDouble clay = section.quantity("clay", Quantities::share);
    section.refuseUnknownKeys();
    if (section.isEmpty()) {
      return null;
    }
    if (sand.isEmpty() || silt.isEmpty() || clay.isEmpty()) {
      section.problem("", "sand, silt and clay belong together", "give all three, gravel if any");
      return null;
    }
    try {
      Soil.GrainSizes grains =
          Grading.ofFractions(gravel, sand.getAsDouble(), silt.getAsDouble(), clay.getAsDouble())
              .grainSizes();
      assumptions.add(
          new Assumption(
              "soil.grains",
              String.format(
                  Locale.ROOT,
                  "d15 %.4g, d50 %.4g, d85 %.4g mm, uniformity %.3g, fines %.0f %%, read off the"
                      + " fractions",
                  grains.d15Mm(),
                  grains.d50Mm(),
                  grains.d85Mm(),
                  grains.uniformity(),
                  100 * grains.finesShare()),
              "USDA size limits, 0.002, 0.05 and 2 mm; shares by the logarithm of the size between"
                  + " them"));
      return grains;
    } catch (BadInputException e) {
      Problem problem = e.problems().get(0);
      section.problem("", problem.what(), problem.mend());
      return null;
    }
  }

  private static Soil.GrainSizes grains(YamlSection section) {
    OptionalDouble d15 = section.quantity("d15", Quantities::lengthMm);
    OptionalDouble d50 = section.quantity("d50", Quantities::lengthMm);
    OptionalDouble d85 = section.quantity("d85", Quantities::lengthMm);
    OptionalDouble uniformity = section.quantity("uniformity", Quantities::number);
    OptionalDouble fines = section.quantity("fines", Quantities::share);
    section.refuseUnknownKeys();
    if (section.isEmpty()) {
      return null;
    }
    if (d15.isEmpty()
        || d50.isEmpty()
        || d85.isEmpty()
        || uniformity.isEmpty()
        || fines.isEmpty()) {
      section.problem("", "d15, d50, d85, uniformity and fines belong together", "give all five");
      return null;
    }
    double small = d15.getAsDouble();
    double middle = d50.getAsDouble();
    double large = d85.getAsDouble();
    if (!(0 < small && small <= middle && middle <= large)) {
      section.problem("d15", "the sizes must grow: 0 < d15 <= d50 <= d85", "");
    }
    if (large > LARGEST_GRAIN_MM) {
      section.problem("d85", "this is no grain of soil", "give the unit, such as 0.2 mm");
    }
    if (uniformity.getAsDouble() < 1) {
      section.problem("uniformity", "d60/d10 is never below 1", "");
    }
    if (!(fines.getAsDouble() >= 0 && fines.getAsDouble() <= 1)) {
      section.problem("fines", "a share lies between 0 and 1", "write it such as 35 % or 0.35");
    }
    Soil.GrainSizes grains =
        new Soil.GrainSizes(small, middle, large, uniformity.getAsDouble(), fines.getAsDouble());
    if (Grading.contradicts(grains)) {
      section.problem(
          "fines",
          "this share finer than 0.075 mm contradicts the sizes",
          "read the grading curve again");
    }
    return grains;
  }

  static StormInput storm(
      YamlSection section, Function<String, Path> path, List<Assumption> assumptions) {
    OptionalDouble depth = section.quantity("depth", Quantities::lengthM);
    OptionalDouble duration = section.quantity("duration", Quantities::timeS);
    Optional<Path> table = section.text("table").map(path);
    OptionalDouble years = section.quantity("return-period", StormYears::parse);
    section.refuseUnknownKeys();
    checkPositive(section, "depth", depth);
    checkRain(section, depth, duration);
    checkPositive(section, "duration", duration);
    checkPositive(section, "return-period", years);
    if (table.isPresent()) {
      if (depth.isPresent()) {
        section.problem("table", "a table and a depth exclude each other", "keep one");
      }
      return new StormInput(OptionalDouble.empty(), duration, table.get(), years);
    }
    if (depth.isEmpty()) {
      assumptions.add(new Assumption("storm.depth", "65 mm", STORM_SOURCE));
    }
    if (duration.isEmpty()) {
      assumptions.add(new Assumption("storm.duration", "24 h", STORM_SOURCE));
    }
    return new StormInput(
        OptionalDouble.of(depth.orElse(0.065)),
        OptionalDouble.of(duration.orElse(86400)),
        null,
        years);
  }

  /** A return period, with or without the word year. */
  private static final class StormYears {
    static double parse(String text) {
      return Quantities.number(text.replaceFirst("(?i)\\s*(?:years?|yrs?|a)\\.?$", ""));
    }
  }

  /** More rain than ever fell is a depth without its unit. */
  private static void checkRain(
      YamlSection section, OptionalDouble depth, OptionalDouble duration) {
    double days = Math.max(1, duration.orElse(0) / 86400);
    if (depth.isPresent() && depth.getAsDouble() > MOST_RAIN_M_PER_DAY * days) {
      section.problem(
          "depth",
          String.format(
              Locale.ROOT,
              "%.4g m of rain is more than has ever fallen in such a time",
              depth.getAsDouble()),
          "write the depth with its unit, such as 65 mm or 2.6 in; a bare number is metres");
    }
  }

  private static void checkPositive(YamlSection section, String key, OptionalDouble value) {
    if (value.isPresent() && value.getAsDouble() <= 0) {
      section.problem(key, "it must be more than 0", "");
    }
  }
}
