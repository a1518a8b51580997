package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Point;
import org.yardfall.elevation.GridFrame;
import org.yardfall.layer.Layer.Shape;
import org.yardfall.route.DrainKind;
import org.yardfall.route.GravityReach;

class LayerSetTest {

  private static final Set<String> NAMES =
      Set.of(
          "altered",
          "low_spots",
          "flow_paths",
          "catchments",
          "inflow",
          "overland",
          "levelled",
          "daylight",
          "standing",
          "reach",
          "reach_lines",
          "drains",
          "stations",
          "outlets",
          "lot",
          "obstacles");

  @Test
  void everyLayerIsThereWhateverWasFound() {
    for (Result result : List.of(ResultFixture.metric(), ResultFixture.empty())) {
      assertEquals(
          NAMES,
          LayerSet.of(result).layers().stream().map(Layer::name).collect(Collectors.toSet()));
    }
  }

  @Test
  void fieldsAreTheSameWithAndWithoutFeatures() {
    LayerSet full = LayerSet.of(ResultFixture.metric());
    LayerSet empty = LayerSet.of(ResultFixture.empty());
    for (String name : NAMES) {
      assertEquals(full.layer(name).fields(), empty.layer(name).fields());
      assertTrue(empty.layer(name).features().isEmpty(), name);
    }
  }

  @Test
  void fieldNamesFitAShapefileAndAreNotTwice() {
    for (Layer layer : LayerSet.of(ResultFixture.metric()).layers()) {
      Set<String> names = new HashSet<>();
      for (Field field : layer.fields()) {
        assertTrue(field.name().matches("[a-z][a-z0-9_]{0,9}"), field.name());
        assertTrue(names.add(field.name()), layer.name() + "." + field.name());
      }
    }
  }

  @Test
  void geometriesAreValidAndOfTheirLayersKind() {
    for (Layer layer : LayerSet.of(ResultFixture.metric()).layers()) {
      assertTrue(!layer.features().isEmpty(), layer.name());
      for (Feature feature : layer.features()) {
        assertEquals(kind(layer.shape()), feature.geometry().getGeometryType());
        assertTrue(feature.geometry().isValid(), layer.name());
        assertEquals(
            layer.shape().hasZ(), !Double.isNaN(feature.geometry().getCoordinate().getZ()));
      }
    }
  }

  @Test
  void aRoutesBranchesAreLinesOfTheirOwn() {
    Layer drains = LayerSet.of(ResultFixture.metric()).layer("drains");
    assertEquals(List.of("R1", "R1", "R2"), values(drains, "id"));
    assertEquals(List.of("main", "B1", "main"), values(drains, "part"));
    assertEquals(Arrays.asList(null, "main", null), values(drains, "joins"));
    assertEquals(List.of(93.0, 25.0), values(drains, "length_m").subList(0, 2));
  }

  @Test
  void theReachIsCutIntoItsClassesWithoutLoss() {
    Result result = ResultFixture.metric();
    Layer layer = LayerSet.of(result).layer("reach");
    GravityReach reach = result.plan().reach().orElseThrow();
    GridFrame frame = reach.frame();
    double reached = 0;
    for (double invert : reach.invertM()) {
      reached += Double.isNaN(invert) ? 0 : frame.cellAreaM2();
    }
    double drawn = layer.features().stream().mapToDouble(f -> f.geometry().getArea()).sum();
    assertEquals(reached, drawn, 0.02 * reached, "but for specks");
    assertTrue(layer.features().size() <= ReachLayer.FROM_M.size());
  }

  @Test
  void aPlaceLiesInTheClassOfItsRoom() {
    Result result = ResultFixture.metric();
    // At the outlet the pipe may lie at 242 + 0.02 - 0.55 - 0.15 - 0.114 = 241.206 at most and at
    // 240.90 at least, so the room is 0.3 m: the class from 0.2 m.
    Point basin = new GeometryFactory().createPoint(result.site().outlets().get(0).at());
    List<Object> classes =
        LayerSet.of(result).layer("reach").features().stream()
            .filter(feature -> feature.geometry().covers(basin))
            .map(feature -> feature.values().get(1))
            .toList();
    assertEquals(List.of(3), classes);
  }

  @Test
  void everyFeatureIsDrawn() {
    for (Layer layer : LayerSet.of(ResultFixture.metric()).layers()) {
      LayerStyle style = LayerStyle.of(layer.name());
      for (Feature feature : layer.features()) {
        assertTrue(style.ruleFor(layer, feature) >= 0);
      }
    }
  }

  @Test
  void everyKindOfDrainHasAStyleOfItsOwn() {
    Set<String> strokes = new HashSet<>();
    for (DrainKind kind : DrainKind.values()) {
      strokes.add(
          LayerStyle.of("drains").rules().stream()
              .filter(rule -> rule.test().orElseThrow().value().equals(kind.word()))
              .findFirst()
              .orElseThrow(() -> new AssertionError("no style for " + kind))
              .symbol()
              .stroke());
    }
    assertEquals(DrainKind.values().length, strokes.size());
  }

  private static List<Object> values(Layer layer, String field) {
    int i = layer.indexOf(field);
    return layer.features().stream().map(feature -> feature.values().get(i)).toList();
  }

  private static String kind(Shape shape) {
    return switch (shape) {
      case POINT, POINT_Z -> Geometry.TYPENAME_POINT;
      case LINE, LINE_Z -> Geometry.TYPENAME_LINESTRING;
      case AREA -> Geometry.TYPENAME_MULTIPOLYGON;
    };
  }
}
