package org.yardfall.site;

import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;

/** Reads the limits of the drain and the unit prices; what is not given is assumed and said. */
final class DrainSection {

  private static final String PRACTICE = "common practice, no source";

  /** What the assumption of a stone priced by volume is about. */
  static final String STONE_DENSITY = "stone's bulk density, for its price by volume";

  private static final String EGRESS =
      "29 CFR 1926.651(c)(2): a trench of 4 ft or more needs a ladder or ramp";

  private final YamlSection section;
  private final Soil soil;
  private final List<Assumption> assumptions;

  private DrainSection(YamlSection section, Soil soil, List<Assumption> assumptions) {
    this.section = section;
    this.soil = soil;
    this.assumptions = assumptions;
  }

  /** The limits; rock under a shallow soil ends the trench before its greatest depth. */
  static DrainLimits limits(YamlSection section, Soil soil, List<Assumption> assumptions) {
    return new DrainSection(section, soil, assumptions).read();
  }

  private DrainLimits read() {
    double minGrade = grade("min-grade", "1 %");
    double maxGrade = grade("max-grade", "20 %");
    double minCover = length("min-cover", "6 in", PRACTICE);
    double maxDepth = positive("max-depth", "4 ft", EGRESS);
    double setback = length("setback", "2 ft", PRACTICE);
    double fromBuilding = length("from-building", "3 ft", PRACTICE);
    double trenchWidth = positive("trench-width", "18 in", PRACTICE);
    PipeSizes.Size pipe = pipe();
    double inside = orElse("pipe-inside", pipe.insideM());
    double outside = orElse("pipe-outside", pipe.outsideM());
    double clearance = length("vertical-clearance", "1 ft", PRACTICE);
    double bore = length("bore-max-length", "7.5 m", PRACTICE);
    DrainLimits.GradeLine gradeLine = gradeLine();
    section.refuseUnknownKeys();
    if (minGrade > maxGrade) {
      section.problem("min-grade", "it is more than max-grade", "lower the one or raise the other");
    }
    if (outside <= inside) {
      section.problem("pipe-outside", "it is not more than the inside diameter", "");
    }
    double rock = soil.rockDepthM().orElse(Double.POSITIVE_INFINITY);
    double aboveRock = DrainLimits.aboveRockM(rock, outside, inside);
    if (minCover + outside > aboveRock) {
      section.problem(
          "min-cover",
          String.format(
              Locale.ROOT,
              "rock lies %.2f m down, too shallow for a pipe of %.3f m on its bed under %.2f m of cover",
              rock,
              outside,
              minCover),
          "lower min-cover, or lead the water in an open swale, which needs no trench");
    } else if (minCover + outside > maxDepth) {
      section.problem(
          "min-cover",
          "with the pipe's outside diameter it is more than max-depth, so no depth is allowed",
          "lower min-cover or raise max-depth");
    }
    if (trenchWidth < outside) {
      section.problem("trench-width", "the trench is narrower than the pipe", "");
    }
    return new DrainLimits(
        minGrade,
        maxGrade,
        minCover,
        Math.min(maxDepth, aboveRock),
        setback,
        besideBuilding(fromBuilding, trenchWidth),
        trenchWidth,
        outside,
        inside,
        clearance,
        bore,
        gradeLine);
  }

  /** The middle of a trench lies no nearer to a wall than half its width. */
  private double besideBuilding(double fromBuildingM, double trenchWidthM) {
    double least = trenchWidthM / 2;
    if (fromBuildingM >= least || Double.isNaN(fromBuildingM) || Double.isNaN(least)) {
      return fromBuildingM;
    }
    assumptions.add(
        new Assumption(
            "trench beside a building",
            String.format(
                Locale.ROOT,
                "its middle %.2f m off, not the %.2f m given: half its width, its edge at the wall",
                least,
                fromBuildingM),
            "geometry"));
    return least;
  }

