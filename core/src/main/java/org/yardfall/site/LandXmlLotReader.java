package org.yardfall.site;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateXY;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;

/**
 * Reads the parcels of a LandXML file (1.0 to 1.2), or its plan features where it holds none: lines
 * and arcs, whose ends may refer to its points. Coordinates are northing, easting in the file's
 * linear unit; they leave easting first in the CRS's. The name is the only attribute.
 */
final class LandXmlLotReader {

  /** How far the chords of an arc may lie off it. */
  private static final double SAGITTA_M = 0.005;

  private static final Map<String, Double> UNITS =
      Map.of(
          "millimeter", 0.001,
          "centimeter", 0.01,
          "meter", 1.0,
          "kilometer", 1000.0,
          "inch", 0.0254,
          "foot", WorkingCrs.INTERNATIONAL_FOOT_M,
          "ussurveyfoot", WorkingCrs.US_SURVEY_FOOT_M);

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private final String file;
  private final double scale;
  private final double sagitta;
  private final Map<String, Coordinate> points = new HashMap<>();

  private LandXmlLotReader(String file, double unitM, double crsUnitM) {
    this.file = file;
    this.scale = unitM / crsUnitM;
    this.sagitta = SAGITTA_M / crsUnitM;
  }

  /**
   * The parcels of a file.
   *
   * @throws BadInputException if it is no LandXML, names no known unit, has no CRS of its own and
   *     is given none, or an outline cannot be followed
   */
  static VectorLayer read(LayerSource source) {
    String file = source.file().getFileName().toString();
    Element root = XmlTree.read(source.file());
    if (!root.getLocalName().equals("LandXML")) {
      throw new BadInputException(
          file, "the file is XML but not LandXML (it begins with another element)", "");
    }
    Optional<CoordinateReferenceSystem> crs =
        Optional.ofNullable(source.crs())
            .or(() -> epsgCode(root))
            .map(name -> CrsLookup.decode(name, file + " crs " + name));
    double crsUnitM =
        crs.filter(CrsLookup::isProjected)
            .map(CrsLookup::metresPerUnit)
            .orElseThrow(
                () ->
                    new BadInputException(
                        file,
                        "the file names no projected CRS",
                        "give it as crs beside the file, such as crs: EPSG:26915"));
    return new LandXmlLotReader(file, unitM(root, file), crsUnitM).layer(root, crs);
  }

  private static Optional<String> epsgCode(Element root) {
    return elements(root, "CoordinateSystem").stream()
        .map(element -> element.getAttribute("epsgCode").strip())
        .filter(code -> code.matches("(?i)(EPSG:)?\\d+"))
        .map(code -> code.toUpperCase(Locale.ROOT).replace("EPSG:", ""))
        .map(code -> "EPSG:" + code)
        .findFirst();
  }

  private static double unitM(Element root, String file) {
    for (String system : List.of("Metric", "Imperial")) {
      for (Element units : elements(root, system)) {
        String word = units.getAttribute("linearUnit");
        Double metres = UNITS.get(word.toLowerCase(Locale.ROOT));
        if (metres == null) {
          throw new BadInputException(
              file, "its linear unit '" + word + "' is unknown", "export it in metres or feet");
        }
        return metres;
      }
    }
    throw new BadInputException(file, "the file does not name its unit", "export it with Units");
  }

  private VectorLayer layer(Element root, Optional<CoordinateReferenceSystem> crs) {
    for (Element point : elements(root, "CgPoint")) {
      numbers(point).ifPresent(at -> points.put(point.getAttribute("name"), at));
    }
    List<Element> outlines = elements(root, "Parcel");
    if (outlines.isEmpty()) {
      outlines = elements(root, "PlanFeature");
    }
    List<VectorFeature> features = new ArrayList<>();
    for (Element outline : outlines) {
      String name = outline.getAttribute("name");
      List<Coordinate> line = new ArrayList<>();
      children(outline).stream()
          .filter(child -> child.getLocalName().equals("CoordGeom"))
          .flatMap(geometry -> children(geometry).stream())
          .forEach(piece -> follow(piece, line, name));
      if (line.size() > 1) {
        features.add(
            new VectorFeature(
                String.valueOf(features.size() + 1), geometry(line), Map.of("name", name)));
      }
    }
    return new VectorLayer(file, crs, List.of("name"), features);
  }

