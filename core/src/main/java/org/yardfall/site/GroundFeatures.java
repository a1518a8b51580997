package org.yardfall.site;

import static org.locationtech.jts.operation.buffer.BufferParameters.CAP_FLAT;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;
import org.yardfall.site.Obstacle.Kind;
import org.yardfall.site.Obstacle.Passage;

/**
 * Makes buildings, downspouts, obstacles, crossings, outlets, surfaces, openings, wet patches and
 * swales of a layer's features.
 */
final class GroundFeatures {

  private static final double INCH_M = 0.0254;

  /** Width in metres of a swale of which only the bed is drawn: 5 ft. */
  private static final double SWALE_M = 5 * 0.3048;

  private static final String PRACTICE = "common practice, no source";

  /**
   * Clearance in metres where an obstacle states none. Utilities: the tolerance zone of one-call
   * rules, 18 to 24 in; septic and wells: local codes differ widely and go first.
   */
  private static final Map<Kind, Double> CLEARANCES_M =
      Map.of(
          Kind.UTILITY, 0.6,
          Kind.SPRINKLER, 0.15,
          Kind.TREE, 2.0,
          Kind.SEPTIC, 7.6,
          Kind.WELL, 15.0,
          Kind.WALL, 0.9,
          Kind.EASEMENT, 0.0,
          Kind.KEEP_OUT, 0.0);

  /** Passage where an obstacle states none: only what the trade passes as a matter of course. */
  private static final Map<Kind, Passage> PASSAGES =
      Map.of(Kind.SPRINKLER, Passage.UNDER, Kind.TREE, Passage.SOLID_PIPE);

  private final List<FeatureValues> features;
  private final DrainLimits limits;
  private final List<Assumption> assumptions;

  GroundFeatures(List<FeatureValues> features, DrainLimits limits, List<Assumption> assumptions) {
    this.features = features;
    this.limits = limits;
    this.assumptions = assumptions;
  }

  /** The features for a section: of a written layer of obstacles not those of the others. */
  private List<FeatureValues> of(String section) {
    return features.stream().filter(f -> f.isFor(section)).toList();
  }

  List<Building> buildings() {
    List<Building> buildings = new ArrayList<>();
    for (FeatureValues f : of("buildings")) {
      OptionalDouble footing = f.lengthOr("footing-bottom", "bottom-m");
      OptionalDouble opening = f.lengthOr("lowest-opening", "opening-m");
      f.parts("a building")
          .forEach((id, outline) -> buildings.add(new Building(id, outline, footing, opening)));
    }
    return buildings;
  }

  List<Downspout> downspouts() {
    List<Downspout> downspouts = new ArrayList<>();
    for (FeatureValues f : features) {
      Optional<Geometry> at = f.geometry();
      if (at.isEmpty()) {
        continue;
      }
      if (!(FeatureValues.single(at.get()) instanceof Point point)) {
        f.problem("a downspout is a point, but this is a " + at.get().getGeometryType(), "");
        continue;
      }
      downspouts.add(
          new Downspout(f.id(), point.getCoordinate(), f.keyed("building").orElse("").strip()));
    }
    return downspouts;
  }

