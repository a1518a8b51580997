package org.yardfall.site;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;

/**
 * The values of one feature: its geometry brought onto the working plane, its attributes read as in
 * the site file. What is wrong with one is added to the problems and left out.
 */
final class FeatureValues {

  private final VectorFeature feature;
  private final VectorLayer layer;
  private final LayerSource source;
  private final PlaneTransform toPlane;
  private final double bareM;
  private final List<String> warnings;
  private final Problems problems;

  private FeatureValues(
      VectorFeature feature,
      VectorLayer layer,
      LayerSource source,
      PlaneTransform toPlane,
      List<String> warnings,
      Problems problems) {
    this.feature = feature;
    this.layer = layer;
    this.source = source;
    this.toPlane = toPlane;
    this.bareM = source.unit() == null ? 1.0 : Quantities.lengthUnitM(source.unit());
    this.warnings = warnings;
    this.problems = problems;
  }

  /** Of each of a layer's features, in their order. */
  static List<FeatureValues> of(
      VectorLayer layer,
      LayerSource source,
      PlaneTransform toPlane,
      List<String> warnings,
      Problems problems) {
    return layer.features().stream()
        .map(f -> new FeatureValues(f, layer, source, toPlane, warnings, problems))
        .toList();
  }

  String id() {
    if (source.idField() != null) {
      return feature.attribute(source.idField()).orElse(feature.fid()).strip();
    }
    return keyed("id").orElse(feature.fid());
  }

  /** An attribute's text, where it has that attribute. */
  Optional<String> keyed(String key) {
    return feature.keyed(key);
  }

  /** The kind that it must have. */
  <E extends Enum<E>> Optional<E> kind(Class<E> type, String what) {
    Optional<String> word = keyed("kind");
    if (word.isEmpty()) {
      problem("the " + what + " has no kind", Words.mend(type, ""));
      return Optional.empty();
    }
    return word("kind", word.get(), type);
  }

  <E extends Enum<E>> Optional<E> word(String key, String word, Class<E> type) {
    Optional<E> found = Words.find(type, word);
    if (found.isEmpty()) {
      problem("'" + word + "' is not known as " + key, Words.mend(type, word));
    }
    return found;
  }

  /** A length in metres, 0 or more. */
  OptionalDouble notNegative(String key) {
    return notNegative(key, key);
  }

  /** The same by its key or, where the layer is one that Yardfall wrote, by its field there. */
  OptionalDouble notNegative(String key, String writtenM) {
    OptionalDouble value = lengthOr(key, writtenM);
    if (value.isPresent() && value.getAsDouble() < 0) {
      problem(key + " cannot be negative", "");
    }
    return value;
  }

  /** Whether it counts under a section of the site file, though the layer is given there. */
  boolean isFor(String section) {
    return !WrittenObstacles.isOfAnother(feature, section);
  }

  /** A distance, 0 or more, by its key or, in a written layer, by its field less the widening. */
  OptionalDouble clear(String key, String writtenM) {
    OptionalDouble written = keyed(key).isPresent() ? OptionalDouble.empty() : length(writtenM, 1);
    return written.isPresent()
        ? OptionalDouble.of(Math.max(0, written.getAsDouble() - length("drawn-m", 1).orElse(0)))
        : notNegative(key);
  }

  /** A length by its key or, where the layer is one that Yardfall wrote, by its field there. */
  OptionalDouble lengthOr(String key, String writtenM) {
    OptionalDouble given = length(key);
    return given.isPresent() ? given : length(writtenM, 1);
  }

  /** A length in metres; a bare number is in the layer's unit. */
  OptionalDouble length(String key) {
    return length(key, bareM);
  }

  private OptionalDouble length(String key, double bareM) {
    Optional<String> text = keyed(key);
    try {
      return text.isEmpty()
          ? OptionalDouble.empty()
          : OptionalDouble.of(Quantities.lengthM(text.get(), bareM));
    } catch (IllegalArgumentException e) {
      problem(key + ": " + e.getMessage(), "");
      return OptionalDouble.empty();
    }
  }

  Optional<Geometry> geometry() {
    Geometry drawn = feature.geometry();
    if (drawn == null || drawn.isEmpty()) {
      warnings.add(where() + ": it has no geometry and is left out");
      return Optional.empty();
    }
    String fault = OutlineCheck.fault(drawn);
    Geometry sound = fault.isEmpty() ? drawn : OutlineCheck.mended(drawn, where(), warnings);
    return problems.attempt(() -> toPlane.apply(sound));
  }

  /** The outlines of what must be drawn as such. */
  List<Polygon> polygons(String what) {
    Optional<Geometry> shape = geometry();
    List<Polygon> polygons = shape.map(OutlineCheck::polygons).orElse(List.of());
    if (shape.isPresent() && polygons.isEmpty()) {
      problem(
          what + " is a polygon, but this is a " + shape.get().getGeometryType(),
          "give its outline");
    }
    return polygons;
  }

  /** The same by an id of their own: the first has the feature's, the second that and /2. */
  Map<String, Polygon> parts(String what) {
    Map<String, Polygon> parts = new LinkedHashMap<>();
    for (Polygon outline : polygons(what)) {
      parts.put(parts.isEmpty() ? id() : id() + "/" + (parts.size() + 1), outline);
    }
    return parts;
  }

  /** A collection's only member; anything else as it is. */
  static Geometry single(Geometry geometry) {
    return geometry.getNumGeometries() == 1 ? geometry.getGeometryN(0) : geometry;
  }

  void problem(String what, String mend) {
    problems.add(where(), what, mend);
  }

  private String where() {
    return String.format(Locale.ROOT, "%s feature %s", layer.name(), feature.fid());
  }
}