  private DrainLimits.GradeLine gradeLine() {
    Optional<String> word = section.text("grade-line");
    Optional<DrainLimits.GradeLine> given =
        word.flatMap(w -> Words.find(DrainLimits.GradeLine.class, w));
    if (word.isEmpty()) {
      assumptions.add(new Assumption("drain.grade-line", "fewest-grades", PRACTICE));
    } else if (given.isEmpty()) {
      section.problem(
          "grade-line",
          "there is no grade line '" + word.get() + "'",
          Words.mend(DrainLimits.GradeLine.class, word.get()));
    }
    return given.orElse(DrainLimits.GradeLine.FEWEST_GRADES);
  }

  private PipeSizes.Size pipe() {
    double nominal =
        section.text("pipe-inside").isPresent() && section.text("pipe-outside").isPresent()
            ? section.quantity("pipe", Quantities::lengthM).orElse(0.1016)
            : positive("pipe", "4 in", PRACTICE);
    Optional<PipeSizes.Size> size = PipeSizes.ofNominal(nominal);
    if (size.isEmpty()) {
      section.problem(
          "pipe",
          "there is no pipe of this nominal size in the list (3, 4, 6, 8, 10, 12 in)",
          "give pipe-inside and pipe-outside");
    }
    return size.orElse(PipeSizes.USUAL);
  }

  private double orElse(String key, double otherwise) {
    OptionalDouble given = section.quantity(key, Quantities::lengthM);
    if (given.isPresent() && given.getAsDouble() <= 0) {
      section.problem(key, "it must be more than 0", "");
    }
    return given.orElse(otherwise);
  }

  private double grade(String key, String usual) {
    double grade = value(key, usual, PRACTICE, Quantities::grade);
    if (grade <= 0) {
      section.problem(key, "a grade must be more than 0", "");
    } else if (grade >= 1) {
      section.problem(key, "this is a grade of 100 % or more", "write per cent, such as 1 %");
    }
    return grade;
  }

  /** A length of 0 or more; NaN, which contradicts no other limit, where it was refused. */
  private double length(String key, String usual, String source) {
    double length = value(key, usual, source, Quantities::lengthM);
    if (length < 0) {
      section.problem(key, "a length cannot be negative", "");
      return Double.NaN;
    }
    return length;
  }

  private double positive(String key, String usual, String source) {
    double length = value(key, usual, source, Quantities::lengthM);
    if (length <= 0) {
      section.problem(key, "it must be more than 0", "");
      return Double.NaN;
    }
    return length;
  }

  private double value(String key, String usual, String source, ToDoubleFunction<String> parser) {
    OptionalDouble given = section.quantity(key, parser);
    if (given.isEmpty()) {
      assumptions.add(new Assumption("drain." + key, usual, source));
    }
    return given.orElseGet(() -> parser.applyAsDouble(usual));
  }

  static Prices prices(YamlSection section, double trenchWidthM, List<Assumption> assumptions) {
    Map<Prices.Item, Double> prices = new EnumMap<>(Prices.Item.class);
    for (Prices.Item item : Prices.Item.values()) {
      String key = Words.of(item);
      section
          .quantity(key, text -> UnitPrice.parse(item, text, trenchWidthM))
          .ifPresent(price -> prices.put(item, price));
      if (section.text(key).filter(text -> UnitPrice.usesStoneDensity(item, text)).isPresent()) {
        assumptions.add(
            new Assumption(
                STONE_DENSITY,
                "1.40 t/m³",
                "published compilation of stone tests (2012): No. 57 dumped, 87.2 lb/ft³"));
      }
    }
    Optional<String> word = section.text("stone-sold-by");
    Optional<Prices.StoneUnit> soldBy = word.flatMap(w -> Words.find(Prices.StoneUnit.class, w));
    if (word.isPresent() && soldBy.isEmpty()) {
      section.problem(
          "stone-sold-by",
          "stone is not sold by '" + word.get() + "'",
          Words.mend(Prices.StoneUnit.class, word.get()));
    }
    Optional<Prices.StoneUnit> priced =
        section.text(Words.of(Prices.Item.STONE)).flatMap(UnitPrice::stoneSoldBy);
    section.refuseUnknownKeys();
    return new Prices(prices, soldBy.or(() -> priced));
  }
}