  List<Obstacle> obstacles() {
    List<Obstacle> obstacles = new ArrayList<>();
    for (FeatureValues f : of("obstacles")) {
      Optional<Kind> kind = f.kind(Kind.class, "obstacle");
      Optional<Geometry> shape = f.geometry();
      if (kind.isEmpty() || shape.isEmpty()) {
        continue;
      }
      OptionalDouble uphill = f.clear("uphill", "uphill-m");
      OptionalDouble downhill = f.clear("downhill", "downhill-m");
      double clearance =
          f.clear("clearance", "clear-m")
              .orElseGet(
                  () ->
                      uphill.isPresent() && downhill.isPresent()
                          ? Math.min(uphill.getAsDouble(), downhill.getAsDouble())
                          : usualClearance(kind.get()));
      boolean stay = stayInside(f, kind.get());
      Passage passage =
          f.keyed("passage")
              .flatMap(word -> f.word("passage", word, Passage.class))
              .orElseGet(() -> stay ? Passage.UNDER : usualPassage(kind.get()));
      if ((uphill.isPresent() || downhill.isPresent()) && passage != Passage.NONE) {
        f.problem("a clearance uphill or downhill is of what cannot be passed", "");
      }
      double vertical =
          f.notNegative("vertical-clearance", "vert-m").orElse(limits.verticalClearanceM());
      obstacles.add(
          new Obstacle(
              f.id(),
              kind.get(),
              shape.get(),
              clearance,
              passage,
              f.lengthOr("bottom", "bottom-m"),
              vertical,
              uphill,
              downhill,
              stay,
              rockDepth(f, kind.get(), shape.get())));
    }
    return obstacles;
  }

  private static OptionalDouble rockDepth(FeatureValues f, Kind kind, Geometry shape) {
    OptionalDouble depth = f.notNegative("rock-depth", "rock-m");
    if (kind != Kind.ROCK) {
      if (depth.isPresent()) {
        f.problem("only of rock is a depth known", "leave rock-depth out, or write rock as kind");
      }
      return OptionalDouble.empty();
    }
    if (depth.isEmpty()) {
      f.problem("how deep the rock lies is missing", "write rock-depth, from the ground to it");
    }
    if (shape.getDimension() < 2) {
      f.problem("rock is an area, but this is a " + shape.getGeometryType(), "draw its outline");
    }
    return depth;
  }

  private boolean stayInside(FeatureValues f, Kind kind) {
    Optional<String> word = f.keyed("stay");
    if (word.isEmpty()) {
      return false;
    }
    if (!word.get().strip().equalsIgnoreCase("inside")) {
      f.problem("'" + word.get() + "' is not known as stay", "write inside, or leave it out");
    } else if (kind != Kind.EASEMENT) {
      f.problem("only an easement can be stayed in", "leave stay out");
    }
    return true;
  }

  List<PinnedLine> pinned() {
    List<PinnedLine> lines = new ArrayList<>();
    for (FeatureValues f : features) {
      Optional<Geometry> shape = f.geometry();
      if (shape.isEmpty()) {
        continue;
      }
      if (!(FeatureValues.single(shape.get()) instanceof LineString line)) {
        f.problem("a pinned drain is one line from its upper end to its outlet", "");
        continue;
      }
      lines.add(
          new PinnedLine(
              f.id(),
              line,
              f.keyed("outlet").orElse(""),
              f.keyed("seep").orElse(""),
              f.keyed("part").orElse(""),
              f.keyed("joins").orElse("")));
    }
    return lines;
  }

  List<Seep> seeps() {
    List<Seep> seeps = new ArrayList<>();
    for (FeatureValues f : of("seeps")) {
      OptionalDouble depth = f.notNegative("water-depth", "water-m");
      f.geometry().ifPresent(shape -> seeps.add(new Seep(f.id(), shape, depth)));
    }
    return seeps;
  }

  /** Swales drawn from bank to bank, or along their beds with a width. */
  List<LevelledSwale> levelled() {
    List<LevelledSwale> swales = new ArrayList<>();
    for (FeatureValues f : features) {
      Optional<Geometry> shape = f.geometry();
      if (shape.isEmpty()) {
        continue;
      }
      Geometry drawn = FeatureValues.single(shape.get());
      if (drawn instanceof LineString bed) {
        double width =
            f.notNegative("width").orElseGet(() -> assume("levelled width", SWALE_M, "5 ft"));
        drawn = BufferOp.bufferOp(bed, width / 2, new BufferParameters(4, CAP_FLAT));
      }
      if (drawn instanceof Polygon outline && !outline.isEmpty()) {
        swales.add(new LevelledSwale(f.id(), outline));
      } else {
        f.problem("a swale is its outline, or its bed as a line with a width", "");
      }
    }
    return swales;
  }

