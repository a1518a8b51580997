package org.yardfall.site;

import static org.locationtech.jts.operation.buffer.BufferParameters.CAP_FLAT;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
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
 * swales of a layer's features, brought onto the working plane. Attributes are quantities as in the
 * site file.
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

  private final VectorLayer layer;
  private final LayerSource source;
  private final PlaneTransform toPlane;
  private final DrainLimits limits;
  private final double bareM;
  private final List<Assumption> assumptions;
  private final List<String> warnings;
  private final Problems problems;

  GroundFeatures(
      VectorLayer layer,
      LayerSource source,
      PlaneTransform toPlane,
      DrainLimits limits,
      List<Assumption> assumptions,
      List<String> warnings,
      Problems problems) {
    this.layer = layer;
    this.source = source;
    this.toPlane = toPlane;
    this.limits = limits;
    this.bareM = source.unit() == null ? 1.0 : Quantities.lengthUnitM(source.unit());
    this.assumptions = assumptions;
    this.warnings = warnings;
    this.problems = problems;
  }

  List<Building> buildings() {
    List<Building> buildings = new ArrayList<>();
    for (VectorFeature f : layer.features()) {
      OptionalDouble footing = length(f, "footing-bottom");
      OptionalDouble opening = length(f, "lowest-opening");
      int part = 0;
      for (Polygon outline : polygons(f, "a building")) {
        String id = part == 0 ? id(f) : id(f) + "/" + (part + 1);
        part++;
        buildings.add(new Building(id, outline, footing, opening));
      }
    }
    return buildings;
  }

  List<Downspout> downspouts() {
    List<Downspout> downspouts = new ArrayList<>();
    for (VectorFeature f : layer.features()) {
      Optional<Geometry> at = geometry(f);
      if (at.isEmpty()) {
        continue;
      }
      if (!(single(at.get()) instanceof Point point)) {
        problem(f, "a downspout is a point, but this is a " + at.get().getGeometryType(), "");
        continue;
      }
      downspouts.add(
          new Downspout(id(f), point.getCoordinate(), f.keyed("building").orElse("").strip()));
    }
    return downspouts;
  }

  List<Obstacle> obstacles() {
    List<Obstacle> obstacles = new ArrayList<>();
    for (VectorFeature f : layer.features()) {
      Optional<Kind> kind = kind(f, Kind.class, "obstacle");
      Optional<Geometry> shape = geometry(f);
      if (kind.isEmpty() || shape.isEmpty()) {
        continue;
      }
      OptionalDouble uphill = notNegative(f, "uphill");
      OptionalDouble downhill = notNegative(f, "downhill");
      double clearance =
          notNegative(f, "clearance")
              .orElseGet(
                  () ->
                      uphill.isPresent() && downhill.isPresent()
                          ? Math.min(uphill.getAsDouble(), downhill.getAsDouble())
                          : usualClearance(kind.get()));
      boolean stay = stayInside(f, kind.get());
      Passage passage =
          f.keyed("passage")
              .flatMap(word -> word(f, "passage", word, Passage.class))
              .orElseGet(() -> stay ? Passage.UNDER : usualPassage(kind.get()));
      if ((uphill.isPresent() || downhill.isPresent()) && passage != Passage.NONE) {
        problem(f, "a clearance uphill or downhill is of what cannot be passed", "");
      }
      double vertical = notNegative(f, "vertical-clearance").orElse(limits.verticalClearanceM());
      obstacles.add(
          new Obstacle(
              id(f),
              kind.get(),
              shape.get(),
              clearance,
              passage,
              length(f, "bottom"),
              vertical,
              uphill,
              downhill,
              stay));
    }
    return obstacles;
  }

  private boolean stayInside(VectorFeature f, Kind kind) {
    Optional<String> word = f.keyed("stay");
    if (word.isEmpty()) {
      return false;
    }
    if (!word.get().strip().equalsIgnoreCase("inside")) {
      problem(f, "'" + word.get() + "' is not known as stay", "write inside, or leave it out");
    } else if (kind != Kind.EASEMENT) {
      problem(f, "only an easement can be stayed in", "leave stay out");
    }
    return true;
  }

  List<PinnedLine> pinned() {
    List<PinnedLine> lines = new ArrayList<>();
    for (VectorFeature f : layer.features()) {
      Optional<Geometry> shape = geometry(f);
      if (shape.isEmpty()) {
        continue;
      }
      if (!(single(shape.get()) instanceof LineString line)) {
        problem(f, "a pinned drain is one line from its upper end to its outlet", "");
        continue;
      }
      lines.add(
          new PinnedLine(id(f), line, f.keyed("outlet").orElse(""), f.keyed("seep").orElse("")));
    }
    return lines;
  }

  List<Seep> seeps() {
    List<Seep> seeps = new ArrayList<>();
    for (VectorFeature f : layer.features()) {
      OptionalDouble depth = notNegative(f, "water-depth");
      geometry(f).ifPresent(shape -> seeps.add(new Seep(id(f), shape, depth)));
    }
    return seeps;
  }

  /** Swales drawn from bank to bank, or along their beds with a width. */
  List<LevelledSwale> levelled() {
    List<LevelledSwale> swales = new ArrayList<>();
    for (VectorFeature f : layer.features()) {
      Optional<Geometry> shape = geometry(f);
      if (shape.isEmpty()) {
        continue;
      }
      Geometry drawn = single(shape.get());
      if (drawn instanceof LineString bed) {
        double width =
            notNegative(f, "width").orElseGet(() -> assume("levelled width", SWALE_M, "5 ft"));
        drawn = BufferOp.bufferOp(bed, width / 2, new BufferParameters(4, CAP_FLAT));
      }
      if (drawn instanceof Polygon outline && !outline.isEmpty()) {
        swales.add(new LevelledSwale(id(f), outline));
      } else {
        problem(f, "a swale is its outline, or its bed as a line with a width", "");
      }
    }
    return swales;
  }

  private double usualClearance(Kind kind) {
    double usual = CLEARANCES_M.get(kind);
    assume(
        "obstacles clearance of " + Words.of(kind),
        usual + " m",
        PRACTICE + "; local code goes first");
    return usual;
  }

  private Passage usualPassage(Kind kind) {
    Passage usual = PASSAGES.getOrDefault(kind, Passage.NONE);
    assume("obstacles passage of " + Words.of(kind), Words.of(usual), PRACTICE);
    return usual;
  }

  List<Crossing> crossings() {
    List<Crossing> crossings = new ArrayList<>();
    for (VectorFeature f : layer.features()) {
      double thickness =
          notNegative(f, "thickness")
              .orElseGet(() -> assume("crossings thickness", 4 * INCH_M, "4 in"));
      double base =
          notNegative(f, "base").orElseGet(() -> assume("crossings base", 4 * INCH_M, "4 in"));
      int part = 0;
      for (Polygon outline : polygons(f, "a crossing")) {
        String id = part == 0 ? id(f) : id(f) + "/" + (part + 1);
        part++;
        crossings.add(new Crossing(id, outline, thickness, base));
      }
    }
    return crossings;
  }

  List<Outlet> outlets() {
    List<Outlet> outlets = new ArrayList<>();
    for (VectorFeature f : layer.features()) {
      Optional<Outlet.Kind> kind = kind(f, Outlet.Kind.class, "outlet");
      Optional<Geometry> at = geometry(f);
      if (kind.isEmpty() || at.isEmpty()) {
        continue;
      }
      if (!(single(at.get()) instanceof Point point)) {
        problem(f, "an outlet is a point, but this is a " + at.get().getGeometryType(), "");
        continue;
      }
      outlets.add(
          new Outlet(
              id(f),
              kind.get(),
              point.getCoordinate(),
              level(f, "invert", "invert-m"),
              level(f, "water-level", "water-m"),
              level(f, "lid", "lid-m"),
              f.keyed("permit").orElse(""),
              level(f, "usual-level", "usual-m")));
    }
    return outlets;
  }

  List<Surface> surfaces() {
    List<Surface> surfaces = new ArrayList<>();
    for (VectorFeature f : layer.features()) {
      Optional<Surface.Kind> kind = kind(f, Surface.Kind.class, "surface");
      List<Polygon> outlines = polygons(f, "a surface");
      if (kind.isPresent() && !outlines.isEmpty()) {
        surfaces.add(new Surface(kind.get(), outlines.get(0).getFactory().buildGeometry(outlines)));
      }
    }
    return surfaces;
  }

  List<FlowOpening> openings() {
    List<FlowOpening> openings = new ArrayList<>();
    for (VectorFeature f : layer.features()) {
      Optional<FlowOpening.Kind> kind = kind(f, FlowOpening.Kind.class, "opening");
      Optional<Geometry> shape = geometry(f);
      if (kind.isEmpty() || shape.isEmpty()) {
        continue;
      }
      if (!(single(shape.get()) instanceof LineString line)) {
        problem(f, "an opening is a line from upstream to downstream", "");
        continue;
      }
      openings.add(
          new FlowOpening(
              id(f), kind.get(), line, length(f, "invert-up"), length(f, "invert-down")));
    }
    return openings;
  }

  private String id(VectorFeature f) {
    if (source.idField() != null) {
      return f.attribute(source.idField()).orElse(f.fid()).strip();
    }
    return f.keyed("id").orElse(f.fid());
  }

  private <E extends Enum<E>> Optional<E> kind(VectorFeature f, Class<E> type, String what) {
    Optional<String> word = f.keyed("kind");
    if (word.isEmpty()) {
      problem(f, "the " + what + " has no kind", Words.mend(type, ""));
      return Optional.empty();
    }
    return word(f, "kind", word.get(), type);
  }

  private <E extends Enum<E>> Optional<E> word(
      VectorFeature f, String key, String word, Class<E> type) {
    Optional<E> found = Words.find(type, word);
    if (found.isEmpty()) {
      problem(f, "'" + word + "' is not known as " + key, Words.mend(type, word));
    }
    return found;
  }

  private OptionalDouble notNegative(VectorFeature f, String key) {
    OptionalDouble value = length(f, key);
    if (value.isPresent() && value.getAsDouble() < 0) {
      problem(f, key + " cannot be negative", "");
    }
    return value;
  }

  /** An elevation by its key or, where the layer is one that Yardfall wrote, by its field there. */
  private OptionalDouble level(VectorFeature f, String key, String writtenM) {
    OptionalDouble given = length(f, key);
    return given.isPresent() ? given : length(f, writtenM, 1);
  }

  private OptionalDouble length(VectorFeature f, String key) {
    return length(f, key, bareM);
  }

  private OptionalDouble length(VectorFeature f, String key, double bareM) {
    ToDoubleFunction<String> parser = text -> Quantities.lengthM(text, bareM);
    Optional<String> text = f.keyed(key);
    try {
      return text.isEmpty()
          ? OptionalDouble.empty()
          : OptionalDouble.of(parser.applyAsDouble(text.get()));
    } catch (IllegalArgumentException e) {
      problem(f, key + ": " + e.getMessage(), "");
      return OptionalDouble.empty();
    }
  }

  private Optional<Geometry> geometry(VectorFeature f) {
    if (f.geometry() == null || f.geometry().isEmpty()) {
      warnings.add(where(f) + ": it has no geometry and is left out");
      return Optional.empty();
    }
    String fault = OutlineCheck.fault(f.geometry());
    Geometry sound =
        fault.isEmpty() ? f.geometry() : OutlineCheck.mended(f.geometry(), where(f), warnings);
    return problems.attempt(() -> toPlane.apply(sound));
  }

  private List<Polygon> polygons(VectorFeature f, String what) {
    Optional<Geometry> shape = geometry(f);
    List<Polygon> polygons = shape.map(OutlineCheck::polygons).orElse(List.of());
    if (shape.isPresent() && polygons.isEmpty()) {
      problem(
          f,
          what + " is a polygon, but this is a " + shape.get().getGeometryType(),
          "give its outline");
    }
    return polygons;
  }

  private static Geometry single(Geometry geometry) {
    return geometry.getNumGeometries() == 1 ? geometry.getGeometryN(0) : geometry;
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

  private void problem(VectorFeature f, String what, String mend) {
    problems.add(where(f), what, mend);
  }

  private String where(VectorFeature f) {
    return String.format(Locale.ROOT, "%s feature %s", layer.name(), f.fid());
  }
}
