package org.yardfall.site;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateXY;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/**
 * Reads the placemarks of a KML 2.2 document (OGC 07-147r2): a folder is a layer. Coordinates are
 * WGS 84 longitude and latitude; heights are dropped. Attributes are the placemark's name and
 * description and its extended data. Nothing that the document refers to is fetched.
 */
final class KmlReader {

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private final String file;

  private KmlReader(String file) {
    this.file = file;
  }

  /** The folder of the given name, or the only one with placemarks if the name is null. */
  static VectorLayer read(Path path, String layer) {
    String file = path.getFileName().toString();
    return new KmlReader(file).layer(XmlTree.read(path), layer);
  }

  private VectorLayer layer(Element root, String wanted) {
    if (!root.getLocalName().equals("kml")) {
      throw new BadInputException(file, "the file is not KML (it begins with another element)", "");
    }
    Map<String, List<Element>> layers = new TreeMap<>();
    collect(root, "", layers);
    String chosen = wanted;
    if (wanted == null) {
      if (layers.size() > 1) {
        throw new BadInputException(
            file,
            "the file has several folders (" + String.join(", ", layers.keySet()) + ")",
            "name one as layer beside the file");
      }
      chosen = layers.isEmpty() ? "" : layers.keySet().iterator().next();
    } else if (!layers.containsKey(wanted)) {
      throw new BadInputException(
          file,
          "there is no folder '" + wanted + "' with placemarks",
          Nearest.suggestion(wanted, layers.keySet(), "")
              + " its folders are "
              + String.join(", ", layers.keySet()));
    }
    List<VectorFeature> features = new ArrayList<>();
    Set<String> fields = new LinkedHashSet<>();
    for (Element placemark : layers.getOrDefault(chosen, List.of())) {
      VectorFeature feature = feature(placemark, features.size() + 1);
      fields.addAll(feature.attributes().keySet());
      features.add(feature);
    }
    return new VectorLayer(
        layers.size() > 1 ? file + " layer " + chosen : file,
        Optional.of(DefaultGeographicCRS.WGS84),
        List.copyOf(fields),
        features);
  }

  /** Gathers the placemarks by the name of the innermost folder that they stand in. */
  private static void collect(Element within, String folder, Map<String, List<Element>> layers) {
    for (Element child : children(within)) {
      switch (child.getLocalName()) {
        case "Placemark" -> layers.computeIfAbsent(folder, f -> new ArrayList<>()).add(child);
        case "Folder" -> collect(child, text(child, "name").orElse(folder), layers);
        case "Document" -> collect(child, folder, layers);
        default -> {
          // styles, schemas, overlays
        }
      }
    }
  }

  private VectorFeature feature(Element placemark, int number) {
    Map<String, String> attributes = new LinkedHashMap<>();
    text(placemark, "name").ifPresent(name -> attributes.put("name", name));
    text(placemark, "description").ifPresent(words -> attributes.put("description", words));
    for (Element extended : children(placemark, "ExtendedData")) {
      for (Element data : children(extended, "Data")) {
        text(data, "value").ifPresent(value -> attributes.put(data.getAttribute("name"), value));
      }
      for (Element table : children(extended, "SchemaData")) {
        for (Element data : children(table, "SimpleData")) {
          attributes.put(data.getAttribute("name"), data.getTextContent().strip());
        }
      }
    }
    String id = placemark.getAttribute("id");
    try {
      List<Geometry> shapes = new ArrayList<>();
      children(placemark).forEach(child -> add(child, shapes));
      return new VectorFeature(
          id.isEmpty() ? Integer.toString(number) : id,
          shapes.isEmpty() ? null : GEOMETRIES.buildGeometry(shapes),
          attributes);
    } catch (IllegalArgumentException e) {
      throw new BadInputException(
          file, "placemark " + number + " is damaged: " + e.getMessage(), "");
    }
  }

  /** Adds the geometry that an element is, or that stands in it. */
  private static void add(Element element, List<Geometry> to) {
    switch (element.getLocalName()) {
      case "Point" -> to.add(GEOMETRIES.createPoint(coordinates(element)[0]));
      case "LineString" -> to.add(GEOMETRIES.createLineString(coordinates(element)));
      case "LinearRing" -> to.add(GEOMETRIES.createLinearRing(coordinates(element)));
      case "Polygon" -> to.add(polygon(element));
      case "MultiGeometry" -> children(element).forEach(child -> add(child, to));
      default -> {
        // no geometry
      }
    }
  }

  private static Polygon polygon(Element element) {
    List<LinearRing> outer = rings(element, "outerBoundaryIs");
    if (outer.size() != 1) {
      throw new IllegalArgumentException("a polygon has not one outer boundary");
    }
    return GEOMETRIES.createPolygon(
        outer.get(0), rings(element, "innerBoundaryIs").toArray(LinearRing[]::new));
  }

  private static List<LinearRing> rings(Element polygon, String role) {
    return children(polygon, role).stream()
        .flatMap(boundary -> children(boundary, "LinearRing").stream())
        .map(ring -> GEOMETRIES.createLinearRing(coordinates(ring)))
        .toList();
  }

  private static Coordinate[] coordinates(Element of) {
    String text = text(of, "coordinates").orElse("");
    List<Coordinate> places = new ArrayList<>();
    for (String tuple : text.strip().split("\\s+", -1)) {
      String[] parts = tuple.split(",", -1);
      if (parts.length < 2) {
        throw new IllegalArgumentException("a position is not two numbers");
      }
      try {
        places.add(new CoordinateXY(Double.parseDouble(parts[0]), Double.parseDouble(parts[1])));
      } catch (NumberFormatException e) {
        throw new IllegalArgumentException("a position is not two numbers", e);
      }
    }
    return places.toArray(Coordinate[]::new);
  }

  private static Optional<String> text(Element parent, String name) {
    return children(parent, name).stream().map(e -> e.getTextContent().strip()).findFirst();
  }

  private static List<Element> children(Element parent, String name) {
    return children(parent).stream().filter(e -> e.getLocalName().equals(name)).toList();
  }

  private static List<Element> children(Element parent) {
    List<Element> children = new ArrayList<>();
    for (Node node = parent.getFirstChild(); node != null; node = node.getNextSibling()) {
      if (node instanceof Element element) {
        children.add(element);
      }
    }
    return children;
  }
}
