package org.yardfall.sheet;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.layer.CleanText;
import org.yardfall.layer.Symbol;

/** Shapes of the review page, in metres east and north of the page's origin. */
final class PageShapes {

  private static final double MM = 1000;

  private final double west;
  private final double south;

  PageShapes(double west, double south) {
    this.west = west;
    this.south = south;
  }

  double east(double x) {
    return Math.rint((x - west) * MM) / MM;
  }

  double north(double y) {
    return Math.rint((y - south) * MM) / MM;
  }

  /** Adds a layer and gives its list of features. */
  static ArrayNode layer(ArrayNode layers, String id, String title, boolean shown) {
    ObjectNode layer = layers.addObject();
    layer.put("id", id).put("title", title).put("on", shown);
    return layer.putArray("features");
  }

  /** Adds a feature for each part of a geometry. */
  void add(ArrayNode features, Geometry geometry, Symbol symbol, List<String> tip) {
    for (int i = 0; i < geometry.getNumGeometries(); i++) {
      Geometry part = geometry.getGeometryN(i);
      ObjectNode feature = features.addObject();
      ArrayNode rings = feature.putArray("c");
      if (part instanceof Polygon polygon) {
        feature.put("kind", "area");
        ring(rings, polygon.getExteriorRing());
        for (int hole = 0; hole < polygon.getNumInteriorRing(); hole++) {
          ring(rings, polygon.getInteriorRingN(hole));
        }
      } else {
        feature.put("kind", part.getDimension() == 0 ? "point" : "line");
        ring(rings, part);
      }
      style(feature, symbol);
      ArrayNode words = feature.putArray("tip");
      tip.forEach(line -> words.add(CleanText.of(line)));
    }
  }

  void point(ArrayNode xy, double x, double y) {
    xy.add(east(x)).add(north(y));
  }

  private void ring(ArrayNode rings, Geometry line) {
    ArrayNode points = rings.addArray();
    for (Coordinate c : line.getCoordinates()) {
      point(points.addArray(), c.x, c.y);
    }
  }

  private static void style(ObjectNode feature, Symbol symbol) {
    ObjectNode style = feature.putObject("style");
    style.put("color", symbol.stroke()).put("weight", symbol.widthPx());
    symbol.fill().ifPresent(fill -> style.put("fillColor", fill));
    style.put("fill", symbol.fill().isPresent()).put("fillOpacity", symbol.fillOpacity());
    if (symbol.dashed()) {
      style.put("dashArray", "6 4");
    }
  }
}