  private double usualClearance(Kind kind) {
    if (kind == Kind.ROCK) {
      return 0; // its outline is all there is to mind
    }
    double usual = CLEARANCES_M.get(kind);
    assume(
        "obstacles clearance of " + Words.of(kind),
        usual + " m",
        PRACTICE + "; local code goes first");
    return usual;
  }

  private Passage usualPassage(Kind kind) {
    if (kind == Kind.ROCK) {
      return Passage.UNDER; // dug as elsewhere, as deep as the rock allows
    }
    Passage usual = PASSAGES.getOrDefault(kind, Passage.NONE);
    assume("obstacles passage of " + Words.of(kind), Words.of(usual), PRACTICE);
    return usual;
  }

  List<Crossing> crossings() {
    List<Crossing> crossings = new ArrayList<>();
    for (FeatureValues f : of("crossings")) {
      double thickness =
          f.notNegative("thickness", "thick-m")
              .orElseGet(() -> assume("crossings thickness", 4 * INCH_M, "4 in"));
      double base =
          f.notNegative("base", "base-m")
              .orElseGet(() -> assume("crossings base", 4 * INCH_M, "4 in"));
      double cover =
          f.notNegative("cover", "cover-m")
              .orElseGet(() -> assume("crossings cover", INCH_M, "1 in of earth under the base"));
      f.parts("a crossing")
          .forEach(
              (id, outline) -> crossings.add(new Crossing(id, outline, thickness, base, cover)));
    }
    return crossings;
  }

  List<Outlet> outlets() {
    List<Outlet> outlets = new ArrayList<>();
    for (FeatureValues f : features) {
      Optional<Outlet.Kind> kind = f.kind(Outlet.Kind.class, "outlet");
      Optional<Geometry> at = f.geometry();
      if (kind.isEmpty() || at.isEmpty()) {
        continue;
      }
      if (!(FeatureValues.single(at.get()) instanceof Point point)) {
        f.problem("an outlet is a point, but this is a " + at.get().getGeometryType(), "");
        continue;
      }
      outlets.add(
          new Outlet(
              f.id(),
              kind.get(),
              point.getCoordinate(),
              f.lengthOr("invert", "invert-m"),
              f.lengthOr("water-level", "water-m"),
              f.lengthOr("lid", "lid-m"),
              f.keyed("permit").orElse(""),
              f.lengthOr("usual-level", "usual-m")));
    }
    return outlets;
  }

  List<Surface> surfaces() {
    List<Surface> surfaces = new ArrayList<>();
    for (FeatureValues f : features) {
      Optional<Surface.Kind> kind = f.kind(Surface.Kind.class, "surface");
      List<Polygon> outlines = f.polygons("a surface");
      if (kind.isPresent() && !outlines.isEmpty()) {
        surfaces.add(new Surface(kind.get(), outlines.get(0).getFactory().buildGeometry(outlines)));
      }
    }
    return surfaces;
  }

  List<FlowOpening> openings() {
    List<FlowOpening> openings = new ArrayList<>();
    for (FeatureValues f : features) {
      Optional<FlowOpening.Kind> kind = f.kind(FlowOpening.Kind.class, "opening");
      Optional<Geometry> shape = f.geometry();
      if (kind.isEmpty() || shape.isEmpty()) {
        continue;
      }
      if (!(FeatureValues.single(shape.get()) instanceof LineString line)) {
        f.problem("an opening is a line from upstream to downstream", "");
        continue;
      }
      openings.add(
          new FlowOpening(
              f.id(), kind.get(), line, f.length("invert-up"), f.length("invert-down")));
    }
    return openings;
  }

  private double assume(String about, double value, String text) {
    assume(about, text, PRACTICE);
    return value;
  }

  private void assume(String about, String value, String from) {
    Assumption assumption = new Assumption(about, value, from);
    if (!assumptions.contains(assumption)) {
      assumptions.add(assumption);
    }
  }
}
