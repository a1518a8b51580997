package org.yardfall.layer;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.Predicate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.MultiPolygon;
import org.locationtech.jts.geom.Polygon;

/**
 * A map layer, whatever the format it is written in.
 *
 * @param name its name, which is also its files' name
 * @param title what it shows, in words
 * @param shape the kind of all its geometries
 * @param fields its fields
 * @param features its features; there may be none
 */
public record Layer(
    String name, String title, Shape shape, List<Field> fields, List<Feature> features) {

  /** The kind of a layer's geometries. */
  public enum Shape {
    /** Points with elevation. */
    POINT_Z,
    /** Points. */
    POINT,
    /** Lines with elevation. */
    LINE_Z,
    /** Lines. */
    LINE,
    /** Areas: always multipolygons. */
    AREA;

    /** Whether the coordinates carry an elevation. */
    public boolean hasZ() {
      return this == POINT_Z || this == LINE_Z;
    }
  }

  /** Keeps the lists to itself. */
  public Layer {
    fields = List.copyOf(fields);
    features = List.copyOf(features);
  }

  /** Index of a field by its name. */
  public int indexOf(String field) {
    for (int i = 0; i < fields.size(); i++) {
      if (fields.get(i).name().equals(field)) {
        return i;
      }
    }
    throw new IllegalArgumentException("layer " + name + " has no field " + field);
  }

  /**
   * A field and where its value comes from.
   *
   * @param field the field
   * @param value gives the value, or null, of an item of the layer
   */
  record Column<T>(Field field, Function<T, ?> value) {

    static <T> Column<T> text(String name, Function<T, String> value) {
      return new Column<>(
          new Field(name, Field.Type.TEXT, 0), item -> CleanText.orNull(value.apply(item)));
    }

    static <T> Column<T> integer(String name, Function<T, Integer> value) {
      return new Column<>(new Field(name, Field.Type.INTEGER, 0), value);
    }

    static <T> Column<T> real(String name, int decimals, Function<T, Double> value) {
      return new Column<>(
          new Field(name, Field.Type.REAL, decimals), item -> round(value.apply(item), decimals));
    }

    /** A length or elevation in metres to the millimetre, where there is one. */
    static <T> Column<T> perhaps(String name, Function<T, OptionalDouble> value) {
      return real(
          name,
          3,
          item -> {
            OptionalDouble given = value.apply(item);
            return given.isPresent() ? given.getAsDouble() : null;
          });
    }

    /** {@code yes} or {@code no}, which every format holds alike. */
    static <T> Column<T> flag(String name, Predicate<T> value) {
      return text(name, item -> value.test(item) ? "yes" : "no");
    }

    private static Double round(Double value, int decimals) {
      return value == null || !Double.isFinite(value)
          ? null
          : Double.valueOf(
              BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP).doubleValue());
    }
  }

  /** A layer with a feature for each item; an item without a shape is left out. */
  static <T> Layer of(
      String name,
      String title,
      Shape shape,
      List<T> items,
      Function<T, Geometry> geometry,
      List<Column<T>> columns) {
    List<Feature> features = new ArrayList<>();
    for (T item : items) {
      Geometry drawn = geometry.apply(item);
      if (drawn == null || drawn.isEmpty()) {
        continue;
      }
      List<Object> values = new ArrayList<>();
      columns.forEach(column -> values.add(column.value().apply(item)));
      features.add(new Feature(shape == Shape.AREA ? multi(drawn) : drawn, values));
    }
    return new Layer(name, title, shape, columns.stream().map(Column::field).toList(), features);
  }

  private static Geometry multi(Geometry area) {
    if (area instanceof Polygon polygon) {
      return area.getFactory().createMultiPolygon(new Polygon[] {polygon});
    }
    if (area instanceof MultiPolygon) {
      return area;
    }
    throw new IllegalArgumentException("not an area: " + area.getGeometryType());
  }
}