  /** A polygon where the line comes back to its beginning. */
  private Geometry geometry(List<Coordinate> line) {
    Coordinate first = line.get(0);
    Coordinate last = line.get(line.size() - 1);
    if (line.size() > 3 && first.distance(last) < 2 * sagitta) {
      line.set(line.size() - 1, first.copy());
      return GEOMETRIES.createPolygon(line.toArray(Coordinate[]::new));
    }
    return GEOMETRIES.createLineString(line.toArray(Coordinate[]::new));
  }

  private void follow(Element piece, List<Coordinate> line, String name) {
    switch (piece.getLocalName()) {
      case "Line" -> {
        add(line, end(piece, "Start", name));
        add(line, end(piece, "End", name));
      }
      case "Curve" -> arc(piece, line, name);
      case "IrregularLine" -> {
        for (Element list : elements(piece, "PntList2D")) {
          double[] numbers = allNumbers(list, name);
          for (int i = 0; i + 1 < numbers.length; i += 2) {
            add(line, new CoordinateXY(scale * numbers[i + 1], scale * numbers[i]));
          }
        }
      }
      default ->
          throw bad(
              "the outline of '" + name + "' has a " + piece.getLocalName(),
              "export it with lines and arcs");
    }
  }

  private void arc(Element piece, List<Coordinate> line, String name) {
    Coordinate start = end(piece, "Start", name);
    Coordinate centre = end(piece, "Center", name);
    Coordinate end = end(piece, "End", name);
    double radius = centre.distance(start);
    double from = Math.atan2(start.y - centre.y, start.x - centre.x);
    double turn = Math.atan2(end.y - centre.y, end.x - centre.x) - from;
    boolean clockwise = piece.getAttribute("rot").equals("cw");
    if (clockwise && turn > 0) {
      turn -= 2 * Math.PI;
    } else if (!clockwise && turn < 0) {
      turn += 2 * Math.PI;
    }
    double step = radius > sagitta ? 2 * Math.acos(1 - sagitta / radius) : Math.PI;
    int pieces = Math.max(1, (int) Math.ceil(Math.abs(turn) / step));
    add(line, start);
    for (int i = 1; i < pieces; i++) {
      double angle = from + turn * i / pieces;
      add(
          line,
          new CoordinateXY(
              centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle)));
    }
    add(line, end);
  }

  private void add(List<Coordinate> line, Coordinate at) {
    if (line.isEmpty() || line.get(line.size() - 1).distance(at) > sagitta / 100) {
      line.add(at);
    }
  }

  private Coordinate end(Element piece, String which, String name) {
    Element place =
        children(piece).stream()
            .filter(child -> child.getLocalName().equals(which))
            .findFirst()
            .orElseThrow(() -> bad("the outline of '" + name + "' lacks its " + which, "mend it"));
    String reference = place.getAttribute("pntRef");
    return Optional.ofNullable(reference.isEmpty() ? null : points.get(reference))
        .or(() -> numbers(place))
        .orElseThrow(
            () ->
                bad(
                    "the outline of '" + name + "' has a " + which + " without coordinates",
                    "mend it"));
  }

  private Optional<Coordinate> numbers(Element place) {
    String[] words = place.getTextContent().strip().split("\\s+", -1);
    if (words.length < 2) {
      return Optional.empty();
    }
    return Optional.of(
        new CoordinateXY(scale * number(words[1], place), scale * number(words[0], place)));
  }

  private double[] allNumbers(Element list, String name) {
    String text = list.getTextContent().strip();
    if (text.isEmpty()) {
      throw bad("the outline of '" + name + "' has an empty line", "mend it");
    }
    String[] words = text.split("\\s+", -1);
    double[] numbers = new double[words.length];
    for (int i = 0; i < words.length; i++) {
      numbers[i] = number(words[i], list);
    }
    return numbers;
  }

  private double number(String word, Element of) {
    try {
      double number = Double.parseDouble(word);
      if (Double.isFinite(number)) {
        return number;
      }
    } catch (NumberFormatException e) {
      // said below
    }
    throw bad("'" + word + "' in a " + of.getLocalName() + " is no coordinate", "export it again");
  }

  private static List<Element> elements(Element within, String name) {
    NodeList found = within.getElementsByTagNameNS("*", name);
    List<Element> elements = new ArrayList<>(found.getLength());
    for (int i = 0; i < found.getLength(); i++) {
      elements.add((Element) found.item(i));
    }
    return elements;
  }

  private static List<Element> children(Element parent) {
    List<Element> children = new ArrayList<>();
    for (Node n = parent.getFirstChild(); n != null; n = n.getNextSibling()) {
      if (n instanceof Element element) {
        children.add(element);
      }
    }
    return children;
  }

  private BadInputException bad(String what, String mend) {
    return new BadInputException(file, what, mend);
  }
}
